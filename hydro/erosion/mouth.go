package erosion

import (
	"math"

	"siltstep/hydro/channel"
)

// How wide the drainage is that a tributary joins. Source: our own choice.
const (
	mouthCells      = 3.0 // cell sides between its banks at least: closer ones do not show
	mouthSlackM     = 2.0 // m; how far the middle between the banks may lie off the channel line, at least
	mouthSlackCells = 2.0 // and as many cell sides
)

// LeaveMouths takes the incision at the mouth of each tributary out of its Depths: the piece from the
// confluence up that lies between the banks of the drainage it joins is a cut of that drainage, not
// its own. IncisionM and BankSlope become NaN there, and what is told of the depths as a whole is told anew. judged
// has one for each drainage, in order, with Depths filled in. Where the banks of the larger drainage are not
// seen, three cells count as its width. It panics where judged and the network differ in length.
func LeaveMouths(n *channel.Network, judged []Judgement, cellM float64, cfg Config) {
	if len(judged) != len(n.Drainages) {
		panic("erosion: one judgement is needed for each drainage")
	}
	for i := range n.Drainages {
		d := &n.Drainages[i]
		if d.Into < 0 {
			continue
		}
		depths := &judged[i].Depths
		count := mouthStations(d.Profile, n.Drainages[d.Into].Profile, judged[d.Into].Depths.BankToBankM, cellM)
		for k := range min(count, len(depths.IncisionM)) {
			depths.IncisionM[k], depths.BankSlope[k] = math.NaN(), math.NaN()
		}
		depths.summarise(d.Profile.Stations, cfg.IncisedM)
	}
}

// mouthStations returns how many stations of a tributary, from its lower end, lie between the banks of
// the drainage it joins. A width that is not known is that of the last place where it was.
func mouthStations(p, into channel.Profile, bankToBankM []float64, cellM float64) int {
	if len(p.Stations) == 0 || len(into.Stations) == 0 {
		return 0
	}
	at := nearestOf(into, p.Stations[0])
	leastM, slackM := mouthCells*cellM, max(mouthSlackM, mouthSlackCells*cellM)
	widthM := leastM
	for i, s := range p.Stations {
		at = walk(into, at, s)
		if known(bankToBankM, at) {
			widthM = max(leastM, bankToBankM[at])
		}
		if distanceM(into.Stations[at], s) > widthM/2+slackM {
			return i
		}
	}
	return len(p.Stations)
}

// nearestOf returns the station of a profile nearest to a place.
func nearestOf(p channel.Profile, s channel.Station) int {
	best, bestM2 := 0, math.Inf(1)
	for i := range p.Stations {
		dx, dy := p.Stations[i].X-s.X, p.Stations[i].Y-s.Y
		if m2 := dx*dx + dy*dy; m2 < bestM2 {
			best, bestM2 = i, m2
		}
	}
	return best
}

// walk returns the station of a profile nearest to a place, as far as one comes nearer step by step.
func walk(p channel.Profile, from int, s channel.Station) int {
	for _, step := range []int{1, -1} {
		for k := from + step; k >= 0 && k < len(p.Stations) && distanceM(p.Stations[k], s) < distanceM(p.Stations[from], s); k += step {
			from = k
		}
	}
	return from
}

// distanceM returns the distance of two stations on the map, m.
func distanceM(a, b channel.Station) float64 { return math.Hypot(a.X-b.X, a.Y-b.Y) }
