package raster_test

import (
	"math"
	"testing"

	"siltstep/raster"
	"siltstep/raster/rastertest"
)

// A jump of 0.10 m at one line, under noise of 0.05 m, is found there and nowhere else, on every ground.
func TestSeam(t *testing.T) {
	for _, ground := range grounds {
		noise := white(6, 50)
		g := surveyed(500, 400, ground.z, func(c, r int) float64 {
			if r >= 123 {
				return noise(c, r) + 100
			}
			return noise(c, r)
		})
		for _, row := range []struct {
			g       *raster.Grid
			columns bool
		}{{g, false}, {turned(g), true}, {rastertest.Pepper(2, turned(g), 20), true}} {
			seams, told := row.g.Seams()
			if !told || len(seams) != 1 || seams[0].Columns != row.columns || seams[0].After != 123 || math.Abs(seams[0].JumpM-0.1) > 0.02 {
				t.Errorf("%s: got %+v, want one of 0.1 m after 123", ground.name, seams)
			}
		}
	}
}

// Four tiles, each with an offset of its own: both seams are found, though their jump changes on the way: 0.2 to 0.3 m on
// the row, with 0.25 in the middle; 0.1 to 0.2 m on the column.
func TestSeamsOfTiles(t *testing.T) {
	noise := white(8, 20)
	offset := [2][2]float64{{0, 100}, {200, 400}}
	g := surveyed(400, 400, grounds[2].z, func(c, r int) float64 { return noise(c, r) + offset[r/200][c/200] })
	seams, _ := g.Seams()
	if len(seams) != 2 || seams[0].Columns || seams[0].After != 200 || !seams[1].Columns || seams[1].After != 200 {
		t.Fatalf("got %+v", seams)
	}
	if math.Abs(seams[0].JumpM-0.25) > 0.01 || math.Abs(seams[1].JumpM-0.15) > 0.01 {
		t.Errorf("got %+v, want jumps of 0.25 and 0.15 m", seams)
	}
}

func TestNoSeam(t *testing.T) {
	for _, ground := range grounds {
		for seed, sigmaMM := range []float64{0, 20, 200} {
			if seams, _ := surveyed(500, 400, ground.z, white(uint64(seed), sigmaMM)).Seams(); len(seams) > 0 {
				t.Errorf("%s with noise of %g mm: got %+v", ground.name, sigmaMM, seams)
			}
		}
	}
	for _, stripe := range stripes(400) {
		if seams, _ := surveyed(500, 400, grounds[1].z, func(_, r int) float64 { return stripe.mm(r) }).Seams(); len(seams) > 0 {
			t.Errorf("stripes, %s: got %+v", stripe.name, seams)
		}
	}
	// A bank 1 m high and one row wide is no seam, nor is a wall along an eighth of a line.
	bank := surveyed(500, 400, grounds[1].z, func(c, r int) float64 {
		if r == 200 || c == 100 && r < 50 {
			return 1000
		}
		return 0
	})
	if seams, _ := bank.Seams(); len(seams) > 0 {
		t.Errorf("bank and wall: got %+v", seams)
	}
	tiny(func(g *raster.Grid) {
		if seams, told := g.Seams(); seams != nil || told {
			t.Errorf("%d x %d cells: got %+v", g.Cols, g.Rows, seams)
		}
	})
}
