package flow_test

import (
	"context"
	"math"
	"reflect"
	"slices"
	"testing"

	"github.com/paulmach/orb/planar"
	"pgregory.net/rapid"

	"siltstep/hydro/flow"
	"siltstep/raster"
)

// everything lets a drawn case have every kind of feature.
var everything = declared{roads: true, culverts: true, ponds: true, playas: true}

// eachCase draws cases with some features and runs a check on each, three times as many as
// rapid draws by itself. A line of more than 60 m, which is an error, may come up on cells of 2 m.
func eachCase(t *testing.T, may declared, check func(t *rapid.T, c groundCase, f *flow.Field)) {
	t.Helper()
	for range 3 {
		checkCases(t, may, check)
	}
}

func checkCases(t *testing.T, may declared, check func(t *rapid.T, c groundCase, f *flow.Field)) {
	t.Helper()
	rapid.Check(t, func(t *rapid.T) {
		c := drawCase(t, may)
		for _, line := range c.cfg.Features.Culverts {
			if planar.Length(line) > 60 {
				t.Skip("a culvert of more than 60 m")
			}
		}
		f, err := flow.Run(context.Background(), c.g, c.cfg, nil)
		if err != nil {
			t.Fatalf("run: %v\n%v", err, c)
		}
		check(t, c, f)
	})
}

// Water from every cell reaches an end of flow, on the rim of the data or in a playa, and the
// ends gather every cell with data once.
func TestConditionedDrainsEverywhere(t *testing.T) {
	eachCase(t, everything, func(t *rapid.T, c groundCase, f *flow.Field) {
		playa := in(c.g, c.cfg.Features.Playas)
		sameCells(t, "cells by walking", c.g, f.Cells, walkedCells(t, c.g, downs(f)))
		for i, z := range c.g.MM {
			if f.Valid(i) != (z != raster.VoidMM) || (f.FilledMM[i] == raster.VoidMM) != (z == raster.VoidMM) {
				t.Fatalf("cell %d of %d mm: valid %v, filled %d\n%v", i, z, f.Valid(i), f.FilledMM[i], c)
			}
			if f.Valid(i) && f.Down(i) < 0 && !onRim(c.g, i) && !playa[i] {
				t.Fatalf("flow ends inside, at cell %d\n%v", i, c)
			}
			if d := f.Down(i); d >= 0 && f.FilledMM[d] > f.FilledMM[i] {
				t.Fatalf("cell %d at %d drains up to %d at %d\n%v", i, f.FilledMM[i], d, f.FilledMM[d], c)
			}
		}
		if _, sum := endsSum(f); sum != c.g.ValidCells() {
			t.Fatalf("ends gather %d cells, %d hold data\n%v", sum, c.g.ValidCells(), c)
		}
	})
}

// A conditioned surface lies nowhere above the one that is filled alone. Off the cuts it lies
// nowhere below the ground, on a cut at most as far below as the cuts there say together; cuts too small to be told
// go at most 0.3 m down each.
func TestConditionedLiesBetween(t *testing.T) {
	eachCase(t, everything, func(t *rapid.T, c groundCase, f *flow.Field) {
		filled := fixpointFill(c.g)
		cutM := onCuts(c.g, f)
		for i, z := range c.g.MM {
			if z == raster.VoidMM {
				continue
			}
			if f.FilledMM[i] > filled[i] {
				t.Fatalf("cell %d at %d, filled alone %d\n%v", i, f.FilledMM[i], filled[i], c)
			}
			most := cutM[i]
			if f.SmallCuts > 0 {
				most = max(most, 0) + 0.3*float64(f.SmallCuts)
			}
			if below := float64(z-f.FilledMM[i]) / 1000; below > 0 && below > most+1e-9 {
				t.Fatalf("cell %d lies %.3f m below the ground, cuts there (-1: none) at most %.3f, %d small ones\n%v%+v", i, below, cutM[i], f.SmallCuts, c, f.Cuts)
			}
			if f.Cut(i) && cutM[i] < 0 {
				t.Fatalf("cell %d is said to be cut, and no cut runs there\n%v%+v", i, c, f.Cuts)
			}
			if f.FilledMM[i] < z && f.SmallCuts == 0 && !f.Cut(i) {
				t.Fatalf("cell %d is lowered from %d to %d and not said to be cut\n%v%+v", i, z, f.FilledMM[i], c, f.Cuts)
			}
		}
	})
}

// The directions on a conditioned surface are those of the rules written out the slow way,
// and filling it again changes nothing.
func TestConditionedSurfaceIsFilled(t *testing.T) {
	eachCase(t, declared{roads: true, culverts: true, ponds: true}, func(t *rapid.T, c groundCase, f *flow.Field) {
		surface := *c.g
		surface.MM = f.FilledMM
		sameCells(t, "filled again", c.g, f.FilledMM, fixpointFill(&surface))
		sameCells(t, "down", c.g, downs(f), slowDown(c.g, f.FilledMM))
	})
}

// A cut is a path of neighbours, its measures are those of its cells, it keeps within the
// limits of open ground or, near a road, of the road unless it meets a culvert, and water runs along it: no cell of it
// stands higher than its pit was or than what it runs into, but in standing water that a
// culvert was drawn through.
func TestCutsKeepTheirLimits(t *testing.T) {
	eachCase(t, everything, func(t *rapid.T, c groundCase, f *flow.Field) {
		pond, playa := in(c.g, c.cfg.Features.StockPonds), in(c.g, c.cfg.Features.Playas)
		culvert := map[int]bool{} // a culvert may be deeper than what runs into it
		for _, cut := range f.Cuts {
			for _, i := range cut.Cells {
				culvert[i] = culvert[i] || cut.Cause == flow.CauseCulvert
			}
		}
		for n, cut := range f.Cuts {
			if len(cut.Cells) < 2 {
				t.Fatalf("cut %d of %d cells\n%v%+v", n, len(cut.Cells), c, cut)
			}
			long, roadM := 0.0, math.Inf(1)
			kept := cut.Cause == flow.CauseCulvert && slices.ContainsFunc(cut.Cells, func(i int) bool { return pond[i] || playa[i] })
			for k, i := range cut.Cells {
				roadM = min(roadM, c.roadM(i))
				if k > 0 {
					c0, r0 := c.g.ColRow(cut.Cells[k-1])
					c1, r1 := c.g.ColRow(i)
					if max(c0-c1, c1-c0, r0-r1, r1-r0) != 1 {
						t.Fatalf("cut %d jumps from cell %d to %d\n%v", n, cut.Cells[k-1], i, c)
					}
					long += c.g.Transform.CellM * math.Hypot(float64(c1-c0), float64(r1-r0))
				}
				last := cut.Cells[len(cut.Cells)-1]
				if !kept && f.FilledMM[i] > max(c.g.MM[cut.Cells[0]], f.FilledMM[last]) {
					t.Fatalf("cut %d: cell %d stands at %d, its pit at %d, its end at %d\n%v%+v", n, i, f.FilledMM[i], c.g.MM[cut.Cells[0]], f.FilledMM[last], c, cut)
				}
				if below := float64(c.g.MM[i]-f.FilledMM[i]) / 1000; !culvert[i] && below > c.cfg.CutDepthM+1e-9 && c.roadM(i) > c.cfg.RoadReachM+1e-9 {
					t.Fatalf("cut %d goes %g m deep at cell %d, %g m from a road\n%v%+v", n, below, i, c.roadM(i), c, cut)
				}
				if (pond[i] || playa[i]) && f.FilledMM[i] < c.g.MM[i] {
					t.Fatalf("cut %d lowers cell %d in standing water (pond %v, playa %v)\n%v%+v", n, i, pond[i], playa[i], c, cut)
				}
			}
			if math.Abs(long-cut.LengthM) > 2e-5*long { // a diagonal step as 1.4142
				t.Fatalf("cut %d is %g m long, its cells say %g\n%v%+v", n, cut.LengthM, long, c, cut)
			}
			open := cut.LengthM <= c.cfg.CutLengthM+1e-9 && cut.DepthM <= c.cfg.CutDepthM+1e-9
			road := roadM <= c.cfg.RoadReachM+1e-9 && cut.LengthM <= c.cfg.RoadCutLengthM+1e-9 && cut.DepthM <= c.cfg.RoadCutDepthM+1e-9
			if !open && !road && !slices.ContainsFunc(cut.Cells, func(i int) bool { return culvert[i] }) {
				t.Fatalf("cut %d, %g m from a road: %g m long, %g m deep\n%v%+v", n, roadM, cut.LengthM, cut.DepthM, c, cut)
			}
			if cut.VolumeM3 < 0 || cut.VolumeM3 > cut.DepthM*float64(len(cut.Cells))*c.g.Transform.CellM*c.g.Transform.CellM+1e-9 {
				t.Fatalf("cut %d of %g m³\n%v%+v", n, cut.VolumeM3, c, cut)
			}
		}
	})
}

// Cuts that share no cell hold at least the ground that is gone from under them; less only
// where water stands on them again.
func TestCutVolumes(t *testing.T) {
	eachCase(t, declared{roads: true, culverts: true}, func(t *rapid.T, c groundCase, f *flow.Field) {
		if f.SmallCuts > 0 {
			t.Skip("a small cut may share a cell")
		}
		seen := map[int]bool{}
		for _, cut := range f.Cuts {
			for _, i := range cut.Cells {
				if seen[i] {
					t.Skip("two cuts share a cell")
				}
				seen[i] = true
			}
		}
		for n, cut := range f.Cuts {
			gone, deepest := 0.0, 0.0
			for _, i := range cut.Cells {
				depth := float64(c.g.MM[i]-f.FilledMM[i]) / 1000
				gone += max(depth, 0) * c.g.Transform.CellM * c.g.Transform.CellM
				deepest = max(deepest, depth)
			}
			if gone > cut.VolumeM3+1e-9 || deepest > cut.DepthM+1e-9 {
				t.Fatalf("cut %d says %g m³ and %g m, the surface %g and %g\n%v%+v", n, cut.VolumeM3, cut.DepthM, gone, deepest, c, cut)
			}
			if len(f.Depressions)+f.SmallDepressions == 0 && (math.Abs(gone-cut.VolumeM3) > 1e-9 || math.Abs(deepest-cut.DepthM) > 1e-9) {
				t.Fatalf("nothing stands; cut %d says %g m³ and %g m, the surface %g and %g\n%v%+v", n, cut.VolumeM3, cut.DepthM, gone, deepest, c, cut)
			}
		}
	})
}

// The same bits come of any number of workers and of a second run, and the grid is only read.
func TestConditionedSameBits(t *testing.T) {
	eachCase(t, everything, func(t *rapid.T, c groundCase, one *flow.Field) {
		before := slices.Clone(c.g.MM)
		for _, workers := range []int{1, 2, 3, 8} {
			c.cfg.Workers = workers
			f := conditioned(t, c.g, c.cfg)
			sameField(t, "workers", c.g, f, one)
			if !reflect.DeepEqual(f.Cuts, one.Cuts) || !reflect.DeepEqual(f.Depressions, one.Depressions) || f.SmallCuts != one.SmallCuts || f.SmallDepressions != one.SmallDepressions ||
				!slices.Equal(f.Playas, one.Playas) || !slices.Equal(f.Unused, one.Unused) || !slices.Equal(f.EdgeSpills, one.EdgeSpills) {
				t.Fatalf("%d workers: other cuts, depressions or spills\n%v", workers, c)
			}
		}
		sameCells(t, "grid after the run", c.g, c.g.MM, before)
	})
}
