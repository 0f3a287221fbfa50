package raster_test

import (
	"testing"

	"siltstep/raster"
	"siltstep/raster/rastertest"
)

func TestHoles(t *testing.T) {
	g := rastertest.Plane(40, 30, 9, 0, 0)
	for _, w := range []raster.Window{
		{Col: 5, Row: 5, Cols: 5, Rows: 5},                                       // 25 cells: small
		{Col: 20, Row: 5, Cols: 13, Rows: 2},                                     // 26 cells: large
		{Col: 3, Row: 20, Cols: 1, Rows: 1}, {Col: 4, Row: 21, Cols: 1, Rows: 1}, // touch by a corner: one hole of 2
		{Col: 36, Row: 0, Cols: 4, Rows: 3}, // 12 cells at the border
	} {
		rastertest.Hole(g, w)
	}
	want := raster.Holes{Small: 2, SmallCells: 27, Large: 1, LargeCells: 26, EdgeCells: 12}
	if got := g.Holes(raster.SmallHoleCells); got != want {
		t.Errorf("got %+v, want %+v", got, want)
	}
	holes, cells := g.Bridge(raster.SmallHoleCells)
	if holes != want.Small || cells != want.SmallCells {
		t.Errorf("bridged %d holes of %d cells, but %d of %d are counted as small", holes, cells, want.Small, want.SmallCells)
	}
	if got := rastertest.Plane(4, 3, raster.VoidMM, 0, 0).Holes(25); got != (raster.Holes{EdgeCells: 12}) {
		t.Errorf("nothing but voids: got %+v", got)
	}
	if got := rastertest.Plane(4, 3, 1, 0, 0).Holes(25); got != (raster.Holes{}) {
		t.Errorf("no void: got %+v", got)
	}
}
