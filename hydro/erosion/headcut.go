package erosion

import (
	"math"

	"siltstep/hydro/channel"
)

// How near what is no bed lies for it to be the cause of a step, and how far from the ends of a drainage steps are told.
const (
	besideM  = 5.0  // m to either side of a cut, as at a culvert. Source: our own choice.
	outletM  = 10.0 // m below a cut or a dam: water that leaves one scours that far at least. Source: our own choice.
	mouthM   = 5.0  // m above a confluence: half a bed and a bank of the receiving drainage. Source: our own choice.
	mouthRun = 3.0  // and as many cell sides
	levelTo  = 0.25 // times the slope of the bed below is level for the bed above: something holds it. Source: our own choice.
	fallOf   = 0.03 // rise over run of the bed below; where it falls less, a level bed above tells nothing. Source: our own choice.
	headM    = 5.0  // m below the channel head: the drainage still comes down a hillside. Source: our own choice.
)

// Headcuts finds the steps in the bed of a drainage, from the lower end upstream. cellM is the cell size in metres,
// noiseM the standard deviation of a cell's own error in metres.
//
// A step is told where the raw bed above (Station.GroundM) lies higher than the bed below drawn out to it: by cfg.HeadcutM, by
// 3·√2·noiseM and by four standard errors of the two at least, both at the foot and at the lip, so that a bed which only bends is
// none. Its face, less what cells blur, rises one in one at least and three times as steeply as the bed around it: over
// cells of more than 2 m few can be told, over 5 m hardly any. The lip is the lowest station of the bed above.
//
// None is told on stations without a bed, where less than 3 m is seen of the bed above or below, within 5 m of the
// upper end, and within 5 m of a confluence, where water falls over the bank of the receiving drainage. Where it does
// so farther up, and then runs beside that drainage, a single drainage cannot tell: see NetworkHeadcuts.
// No stations give nil. A noiseM that is below zero or not a number counts as zero. Cost is linear in the stations.
func Headcuts(d *channel.Drainage, cellM, noiseM float64, cfg Config) []Headcut {
	var out []Headcut
	for _, p := range stepsOf(d, cellM, noiseM, cfg) {
		out = append(out, headcutAt(d.Profile.Stations, p))
	}
	return out
}

// stepsOf returns the steps of a drainage that Headcuts tells, by stations of its profile.
func stepsOf(d *channel.Drainage, cellM, noiseM float64, cfg Config) []step {
	st := d.Profile.Stations
	lowestM := math.Inf(-1) // no foot of a step below it
	first := 0
	if d.Into >= 0 {
		lowestM, first = max(mouthM, mouthRun*cellM), 1 // the confluence is ground of the receiving drainage
	}
	highestM := d.Profile.LengthM() - headM
	if !(noiseM > 0) {
		noiseM = 0
	}
	lim := limits{cellM: cellM, noiseM: noiseM, leastM: max(cfg.HeadcutM, 3*math.Sqrt2*noiseM)}
	var out []step
	for from := first; from < len(st); {
		to := from
		for to < len(st) && !st[to].NoBed {
			to++
		}
		for _, p := range steps(st[from:to], lim) {
			p.foot += from
			p.lip += from
			if lowestM <= st[p.foot].StationM && st[p.lip].StationM <= highestM {
				out = append(out, p)
			}
		}
		from = to + 1
	}
	return out
}

// headcutAt returns the headcut of a step.
func headcutAt(st []channel.Station, p step) Headcut {
	at := st[p.lip]
	return Headcut{
		StationM: at.StationM, X: at.X, Y: at.Y, HeightM: p.heightM,
		CatchmentM2: at.CatchmentM2, Cause: causeOf(st, p),
	}
}

// causeOf tells what a step stands at: a cut within besideM of it or within outletM above it, else other ground there
// that is no bed, such as a pond and the dam that holds it, or a bed above that lies level where the one below falls:
// an old dam and the silt or the water behind it, which no one has drawn in.
func causeOf(st []channel.Station, p step) Cause {
	cause := CauseHeadcut
	if p.below.slope >= fallOf && p.aboveSlope <= levelTo*p.below.slope {
		cause = CauseDam
	}
	look := func(s channel.Station) {
		switch {
		case s.Cut:
			cause = CauseRoad
		case s.NoBed && cause == CauseHeadcut:
			cause = CauseDam
		}
	}
	for i := p.foot; i >= 0 && st[p.foot].StationM-st[i].StationM <= besideM; i-- {
		look(st[i])
	}
	for i := p.lip; i < len(st) && st[i].StationM-st[p.lip].StationM <= outletM; i++ {
		look(st[i])
	}
	return cause
}
