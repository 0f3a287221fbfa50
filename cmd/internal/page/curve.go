package page

import (
	"math"

	"siltstep/cmd/internal/facts"
)

// How far a thinned profile may lie from the profile; our own choices, well below what a survey resolves.
const (
	bedWithinM    = 0.01
	groundWithinM = 0.05
	depthWithinM  = 0.05 // incision
	placeWithinM  = 0.25 // on the map
)

// A curve is a longitudinal profile as whole numbers, each the difference from the known one before: stations, places on the map and incision in
// centimetres, levels in millimetres, slope in ten-thousandths, catchment in square metres. What is not known is null.
type curve struct {
	Station  []*int `json:"station"`
	X        []*int `json:"x"`
	Y        []*int `json:"y"`
	Bed      []*int `json:"bed"`
	Ground   []*int `json:"ground"`
	Incision []*int `json:"incision"`
	Slope    []*int `json:"slope"`
	Covers   []*int `json:"catchment"`
}

// curve packs the stations of a profile that are needed to draw it.
func (o origin) curve(p facts.Profile) curve {
	kept := thinned(p)
	column := func(perUnit, from float64, value func(facts.Station) float64) []*int {
		x := make([]float64, len(kept))
		for i, k := range kept {
			x[i] = value(p[k]) - from
		}
		return differences(x, perUnit)
	}
	return curve{
		Station:  column(100, 0, func(s facts.Station) float64 { return s.StationM }),
		X:        column(100, o.westM, func(s facts.Station) float64 { return float64(s.XM) }),
		Y:        column(100, o.southM, func(s facts.Station) float64 { return float64(s.YM) }),
		Bed:      column(1000, 0, func(s facts.Station) float64 { return s.BedM }),
		Ground:   column(1000, 0, func(s facts.Station) float64 { return s.GroundM }),
		Incision: column(100, 0, func(s facts.Station) float64 { return s.IncisionM }),
		Slope:    column(10000, 0, func(s facts.Station) float64 { return s.Slope }),
		Covers:   column(10000, 0, func(s facts.Station) float64 { return s.CatchmentHa }),
	}
}

// differences returns values as whole numbers of a unit, each less the known one before; nil for NaN.
func differences(x []float64, perUnit float64) []*int {
	packed := make([]*int, len(x))
	last := 0
	for i, v := range x {
		if math.IsNaN(v) || math.IsInf(v, 0) {
			continue
		}
		whole := int(math.Round(v * perUnit))
		step := whole - last
		packed[i], last = &step, whole
	}
	return packed
}

// thinned returns which stations of a profile are needed: first and last, those at dams, and enough others that straight lines between them stay
// within the limits.
func thinned(p facts.Profile) (kept []int) {
	if len(p) == 0 {
		return nil
	}
	from := 0
	kept = append(kept, 0)
	for i := 1; i < len(p); i++ {
		if i == len(p)-1 || p[i].DamID != "" {
			kept = split(p, from, i, kept)
			from = i
		}
	}
	return kept
}

// split adds the stations that are needed after one that is kept, up to another, which is among them.
func split(p facts.Profile, from, to int, kept []int) []int {
	worst, at := 1.0, 0
	for i := from + 1; i < to; i++ {
		if off := apart(p[from], p[i], p[to]); off > worst {
			worst, at = off, i
		}
	}
	if at == 0 {
		return append(kept, to)
	}
	return split(p, at, to, split(p, from, at, kept))
}

// apart returns how far a station lies from the straight line between two others, as a multiple of what is allowed. Infinity where a value is known
// at one of the three and not at another.
func apart(a, s, b facts.Station) float64 {
	t := 0.0
	if b.StationM > a.StationM {
		t = (s.StationM - a.StationM) / (b.StationM - a.StationM)
	}
	off := func(a, s, b, within float64) float64 {
		unknown := math.IsNaN(s)
		if unknown != math.IsNaN(a) || unknown != math.IsNaN(b) {
			return math.Inf(1)
		}
		if unknown {
			return 0
		}
		return math.Abs(s-a-t*(b-a)) / within
	}
	place := math.Hypot(off(float64(a.XM), float64(s.XM), float64(b.XM), placeWithinM), off(float64(a.YM), float64(s.YM), float64(b.YM), placeWithinM))
	return max(off(a.BedM, s.BedM, b.BedM, bedWithinM), off(a.GroundM, s.GroundM, b.GroundM, groundWithinM), off(a.IncisionM, s.IncisionM, b.IncisionM, depthWithinM), place)
}

// A cut is a cross-section at a dam as whole numbers, each the difference from the known one before: offsets and levels in millimetres. What is not
// known is null.
type cut struct {
	Offset []*int `json:"offset"`
	Ground []*int `json:"ground"`
	Dam    []*int `json:"dam"`
}

func packSection(s facts.Section) cut {
	offset, ground, dam := make([]float64, len(s)), make([]float64, len(s)), make([]float64, len(s))
	for i, p := range s {
		offset[i], ground[i], dam[i] = p.OffsetM, p.GroundM, p.DamM
	}
	return cut{differences(offset, 1000), differences(ground, 1000), differences(dam, 1000)}
}
