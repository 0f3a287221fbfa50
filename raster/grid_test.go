package raster_test

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"siltstep/raster"
)

func TestTransformByHand(t *testing.T) {
	tr := raster.Transform{OriginX: 403500, OriginY: 7530500, CellM: 20}
	tests := []struct {
		name     string
		x, y     float64
		col, row int
	}{
		{"centre of the first cell", 403510, 7530490, 0, 0},
		{"outer corner", 403500, 7530500, 0, 0},
		{"shared edge goes east", 403520, 7530490, 1, 0},
		{"shared edge goes south", 403510, 7530480, 0, 1},
		{"west of the grid", 403499, 7530490, -1, 0},
		{"north of the grid", 403510, 7530501, 0, -1},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			if col, row := tr.ColRow(tt.x, tt.y); col != tt.col || row != tt.row {
				t.Errorf("got (%d, %d), want (%d, %d)", col, row, tt.col, tt.row)
			}
		})
	}
	// Half a cell in from the corner, 3 columns east and 2 rows south: 403500+70, 7530500-50.
	if x, y := tr.Center(3, 2); x != 403570 || y != 7530450 {
		t.Errorf("centre of (3, 2): got (%g, %g), want (403570, 7530450)", x, y)
	}
}

func TestGridByHand(t *testing.T) {
	g := raster.New(3, 2, raster.Transform{CellM: 1})
	copy(g.MM, []int32{5, raster.VoidMM, -7, 0, 9, raster.VoidMM})
	if i := g.Index(2, 1); i != 5 {
		t.Errorf("index of (2, 1): got %d, want 5", i)
	}
	if n := g.ValidCells(); n != 4 {
		t.Errorf("valid cells: got %d, want 4", n)
	}
	if lo, hi, ok := g.RangeMM(); lo != -7 || hi != 9 || !ok {
		t.Errorf("range: got %d, %d, %v; want -7, 9, true", lo, hi, ok)
	}
	for _, cell := range [][2]int{{-1, 0}, {0, -1}, {3, 0}, {0, 2}, {1, 0}} {
		if z := g.At(cell[0], cell[1]); z != raster.VoidMM {
			t.Errorf("at %v: got %d, want void", cell, z)
		}
	}
}

func TestRangeAllVoid(t *testing.T) {
	g := raster.New(2, 1, raster.Transform{CellM: 1})
	g.MM[0], g.MM[1] = raster.VoidMM, raster.VoidMM
	if _, _, ok := g.RangeMM(); ok || g.ValidCells() != 0 {
		t.Error("a grid of voids has no range and no valid cell")
	}
}

func TestNewRefusesBadSize(t *testing.T) {
	for _, size := range [][2]int{{0, 3}, {3, 0}, {-1, -1}, {1 << 16, 1 << 15}, {math.MaxInt, 2}} {
		func() {
			defer func() {
				if recover() == nil {
					t.Errorf("size %v: want a panic", size)
				}
			}()
			raster.New(size[0], size[1], raster.Transform{CellM: 1})
		}()
	}
}

// Cell to map to cell is the identity, for cells from a centimetre to a kilometre at UTM
// coordinates, inside the grid and out; and index to cell to index inside it.
func TestCellMapCell(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		tr := raster.Transform{
			OriginX: rapid.Float64Range(100_000, 900_000).Draw(t, "x"),
			OriginY: rapid.Float64Range(0, 10_000_000).Draw(t, "y"),
			CellM:   rapid.Float64Range(0.01, 1000).Draw(t, "cell"),
		}
		place := rapid.IntRange(-100_000, 100_000)
		col, row := place.Draw(t, "col"), place.Draw(t, "row")
		if c, r := tr.ColRow(tr.Center(col, row)); c != col || r != row {
			t.Fatalf("(%d, %d) came back as (%d, %d)", col, row, c, r)
		}
		g := raster.New(rapid.IntRange(1, 40).Draw(t, "cols"), rapid.IntRange(1, 40).Draw(t, "rows"), tr)
		i := rapid.IntRange(0, len(g.MM)-1).Draw(t, "index")
		gc, gr := g.ColRow(i)
		if !g.Inside(gc, gr) || g.Index(gc, gr) != i {
			t.Fatalf("index %d came back as %d by (%d, %d)", i, g.Index(gc, gr), gc, gr)
		}
		if c, r := g.Transform.ColRow(g.CenterOf(i)); c != gc || r != gr {
			t.Fatalf("centre of (%d, %d) lies in (%d, %d)", gc, gr, c, r)
		}
	})
}
