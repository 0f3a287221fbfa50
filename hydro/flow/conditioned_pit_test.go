package flow_test

import (
	"math"
	"testing"

	"siltstep/hydro/flow"
	"siltstep/raster"
	"siltstep/raster/rastertest"
)

// Strip 5 9 2 6 1 4 3 8 7 0 between walls of 20: pits of 1, 3 and 2 m inside one another.
func TestStripCuts(t *testing.T) {
	g := rastertest.Strip(20, 5, 9, 2, 6, 1, 4, 3, 8, 7, 0)
	limits := func(lengthM, depthM float64) flow.Config {
		return flow.Config{CutLengthM: lengthM, CutDepthM: depthM}
	}
	// Filled alone: 5 9 8 8 8 8 8 8 7 0, 24 m³ in 5 cells.
	t.Run("filling alone", func(t *testing.T) {
		f := conditioned(t, g, flow.Config{})
		if len(f.Depressions) != 1 {
			t.Fatalf("depressions %+v, want one", f.Depressions)
		}
		if d := f.Depressions[0]; d.Cells != 5 || !nearly(d.VolumeM3, 24) || d.LevelMM != 8000 || !nearly(d.DepthM, 7) || d.Cell != g.Index(4, 1) || d.SpillCell != g.Index(7, 1) {
			t.Errorf("depression %+v, want 24 m³ in 5 cells to 8 m, deepest in column 4, over column 7", d)
		}
	})
	// The outer sills want cuts of 7 m: the inner pit may join its neighbour, and water stands
	// over both as before.
	t.Run("inner pit only", func(t *testing.T) {
		f := conditioned(t, g, limits(30, 3))
		sameCells(t, "filled", g, f.FilledMM, run(t, g, 1).FilledMM)
		if len(f.Depressions) != 1 || f.Depressions[0].Why != "deeper than 3 m" {
			t.Errorf("depressions %+v, want one, deeper than 3 m", f.Depressions)
		}
	})
	t.Run("deep and long", func(t *testing.T) {
		f := conditioned(t, g, limits(100, 20))
		for i, z := range g.MM {
			if f.FilledMM[i] > z {
				t.Errorf("cell %d is filled from %d to %d", i, z, f.FilledMM[i])
			}
		}
		if len(f.Depressions) != 0 {
			t.Errorf("depressions %+v, want none", f.Depressions)
		}
	})
}

// Square pyramid pits of m + 4m(m²-1)/3 m³ in (2m-1)² cells. The cut from the middle of the
// one of 3 m runs square to the border: 1 + 2 + 3 + 3 m deep, 4 m long, 9 m³.
func TestPyramidCuts(t *testing.T) {
	for _, tt := range []struct {
		radius, cells int
		m3            float64
	}{{3, 25, 35}, {10, 361, 1330}} {
		g := rastertest.PyramidPit(tt.radius)
		f := conditioned(t, g, conditioning())
		sameCells(t, "filled", g, f.FilledMM, make([]int32, len(g.MM)))
		if len(f.Depressions) != 1 {
			t.Fatalf("radius %d: depressions %+v, want one", tt.radius, f.Depressions)
		}
		if d := f.Depressions[0]; d.Cells != tt.cells || !nearly(d.VolumeM3, tt.m3) || !nearly(d.DepthM, float64(tt.radius)) || d.Why != "deeper than 1 m" {
			t.Errorf("radius %d: depression %+v, want %g m³ in %d cells, deeper than 1 m", tt.radius, d, tt.m3, tt.cells)
		}
	}
	g := rastertest.PyramidPit(3)
	f := conditioned(t, g, flow.Config{CutLengthM: 30, CutDepthM: 10})
	if len(f.Depressions) != 0 || len(f.Cuts) != 1 {
		t.Fatalf("depressions %+v, cuts %+v; want one cut alone", f.Depressions, f.Cuts)
	}
	if c := f.Cuts[0]; !nearly(c.LengthM, 4) || !nearly(c.DepthM, 3) || !nearly(c.VolumeM3, 9) || len(c.Cells) != 5 || c.Cells[0] != g.Index(4, 4) {
		t.Errorf("cut %+v, want 4 m from the middle, 3 m deep, 9 m³", c)
	}
}

// Cone pit of radius 20 m and depth 5 m on cells of 1, 0.5 and 0.25 m: the sums over cells are
// 2094.207, 2094.378 and 2094.386 m³. Each depth is rounded to millimetres, the same in eight
// places: 0.29 mm · √(8·1257) = 0.03 m³ is one standard deviation of the sum on cells of 1 m, three
// are allowed. Cuts of 20 m and more are too deep or too long, or would be allowed: then it looks like a stock pond and
// is left for review, but within reach of a road it is cut.
func TestConePitCuts(t *testing.T) {
	for _, tt := range []struct{ cellM, m3 float64 }{{1, 2094.207}, {0.5, 2094.378}, {0.25, 2094.386}} {
		g := rastertest.ConePit(20, 5, tt.cellM)
		for _, limit := range []struct {
			lengthM, depthM float64
			why             string
		}{{30, 1, "deeper than 1 m"}, {10, 6, "longer than 10 m"}, {30, 6, flow.WhyReview}} {
			f := conditioned(t, g, flow.Config{CutLengthM: limit.lengthM, CutDepthM: limit.depthM})
			if len(f.Depressions) != 1 || len(f.Cuts) != 0 {
				t.Fatalf("cells of %g m: %d depressions, %d cuts; want one depression", tt.cellM, len(f.Depressions), len(f.Cuts))
			}
			if d := f.Depressions[0]; math.Abs(d.VolumeM3-tt.m3) > 0.09 || !nearly(d.DepthM, 5) || d.Why != limit.why {
				t.Errorf("cells of %g m: %+v, want %g m³, 5 m deep, %s", tt.cellM, d, tt.m3, limit.why)
			}
		}
		cfg := flow.Config{RoadCutLengthM: 30, RoadCutDepthM: 6, RoadReachM: 100}
		cfg.Features.Roads = roadAlong(g, 0)
		f := conditioned(t, g, cfg)
		if len(f.Depressions) != 0 || len(f.Cuts) != 1 || !nearly(f.Cuts[0].DepthM, 5) {
			t.Errorf("cells of %g m: %d depressions, cuts %+v; want one cut 5 m deep", tt.cellM, len(f.Depressions), f.Cuts)
		}
	}
}

// Level ground with a way out holds nothing back, so nothing is cut and the directions are
// those of the flat without cuts, and so is a plane, a valley and a saddle.
func TestNothingToCut(t *testing.T) {
	for name, g := range map[string]*raster.Grid{
		"walled flat with a gap": rastertest.WalledFlat(7, 4, 10_000),
		"level ground":           rastertest.Plane(12, 9, 5000, 0, 0),
		"plane":                  rastertest.Plane(8, 10, 100_000, 0, 1000),
		"valley":                 rastertest.Valley(21, 30, 50_000, 500, 50),
		"saddle":                 rastertest.Saddle(5),
	} {
		t.Run(name, func(t *testing.T) {
			f := conditioned(t, g, conditioning())
			sameField(t, "against filling alone", g, f, run(t, g, 1))
			if len(f.Cuts) != 0 || len(f.Depressions) != 0 {
				t.Errorf("cuts %+v, depressions %+v; want none", f.Cuts, f.Depressions)
			}
		})
	}
}
