package channel

import (
	"siltstep/hydro/flow"
	"siltstep/raster"
)

// marks tells which cells of a field are no place to read a bed from.
type marks struct {
	field *flow.Field
	cut   map[int]struct{} // cells lowered by cuts that are no noise
}

// marksOf gathers the cells lowered by cuts that leave no bed. The many small ones that only let
// a pit of the survey drain lie on the bed itself.
func marksOf(g *raster.Grid, f *flow.Field) marks {
	m := marks{field: f, cut: map[int]struct{}{}}
	for i := range f.Cuts {
		c := &f.Cuts[i]
		if !LeavesNoBed(g, f, c) {
			continue
		}
		for _, cell := range c.Cells {
			if f.FilledMM[cell] < g.MM[cell] {
				m.cut[cell] = struct{}{}
			}
		}
	}
	return m
}

// DeepCutM is the depth from which a cut is no noise of the survey however short, m. Source: our
// own choice, six times a vertical error of 0.1 m.
const DeepCutM = 0.6

// LeavesNoBed reports whether a cut is more than noise of the survey: declared as a culvert,
// through a road fill by StandingM or more, DeepCutM deep, or as deep, and over MaxFillM deep for
// as long, as water that counts as standing. No bed is read under such a cut.
func LeavesNoBed(g *raster.Grid, f *flow.Field, c *flow.Cut) bool {
	if c.Cause == flow.CauseCulvert || c.Cause == flow.CauseRoadFill && c.DepthM >= StandingM || c.DepthM >= DeepCutM {
		return true
	}
	deep := 0
	for _, cell := range c.Cells {
		if float64(g.MM[cell]-f.FilledMM[cell]) > 1000*MaxFillM {
			deep++
		}
	}
	return tooDeepForNoise(c.DepthM, float64(deep)*g.Transform.CellM)
}

// mark sets what stands in the way of reading a bed at each station. Below standing water the
// ground that is not lower than the deepest of it is what holds the water: a fill, a dam, a bank.
func (m marks) mark(p Profile) {
	st := p.Stations
	for i := range st {
		_, cut := m.cut[st[i].Cell]
		st[i].Cut, st[i].StockPond = cut, m.inStockPond(st[i].Cell)
		st[i].NoBed = st[i].Cut || st[i].StockPond
	}
	for _, w := range Stretches(p) {
		if !w.Standing {
			continue
		}
		lowest := st[w.First].GroundM
		for i := w.First; i <= w.Last; i++ {
			st[i].NoBed = true
			lowest = min(lowest, st[i].GroundM)
		}
		for i := w.First - 1; i >= 0 && st[i].GroundM >= lowest; i-- {
			st[i].NoBed = true
		}
	}
}

// inStockPond reports whether a cell lies in a stock pond or playa, declared or likely.
func (m marks) inStockPond(cell int) bool { return m.field.InStockPond(cell) }
