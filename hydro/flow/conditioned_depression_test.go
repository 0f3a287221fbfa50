package flow_test

import (
	"math"
	"slices"
	"testing"

	"pgregory.net/rapid"

	"siltstep/hydro/flow"
	"siltstep/raster"
)

// pool is ground that the fill raises, connected, by the slow rule.
type pool struct {
	deepest, cells int
	levelMM        int32
	m3             float64
	members        []int
}

// pools finds them cell by cell. Two filled cells that touch stand at one level.
func pools(g *raster.Grid, filledMM []int32) (found []pool) {
	seen := make([]bool, len(g.MM))
	for start := range g.MM {
		if seen[start] || g.MM[start] == raster.VoidMM || filledMM[start] <= g.MM[start] {
			continue
		}
		seen[start] = true
		p := pool{deepest: start, levelMM: filledMM[start], members: []int{start}}
		for n := 0; n < len(p.members); n++ {
			i := p.members[n]
			p.m3 += float64(filledMM[i]-g.MM[i]) / 1000 * g.Transform.CellM * g.Transform.CellM
			if g.MM[i] < g.MM[p.deepest] || g.MM[i] == g.MM[p.deepest] && i < p.deepest {
				p.deepest = i
			}
			for k := range 8 {
				if j, ok := neighbour(g, i, k); ok && !seen[j] && filledMM[j] > g.MM[j] {
					seen[j] = true
					p.members = append(p.members, j)
				}
			}
		}
		p.cells = len(p.members)
		found = append(found, p)
	}
	return found
}

// told reports whether a pool is large enough to be listed.
func (p pool) told(g *raster.Grid) bool {
	depth := p.levelMM - g.MM[p.deepest]
	return depth > 300 || depth > 50 && p.cells > 4
}

// With cuts off, depressions are the pools of the fill, each told at its deepest place and
// in order of that cell, or counted where it is small.
func TestDepressionsAreTheFill(t *testing.T) {
	eachCase(t, declared{}, func(t *rapid.T, c groundCase, _ *flow.Field) {
		c.cfg.CutLengthM = 0
		f := conditioned(t, c.g, c.cfg)
		area := c.g.Transform.CellM * c.g.Transform.CellM
		sameField(t, "cuts off", c.g, f, conditioned(t, c.g, flow.Config{Edge: c.cfg.Edge}))
		if len(f.Cuts)+f.SmallCuts != 0 {
			t.Fatalf("%d small cuts and %+v\n%v", f.SmallCuts, f.Cuts, c)
		}
		small := 0
		want := slices.DeleteFunc(pools(c.g, f.FilledMM), func(p pool) bool {
			if p.told(c.g) {
				return false
			}
			small++
			return true
		})
		slices.SortFunc(want, func(a, b pool) int { return a.deepest - b.deepest })
		if len(f.Depressions) != len(want) || f.SmallDepressions != small {
			t.Fatalf("%d depressions and %d small ones, want %d and %d\n%v%+v", len(f.Depressions), f.SmallDepressions, len(want), small, c, f.Depressions)
		}
		for n, p := range want {
			d := f.Depressions[n]
			x, y := c.g.CenterOf(p.deepest)
			if d.Cell != p.deepest || d.X != x || d.Y != y || d.LevelMM != p.levelMM || d.Cells != p.cells || d.Why != "" ||
				!nearly(d.DepthM, float64(p.levelMM-c.g.MM[p.deepest])/1000) || !nearly(d.AreaM2, float64(p.cells)*area) || math.Abs(d.VolumeM3-p.m3) > 1e-6 { // sums of up to 576 figures
				t.Fatalf("depression %+v, want %+v\n%v", d, p, c)
			}
			if z := c.g.MM[d.SpillCell]; z > d.LevelMM || z == raster.VoidMM {
				t.Fatalf("depression %+v spills over ground at %d\n%v", d, z, c)
			}
		}
	})
}

// Where cuts may be as long and deep as the ground asks for, nothing is left to fill: no case is
// wider than 12 m or higher than 20 m here.
func TestCutsWithoutLimitsLeaveNoDepression(t *testing.T) {
	eachCase(t, declared{}, func(t *rapid.T, c groundCase, _ *flow.Field) {
		c.g.Transform.CellM, c.cfg.CutLengthM, c.cfg.CutDepthM = 0.5, flow.MostCutLengthM, flow.MostCutDepthM
		for i, z := range c.g.MM {
			if z != raster.VoidMM {
				c.g.MM[i] = z % 20_000
			}
		}
		f := conditioned(t, c.g, c.cfg)
		for i, z := range c.g.MM {
			if f.FilledMM[i] > z {
				t.Fatalf("cell %d is filled from %d to %d\n%v%+v", i, z, f.FilledMM[i], c, f.Cuts)
			}
		}
		if len(f.Depressions)+f.SmallDepressions != 0 {
			t.Fatalf("%d small depressions and %+v\n%v", f.SmallDepressions, f.Depressions, c)
		}
	})
}

// Ground that holds nothing back is not cut, whatever the limits.
func TestDrainedGroundIsNotCut(t *testing.T) {
	eachCase(t, declared{roads: true, ponds: true}, func(t *rapid.T, c groundCase, _ *flow.Field) {
		dry := *c.g
		dry.MM = fixpointFill(c.g)
		f := conditioned(t, &dry, c.cfg)
		sameField(t, "against filling alone", &dry, f, conditioned(t, &dry, flow.Config{Edge: c.cfg.Edge}))
		if len(f.Cuts)+f.SmallCuts != 0 || len(f.Depressions)+f.SmallDepressions != 0 {
			t.Fatalf("cuts %+v, depressions %+v\n%v", f.Cuts, f.Depressions, groundCase{&dry, c.cfg})
		}
	})
}

// A stock pond is never lower than the ground.
func TestStockPondsStay(t *testing.T) {
	eachCase(t, everything, func(t *rapid.T, c groundCase, f *flow.Field) {
		for i, inside := range in(c.g, c.cfg.Features.StockPonds) {
			if inside && f.FilledMM[i] < c.g.MM[i] {
				t.Fatalf("cell %d of the pond is lowered from %d to %d\n%v%+v", i, c.g.MM[i], f.FilledMM[i], c, f.Cuts)
			}
		}
	})
}
