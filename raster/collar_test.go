package raster_test

import (
	"testing"

	"siltstep/raster"
	"siltstep/raster/rastertest"
)

func TestDropCollar(t *testing.T) {
	for _, tt := range []struct {
		name      string
		land      int32 // mm, lowest of the plane
		collar    raster.Window
		wantCells int
	}{
		{"a zero collar below land at 1,640 m", 1_640_000, raster.Window{Cols: 4, Rows: 20}, 80},
		{"a block of zeros inside", 1_640_000, raster.Window{Col: 5, Row: 5, Cols: 10, Rows: 10}, 100},
		{"a few bad cells", 1_640_000, raster.Window{Col: 5, Row: 5, Cols: 3, Rows: 3}, 0},
		{"sea below a low shore", 40_000, raster.Window{Cols: 4, Rows: 20}, 0},
	} {
		t.Run(tt.name, func(t *testing.T) {
			g := rastertest.Plane(20, 20, tt.land+1900, 0, 100)
			for row := tt.collar.Row; row < tt.collar.Row+tt.collar.Rows; row++ {
				for col := tt.collar.Col; col < tt.collar.Col+tt.collar.Cols; col++ {
					g.MM[g.Index(col, row)] = 0
				}
			}
			mm, cells := g.DropCollar()
			if cells != tt.wantCells || mm != 0 {
				t.Errorf("%d cells at %d mm, want %d at 0", cells, mm, tt.wantCells)
			}
			if voids := len(g.MM) - g.ValidCells(); voids != tt.wantCells {
				t.Errorf("%d voids, want %d", voids, tt.wantCells)
			}
		})
	}
	flat := rastertest.Plane(5, 5, 0, 0, 0)
	if _, cells := flat.DropCollar(); cells != 0 {
		t.Errorf("a level grid lost %d cells", cells)
	}
}
