package raster_test

import (
	"math"
	"testing"

	"siltstep/raster"
	"siltstep/raster/rastertest"
)

func TestLevelShare(t *testing.T) {
	void := raster.VoidMM
	for _, row := range []struct {
		name string
		g    *raster.Grid
		want float64
	}{
		{"plane", rastertest.Plane(20, 10, 0, 1, 0), 0},
		{"level", rastertest.Plane(20, 10, 5, 0, 0), 1},
		// Level 7 x 7 within a wall: of the 49 cells 25 have neighbours in the flat only; all but the border of the grid count.
		{"lake", rastertest.Surface(20, 20, 1, func(c, r int) int32 {
			if c >= 5 && c < 12 && r >= 5 && r < 12 {
				return 0
			}
			return int32(10 + c + 100*r)
		}), 25.0 / (18 * 18)},
		{"void beside", rastertest.Of([]int32{1, 1, 1, 1}, []int32{1, 1, 1, 1}, []int32{1, 1, 1, void}), 1},
		{"nothing but voids", rastertest.Plane(5, 5, void, 0, 0), math.NaN()},
		{"two rows", rastertest.Plane(5, 2, 1, 0, 0), math.NaN()},
	} {
		if got := row.g.LevelShare(); got != row.want && !(math.IsNaN(got) && math.IsNaN(row.want)) {
			t.Errorf("%s: got %g, want %g", row.name, got, row.want)
		}
	}
	tiny(func(g *raster.Grid) {
		if got, counted := g.LevelShare(), g.Cols == 3 && g.Rows == 3; counted != (got == 0) || !counted && !math.IsNaN(got) {
			t.Errorf("%d x %d cells: got %g", g.Cols, g.Rows, got)
		}
	})
}
