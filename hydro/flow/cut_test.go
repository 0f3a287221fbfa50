package flow

import (
	"context"
	"math"
	"slices"
	"testing"

	"github.com/paulmach/orb"
	"pgregory.net/rapid"

	"siltstep/raster"
)

// deepTrench draws a valley, bed 50 − 0.05·row along column 10, sides 0.5, with a fill of 5 rows over rows 58 to 62 whose top
// lies at 48.5, and one cell of it, 2 columns off the bed, 20 mm lower.
func deepTrench() *raster.Grid {
	g := raster.New(21, 100, raster.Transform{OriginX: 1000, OriginY: 2000, CellM: 1})
	for i := range g.MM {
		c, r := g.ColRow(i)
		g.MM[i] = int32(50_000 + 500*max(c-10, 10-c) - 50*r)
		if r >= 58 && r <= 62 {
			g.MM[i] = max(g.MM[i], 48_500)
		}
	}
	g.MM[g.Index(12, 60)] -= 20
	return g
}

// The cut through the fill is as deep as the bed under row 62, 48.5 − 46.9 = 1.6 m; of rows 58 to 62 it takes 1.4, 1.45, 1.5, 1.55 and
// 1.6, together 7.5 m³. The pit beside it drains into it through the cell between: from 48.48 to the 47.00 of the first cut, half
// way 47.74, so 0.76 m and m³ of its own. That the first cut is 1.5 m deep where the second ends is not of the second.
func TestCutBesideADeepOne(t *testing.T) {
	g := deepTrench()
	cfg := Defaults()
	cfg.Features.Roads = []orb.LineString{{place(g, 0, 60), place(g, 20, 60)}}
	f, err := Run(context.Background(), g, cfg, nil)
	if err != nil {
		t.Fatal(err)
	}
	if len(f.Cuts) != 2 || f.SmallCuts != 0 {
		t.Fatalf("cuts %+v and %d small ones, want 2 and none", f.Cuts, f.SmallCuts)
	}
	for k, want := range []struct {
		depthM, m3 float64
		lowered    int
		at         orb.Point
	}{{1.6, 7.5, 5, place(g, 10, 62)}, {0.76, 0.76, 1, place(g, 11, 60)}} {
		c := f.Cuts[k]
		if math.Abs(c.DepthM-want.depthM) > 1e-9 || math.Abs(c.VolumeM3-want.m3) > 1e-9 || c.Lowered != want.lowered || want.at != (orb.Point{c.X, c.Y}) {
			t.Errorf("cut %+v, want %+v", c, want)
		}
	}
}

// Each millimetre that is gone is of one cut: the volumes of cuts, listed and small, add up to what the surface lost before
// it was filled. Cells of 1 m, of which a stock pond needs more than 100, more than there are here.
func TestEveryMillimetreIsOfOneCut(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		g := raster.New(rapid.IntRange(3, 10).Draw(t, "cols"), rapid.IntRange(3, 10).Draw(t, "rows"), raster.Transform{CellM: 1})
		step := rapid.SampledFrom([]int32{1, 20, 300}).Draw(t, "step")
		for i := range g.MM {
			g.MM[i] = step * rapid.Int32Range(0, 30).Draw(t, "level")
		}
		cfg := Config{CutLengthM: rapid.SampledFrom([]float64{2, 5, 30}).Draw(t, "length"), CutDepthM: rapid.SampledFrom([]float64{0.1, 1, 9}).Draw(t, "depth")}
		for range rapid.IntRange(0, 2).Draw(t, "culverts") {
			at := func() orb.Point {
				return place(g, rapid.IntRange(0, g.Cols-1).Draw(t, "col"), rapid.IntRange(0, g.Rows-1).Draw(t, "row"))
			}
			cfg.Features.Culverts = append(cfg.Features.Culverts, orb.LineString{at(), at()}[:rapid.IntRange(1, 2).Draw(t, "vertices")])
		}
		f := &Field{Cols: g.Cols, Rows: g.Rows, FilledMM: slices.Clone(g.MM)}
		c, err := condition(context.Background(), g, &cfg, f, 1)
		if err != nil {
			t.Fatal(err)
		}
		lost := int64(0)
		for i, z := range f.FilledMM {
			lost += int64(g.MM[i]) - int64(z)
		}
		told := float64(c.smallVolume) / 1000
		for _, cut := range c.cuts {
			told += cut.VolumeM3
		}
		if math.Abs(told-float64(lost)/1000) > 1e-6 { // sums of at most 100 figures of whole mm
			t.Fatalf("the surface lost %d mm·cells, cuts %+v and small ones of %d tell of %g m³", lost, c.cuts, c.smallVolume, told)
		}
	})
}
