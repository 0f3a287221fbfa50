package rastertest_test

import (
	"math"
	"slices"
	"testing"

	"siltstep/raster"
	"siltstep/raster/rastertest"
)

// Spot heights worked by hand from the definition of each landform.
func TestLandformHeights(t *testing.T) {
	void := raster.VoidMM
	valley := rastertest.Valley(21, 30, 50_000, 500, 50)
	tests := []struct {
		name     string
		g        *raster.Grid
		col, row int
		want     int32 // mm
	}{
		{"plane, corner", rastertest.Plane(8, 10, 100_000, 0, 1000), 0, 0, 100_000},
		{"plane, 3 columns and 2 rows on", rastertest.Plane(8, 10, 100_000, 400, 1000), 3, 2, 96_800},
		{"valley bed", valley, 10, 29, 48_550},                                                    // 50000 - 29·50
		{"valley side", valley, 0, 0, 55_000},                                                     // 50000 + 10·500
		{"raised row, bed", rastertest.RaiseRow(valley, 15, 53_000), 10, 15, 53_000},              // 49250 before
		{"raised row, side stays", rastertest.RaiseRow(valley, 15, 53_000), 0, 15, 54_250},        // 50000 + 5000 - 750
		{"channel of 2 %, 2 m cells", rastertest.Channel(9, 40, 2, 30, 0.02, 0.5), 4, 10, 29_600}, // 30 - 10·2·0.02
		{"channel side", rastertest.Channel(9, 40, 2, 30, 0.02, 0.5), 5, 0, 31_000},
		{"saddle, low corner", rastertest.Saddle(5), 10, 0, -25_000},
		{"saddle, high corner", rastertest.Saddle(5), 10, 10, 25_000},
		{"pyramid, middle", rastertest.PyramidPit(3), 4, 4, -3000},
		{"pyramid, first ring", rastertest.PyramidPit(3), 5, 3, -2000},
		{"pyramid, plain", rastertest.PyramidPit(3), 0, 0, 0},
		{"strip, middle row", rastertest.Strip(20, 5, 9, 2), 2, 1, 2000},
		{"strip, wall", rastertest.Strip(20, 5, 9, 2), 2, 0, 20_000},
		{"walled flat, level", rastertest.WalledFlat(7, 4, 10_000), 7, 7, 10_000},
		{"walled flat, wall", rastertest.WalledFlat(7, 4, 10_000), 8, 3, 11_000},
		{"walled flat, gap", rastertest.WalledFlat(7, 4, 10_000), 8, 4, 9000},
		{"void ring", rastertest.VoidRing(rastertest.Plane(2, 2, 5, 0, 0), 2), 1, 3, void},
		{"inside the void ring", rastertest.VoidRing(rastertest.Plane(2, 2, 5, 0, 0), 2), 2, 3, 5},
		{"hole", rastertest.Hole(rastertest.Plane(4, 4, 5, 0, 0), raster.Window{Col: 2, Row: 2, Cols: 9, Rows: 1}), 3, 2, void},
		{"beside the hole", rastertest.Hole(rastertest.Plane(4, 4, 5, 0, 0), raster.Window{Col: 2, Row: 2, Cols: 9, Rows: 1}), 1, 2, 5},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			if !tt.g.Inside(tt.col, tt.row) {
				t.Fatalf("cell (%d, %d) outside %d x %d", tt.col, tt.row, tt.g.Cols, tt.g.Rows)
			}
			if z := tt.g.At(tt.col, tt.row); z != tt.want {
				t.Errorf("cell (%d, %d): got %d mm, want %d", tt.col, tt.row, z, tt.want)
			}
		})
	}
}

// belowZero returns the volume and the number of cells under the plain at zero.
func belowZero(g *raster.Grid) (m3 float64, cells int) {
	for _, z := range g.MM {
		if z < 0 {
			m3 -= float64(z) / 1000
			cells++
		}
	}
	return m3 * g.Transform.CellM * g.Transform.CellM, cells
}

func TestPyramidVolume(t *testing.T) {
	for _, m := range []int{1, 2, 3, 10} {
		wantM3, wantCells := float64(m)+4*float64(m*(m*m-1))/3, (2*m-1)*(2*m-1)
		m3, cells := belowZero(rastertest.PyramidPit(m))
		if math.Abs(m3-wantM3) > 1e-9 || cells != wantCells { // whole m³: rounding of the sum only
			t.Errorf("radius %d: got %g m³ in %d cells, want %g in %d", m, m3, cells, wantM3, wantCells)
		}
	}
}

// The cell sum nears π·20²·5/3 = 2094.395 m³ as cells shrink.
func TestConeVolume(t *testing.T) {
	exact := math.Pi * 20 * 20 * 5 / 3
	last := math.Inf(1)
	for _, cell := range []float64{2, 1, 0.5} {
		m3, _ := belowZero(rastertest.ConePit(20, 5, cell))
		off := math.Abs(m3 - exact)
		if off > last {
			t.Errorf("cells of %g m are off by %g m³, larger cells by %g", cell, off, last)
		}
		last = off
	}
	if last > 0.05 { // 0.5 m cells: 0.017 m³ of cell sum; rounding to mm adds some 0.005
		t.Errorf("cells of 0.5 m: off by %g m³", last)
	}
}

func TestVoidRingKeepsPlace(t *testing.T) {
	g := rastertest.Plane(3, 2, 5, 1, 1)
	ring := rastertest.VoidRing(g, 2)
	x, y := g.Transform.Center(1, 1)
	if col, row := ring.Transform.ColRow(x, y); col != 3 || row != 3 {
		t.Errorf("cell (1, 1) lies at (%d, %d) of the ringed grid, want (3, 3)", col, row)
	}
}

func TestOf(t *testing.T) {
	g := rastertest.Of([]int32{1, 2, 3}, []int32{4, 5, 6})
	if g.Cols != 3 || g.Rows != 2 || !slices.Equal(g.MM, []int32{1, 2, 3, 4, 5, 6}) {
		t.Errorf("got %d x %d %v", g.Cols, g.Rows, g.MM)
	}
	defer func() {
		if recover() == nil {
			t.Error("rows of unequal length: want a panic")
		}
	}()
	rastertest.Of([]int32{1, 2}, []int32{3})
}

func TestRandomBySeed(t *testing.T) {
	for name, draw := range map[string]func(seed uint64) *raster.Grid{
		"random":  func(seed uint64) *raster.Grid { return rastertest.Random(seed, 30, 20, 10) },
		"fractal": func(seed uint64) *raster.Grid { return rastertest.Fractal(seed, 300, 40, 50_000) },
	} {
		a, again, b := draw(1), draw(1), draw(2)
		if !slices.Equal(a.MM, again.MM) {
			t.Errorf("%s: the same seed drew two grids", name)
		}
		if slices.Equal(a.MM, b.MM) {
			t.Errorf("%s: two seeds drew the same grid", name)
		}
	}
}

func TestRandomLevels(t *testing.T) {
	lo, hi, _ := rastertest.Random(3, 100, 100, 3).RangeMM()
	if lo != 0 || hi != 2 {
		t.Errorf("3 levels: got %d to %d, want 0 to 2", lo, hi)
	}
}

func TestFractalRelief(t *testing.T) {
	// Heights halve from step to step, so they sum to less than the relief asked for; at
	// 600 x 600 cells a good part of it is met.
	lo, hi, _ := rastertest.Fractal(1, 600, 600, 100_000).RangeMM()
	if lo < 0 || hi >= 100_000 || hi-lo < 30_000 {
		t.Errorf("got %d to %d mm, want within 0 to 100000 and at least 30000 apart", lo, hi)
	}
}

func TestPepper(t *testing.T) {
	g := rastertest.Pepper(1, rastertest.Plane(100, 100, 0, 0, 0), 10)
	// 1000 ± 30 (one σ of the binomial) of 10 000 cells; five σ either way.
	if voids := len(g.MM) - g.ValidCells(); voids < 850 || voids > 1150 {
		t.Errorf("one in 10: got %d voids of %d", voids, len(g.MM))
	}
	if g := rastertest.Pepper(1, rastertest.Plane(9, 9, 0, 0, 0), 0); g.ValidCells() != 81 {
		t.Error("every 0: want no voids")
	}
}
