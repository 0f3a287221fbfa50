package siting

import (
	"math"

	"siltstep/hydro/channel"
)

// faults are the reasons that hold at a station, one bit each. Too little and too much are
// kept apart, so that the worst value of a reach has one direction.
type faults uint16

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
	tooShort // of a whole reach
)

// judge returns what keeps a dam from standing at station i; blocked is what of the ground itself
// does, incision that of a window around every station. Where no bed is seen its slope and its
// incision are no faults of their own.
func judge(d *channel.Drainage, i int, blocked faults, incision windowed, cellM float64, cfg Config, inside Area) faults {
	st := d.Profile.Stations[i]
	f := blocked | judgeCatchment(st.CatchmentM2, cfg)
	if !st.NoBed {
		f |= judgeSlope(st.Slope, cfg) | incision.judge(i, cfg)
	}
	if inside != nil && !bodyInside(bed{d.Profile.Stations}, st.StationM, cfg.bodyM(), inside) {
		f |= offProperty
	}
	if cellM > MaxSiteCellM && !cfg.AllowCoarse {
		f |= coarse
	}
	if i == 0 && d.Into >= 0 {
		f |= atConfluence
	}
	return f
}

func judgeSlope(slope float64, cfg Config) faults {
	switch {
	case slope < cfg.SlopeMin:
		return tooFlat
	case slope > cfg.steepest():
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
