package hydro

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"siltstep/hydro/channel"
	"siltstep/hydro/flow"
	"siltstep/raster"
)

// What was done with ground that holds water back.
const (
	DepressionCut    = "cut"    // what held the water back was cut through
	DepressionFilled = "filled" // filled to where it spills
	DepressionKept   = "kept"   // declared water, left as it is
)

// Depression is a place that holds water back in the elevation model, and what was done with it.
type Depression struct {
	ID       string // C01, F01, K01 … of cuts, filled and kept, by volume, largest first
	Kind     string // one of the Depression… names
	Cause    flow.Cause
	X, Y     float64 // deepest place, m
	DepthM   float64 // of the cut or of the water, m
	LengthM  float64 // of the cut, m; NaN where there is none
	AreaM2   float64 // cells lowered, or under water, m²
	VolumeM3 float64
	Drainage string // the drainage whose channel runs through it; empty for none
	Note     string // one sentence without a full stop; empty where there is nothing to say
	Minor    bool   // no deeper and longer than noise of the survey makes

	cell int // of the deepest place; of a cut its upper end
}

// depressions gathers cuts, filled ground and declared water of a plan: by kind, each by volume.
func depressions(p *Plan) []Depression {
	owner := owners(p.Network)
	var all []Depression
	for i := range p.Flow.Cuts {
		all = append(all, cutOf(p, &p.Flow.Cuts[i], owner))
	}
	ponds, still := declaredPonds(p)
	for i := range p.Flow.Depressions {
		all = append(all, filledOf(p, &p.Flow.Depressions[i], owner, ponds))
	}
	for _, cells := range still {
		all = append(all, stillPond(p, cells, owner))
	}
	for k := range p.Flow.Playas {
		if d, ok := keptPlaya(p, k, owner); ok {
			all = append(all, d)
		}
	}
	slices.SortStableFunc(all, func(a, b Depression) int {
		return cmp.Or(cmp.Compare(a.Kind, b.Kind), cmp.Compare(b.VolumeM3, a.VolumeM3), cmp.Compare(a.cell, b.cell))
	})
	counts := map[string]int{}
	for i := range all {
		d := &all[i]
		counts[d.Kind]++
		letter := map[string]string{DepressionCut: "C", DepressionFilled: "F", DepressionKept: "K"}[d.Kind]
		d.ID = fmt.Sprintf("%s%02d", letter, counts[d.Kind])
	}
	return all
}

// owners returns the drainage of every channel cell.
func owners(n *channel.Network) map[int]string {
	owner := map[int]string{}
	for i := range n.Drainages {
		for _, cell := range n.Drainages[i].Cells {
			owner[cell] = n.Drainages[i].ID
		}
	}
	return owner
}

func cutOf(p *Plan, c *flow.Cut, owner map[int]string) Depression {
	d := Depression{Kind: DepressionCut, Cause: c.Cause, X: c.X, Y: c.Y, DepthM: c.DepthM, LengthM: c.LengthM,
		VolumeM3: c.VolumeM3, Minor: !channel.LeavesNoBed(p.Grid, p.Flow, c)}
	for _, cell := range c.Cells {
		if d.Drainage == "" {
			d.Drainage = owner[cell]
		}
	}
	if len(c.Cells) > 0 {
		d.cell = c.Cells[0]
	}
	d.AreaM2 = float64(c.Lowered) * cellM2(p.Grid)
	switch c.Cause {
	case flow.CauseCulvert:
		d.Note = "Cut along a declared culvert"
	case flow.CauseRoadFill:
		d.Note = "Cut through a fill near a road line: probably a culvert, go and look"
	case flow.CauseUnknown, flow.CauseStockPond:
		if !d.Minor {
			d.Note = "Cut through ground that holds water back: look on the ground for what lets it pass"
		}
	}
	return d
}

func filledOf(p *Plan, f *flow.Depression, owner map[int]string, ponds map[int]bool) Depression {
	d := Depression{Kind: DepressionFilled, Cause: f.Cause, X: f.X, Y: f.Y, DepthM: f.DepthM, LengthM: math.NaN(), AreaM2: f.AreaM2, VolumeM3: f.VolumeM3, cell: f.Cell,
		Minor: f.DepthM < channel.StandingM || f.DepthM < channel.StandingHoleM && f.AreaM2 < channel.StandingLengthM*channel.StandingLengthM}
	for i := f.Cell; i >= 0 && d.Drainage == ""; i = p.Flow.Down(i) {
		d.Drainage = owner[i]
		if i == f.SpillCell || p.Flow.FilledMM[i] != f.LevelMM {
			break
		}
	}
	switch {
	case ponds[f.Cell]:
		d.Kind, d.Minor = DepressionKept, false
		d.Note = "Declared stock pond with a spillway: water passes through it"
	case f.Why == flow.WhyReview:
		d.Note = "Left for review although a cut within the limits would drain it"
	case f.Why != "":
		d.Note = "Not cut: the cut would be " + f.Why
	}
	return d
}

func cellM2(g *raster.Grid) float64 { return g.Transform.CellM * g.Transform.CellM }
