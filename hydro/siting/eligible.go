package siting

import (
	"math"

	"siltstep/hydro/channel"
)

// faults are the reasons that hold at a station, one bit each. Too little and too much are
// kept apart, so that the worst value of a reach has one direction.
type faults uint32

// The faults of the land come first: there a metre of channel is none to be treated.
const (
	tooFlat faults = 1 << iota
	tooSteep
	slopeUnknown
	tooSmall
	tooLarge
	tooShallow
	incisionUnknown
	standingWater
	onCut
	inStockPond
	offProperty
	coarse
	atConfluence
	excluded
	nearBuilding
	nearRoad
	nearStream

	// The faults of a place keep a dam off a station, not silt from covering it.
	noSection
	wideBed
	wideTop
	lowBanks
	nearConfluence
	onBend
	overProperty
	overExclusion

	tooShort // of a whole reach
)

// judge finds what keeps dams from the stations of one drainage.
type judge struct {
	d        *channel.Drainage
	bed      bed
	cellM    float64
	cfg      Config
	inside   Area
	ground   Ground
	near     surroundings
	incision windowed
	steepest float64 // greatest slope of an eligible bed, rise over run
	halfM    float64 // half the body of the least dam, m
	chordM   float64 // over which a bend is told, m

	land, place []faults // by station; a place is judged where the land has no fault
	places      []Place  // by station; zero where Ground.PlaceAt was not asked
}

// newJudge judges every station of a drainage, the land first.
func newJudge(d *channel.Drainage, cellM float64, cfg Config, inside Area, ground Ground) *judge {
	n := len(d.Profile.Stations)
	j := &judge{
		d: d, bed: bed{d.Profile.Stations}, cellM: cellM, cfg: cfg, inside: inside, ground: ground,
		near:     surroundingsOf(d.Profile, cfg),
		incision: incisionOf(d.Profile, ground, cellM),
		steepest: cfg.steepest(),
		halfM:    cfg.body().LengthM(cfg.Heights()[0]) / 2,
		chordM:   bendChord(cellM, cfg.BendRadiusM),
		land:     blocked(d.Profile),
		place:    make([]faults, n),
		places:   make([]Place, n),
	}
	for i := range n {
		j.land[i] |= j.judgeLand(i)
		if j.land[i] == 0 {
			j.land[i] = j.judgeNear(i)
		}
		if j.land[i] == 0 {
			j.place[i] = j.judgePlace(i)
		}
	}
	return j
}

// judgeLand returns the faults of the land at station i, those of its surroundings left out. Where no bed is seen its
// slope and its incision are no faults of their own.
func (j *judge) judgeLand(i int) faults {
	st := j.d.Profile.Stations[i]
	f := judgeCatchment(st.CatchmentM2, j.cfg)
	if !st.NoBed {
		f |= judgeSlope(st.Slope, j.cfg.SlopeMin, j.steepest) | j.incision.judge(i, j.cfg)
	}
	if j.inside != nil && !j.inside(st.X, st.Y) {
		f |= offProperty
	}
	if j.cellM > MaxSiteCellM && !j.cfg.AllowCoarse {
		f |= coarse
	}
	if i == 0 && j.d.Into >= 0 {
		f |= atConfluence
	}
	return f
}

// judgeNear returns what a station stands too near to; it is asked only where the land has no other fault.
func (j *judge) judgeNear(i int) (f faults) {
	st := j.d.Profile.Stations[i]
	if j.near.exclusions.distanceM(st.X, st.Y) < levelM { // on the line is inside
		f |= excluded
	}
	if nearer(j.near.buildings.distanceM(st.X, st.Y), j.cfg.BuildingM) {
		f |= nearBuilding
	}
	if nearer(j.near.roads.distanceM(st.X, st.Y), j.cfg.RoadM) {
		f |= nearRoad
	}
	if nearer(j.near.streams.distanceM(st.X, st.Y), j.cfg.StreamM) {
		f |= nearStream
	}
	return f
}

// nearer reports whether a distance falls short of a limit by more than rounding, m.
func nearer(distM, limitM float64) bool { return distM < limitM-levelM }

func judgeSlope(slope, least, most float64) faults {
	switch {
	case slope < least:
		return tooFlat
	case slope > most:
		return tooSteep
	case math.IsNaN(slope):
		return slopeUnknown
	}
	return 0
}

func judgeCatchment(m2 float64, cfg Config) faults {
	switch {
	case m2 > cfg.CatchmentMaxM2:
		return tooLarge
	case !(m2 >= cfg.CatchmentMinM2):
		return tooSmall
	}
	return 0
}
