package raster_test

import (
	"testing"

	"siltstep/raster"
	"siltstep/raster/rastertest"
)

func TestBridge(t *testing.T) {
	for _, tt := range []struct {
		name         string
		hole         raster.Window
		most         int
		holes, cells int
	}{
		{"one cell", raster.Window{Col: 5, Row: 5, Cols: 1, Rows: 1}, 25, 1, 1},
		{"twenty-five cells", raster.Window{Col: 3, Row: 3, Cols: 5, Rows: 5}, 25, 1, 25},
		{"one too many", raster.Window{Col: 3, Row: 3, Cols: 2, Rows: 13}, 25, 0, 0},
		{"on the border", raster.Window{Col: 0, Row: 5, Cols: 1, Rows: 1}, 25, 0, 0},
		{"closing is off", raster.Window{Col: 5, Row: 5, Cols: 1, Rows: 1}, 0, 0, 0},
	} {
		t.Run(tt.name, func(t *testing.T) {
			plane := rastertest.Plane(20, 20, 50_000, 0, 100)
			g := rastertest.Hole(rastertest.Plane(20, 20, 50_000, 0, 100), tt.hole)
			voids := len(g.MM) - g.ValidCells()
			holes, cells := g.Bridge(tt.most)
			if holes != tt.holes || cells != tt.cells {
				t.Errorf("closed %d holes of %d cells, want %d of %d", holes, cells, tt.holes, tt.cells)
			}
			if left := len(g.MM) - g.ValidCells(); left != voids-tt.cells {
				t.Errorf("%d voids left, want %d", left, voids-tt.cells)
			}
			lo, hi, _ := plane.RangeMM()
			for i, z := range g.MM {
				if z == raster.VoidMM {
					continue
				}
				// The rim of a hole of 5 rows spans 6 rows of 100 mm; its mean is off by at most half of that.
				if d := z - plane.MM[i]; d < -300 || d > 300 || z < lo || z > hi {
					t.Errorf("cell %d is %d mm off the plane", i, d)
				}
			}
		})
	}
}

// A single void on a plane takes the height of the plane: the cells around it lie about it evenly.
func TestBridgeOneCellExactly(t *testing.T) {
	g := rastertest.Hole(rastertest.Plane(9, 9, 50_000, 70, 100), raster.Window{Col: 4, Row: 4, Cols: 1, Rows: 1})
	g.Bridge(raster.SmallHoleCells)
	if want := rastertest.Plane(9, 9, 50_000, 70, 100).At(4, 4); g.At(4, 4) != want {
		t.Errorf("%d mm, want %d", g.At(4, 4), want)
	}
}

// Two specks that touch at a corner are one hole; apart they are two.
func TestBridgeCounts(t *testing.T) {
	g := rastertest.Plane(20, 20, 50_000, 0, 100)
	for _, at := range [][2]int{{5, 5}, {6, 6}, {12, 12}} {
		g.MM[g.Index(at[0], at[1])] = raster.VoidMM
	}
	if holes, cells := g.Bridge(25); holes != 2 || cells != 3 {
		t.Errorf("%d holes of %d cells, want 2 of 3", holes, cells)
	}
}
