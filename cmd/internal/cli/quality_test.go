package cli

import (
	"context"
	"math"
	"math/rand/v2"
	"path/filepath"
	"strings"
	"testing"

	"siltstep/cmd/internal/demo"
	"siltstep/cmd/internal/units"
	"siltstep/raster"
	"siltstep/raster/gdal"
	"siltstep/raster/rastertest"
)

// fault changes a grid as bad data would: what is added to each cell, mm.
func fault(g *raster.Grid, mm func(col, row int) int32) *raster.Grid {
	out := *g
	out.MM = make([]int32, len(g.MM))
	for i, z := range g.MM {
		out.MM[i] = z + mm(g.ColRow(i))
	}
	return &out
}

// The invented ranch is fit to site as it is, and what is done to it is found.
func TestJudgeRanch(t *testing.T) {
	if testing.Short() {
		t.Skip("makes a ranch")
	}
	ranch, err := demo.Generate(demo.DefaultSize, demo.DefaultSeed)
	if err != nil {
		t.Fatal(err)
	}
	g := ranch.Grid
	random := rand.New(rand.NewPCG(1, 2))
	offsets := make([]int32, g.Rows)
	for i := range offsets {
		offsets[i] = int32(math.Round(30 * random.NormFloat64()))
	}
	trees := make([]int32, len(g.MM))
	for range 3000 { // on 300 ha, 6 m high and 6 cells across
		col, row := 4+random.IntN(g.Cols-8), 4+random.IntN(g.Rows-8)
		for i := range 49 {
			if d := (i%7-3)*(i%7-3) + (i/7-3)*(i/7-3); d <= 9 {
				trees[g.Index(col+i%7-3, row+i/7-3)] = int32(6000 - 400*d)
			}
		}
	}
	for _, row := range []struct {
		name string
		g    *raster.Grid
		want string
	}{
		{"as it is", g, "fit to site: nothing found against it"},
		{"columns 777 to 1553 higher by 0.10 m", fault(g, func(c, _ int) int32 { return int32(c / 777 % 2 * 100) }), "fit to site, with care: 2 seams of up to 0.10 m"},
		{"rows off by 0.03 m", fault(g, func(_, r int) int32 { return offsets[r] }), "fit to site, with care: stripes of 0.03 m"},
		{"noise of 0.2 m", fault(g, func(_, _ int) int32 { return int32(math.Round(200 * random.NormFloat64())) }), "fit to screen: noise of 0.19" /* the smoothest quarter reads 3 % low */},
		{"whole metres", fault(g, func(c, r int) int32 { z := g.At(c, r); return (z+500)/1000*1000 - z }), "fit to screen: heights in steps of 1.000 m"},
		{"trees", fault(g, func(c, r int) int32 { return trees[g.Index(c, r)] }), "fit to screen: a surface model"},
	} {
		found := judge(row.g, 1)
		if got := verdict(fitness{found, units.Metric}.remarks()); !strings.HasPrefix(got, row.want) {
			t.Errorf("%s: %q, want %q; %+v", row.name, got, row.want, found)
		}
		for _, s := range found.seams {
			if !s.Columns || s.After != 777 && s.After != 1554 {
				t.Errorf("%s: a seam at %+v", row.name, s)
			}
		}
	}
}

// Two real terrains: a national model on cells of 20 m with lakes, and whole metres on cells of 3 arc-seconds.
func TestJudgeRealTerrain(t *testing.T) {
	for _, row := range []struct {
		file, want string
		stepMM     float64
		levelShare [2]float64
	}{
		// Its two largest lakes have 1,191 cells (testdata/README.md), 0.7 %; with others and without shores about 1 %.
		{"levi_20m.tif", "fit to screen: cells of 20.0 m, over 5.0 m", 1, [2]float64{0.005, 0.02}},
		{"jacksboro_3s.tif", "unfit: cells of 83.5 m, of which the largest catchment of a dam, 4.0 ha, holds 5.7; heights in steps of 1.000 m", 1000, [2]float64{0, 0.01}},
	} {
		dem, err := gdal.Open(context.Background(), gdal.Request{Paths: []string{filepath.Join(moduleRoot, "testdata", row.file)}})
		if err != nil {
			t.Fatal(err)
		}
		g, err := dem.ReadOwn(context.Background(), nil)
		if err != nil {
			t.Fatal(err)
		}
		found := judge(g, dem.Info().GridCellM)
		if got := verdict(fitness{found, units.Metric}.remarks()); got != row.want {
			t.Errorf("%s: %q, want %q", row.file, got, row.want)
		}
		if found.step.MM != row.stepMM || found.levelShare < row.levelShare[0] || found.levelShare > row.levelShare[1] ||
			len(found.seams) > 0 || found.stripeRowsM != 0 || found.stripeColsM != 0 {
			t.Errorf("%s: %+v", row.file, found)
		}
	}
}

// Whatever its size and voids, a grid gets a verdict, and every measure says something in both systems of units.
func TestJudgeLittle(t *testing.T) {
	void := raster.VoidMM
	grids := []*raster.Grid{
		rastertest.Plane(64, 64, void, 0, 0), rastertest.Plane(200, 200, 7, 0, 0), rastertest.Pepper(1, rastertest.Plane(200, 200, 7, 3, 10), 2),
		rastertest.Plane(1, 5000, 7, 3, 10), rastertest.Plane(5000, 1, 7, 3, 10), rastertest.Of([]int32{math.MaxInt32, math.MinInt32 + 1, void, 0}),
	}
	for cols := 1; cols <= 3; cols++ {
		for rows := 1; rows <= 3; rows++ {
			grids = append(grids, rastertest.Plane(cols, rows, 7, 3, 10), rastertest.Plane(cols, rows, void, 0, 0))
		}
	}
	for _, g := range grids {
		for _, system := range []units.System{units.Metric, units.US} {
			remarks := fitness{judge(g, 1), system}.remarks()
			for _, r := range remarks {
				if r.found == "" || r.means == "" || strings.Contains(r.found+r.means+r.heed, "NaN") || strings.Contains(r.found+r.means+r.heed, units.NotKnown) {
					t.Errorf("%d x %d: %+v", g.Cols, g.Rows, r)
				}
				if system == units.US && strings.Contains(r.found+r.means+r.heed, " m ") {
					t.Errorf("metres among feet: %+v", r)
				}
			}
			if got := verdict(remarks); len(g.MM) < 2500 && !strings.HasPrefix(got, "unfit: ") {
				t.Errorf("%d x %d: %s", g.Cols, g.Rows, got)
			}
		}
	}
}
