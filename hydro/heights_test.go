package hydro

import (
	"strings"
	"testing"

	"siltstep/raster"
	"siltstep/raster/rastertest"
)

// A slope of 5 % and cells of 1 m, in heights of 1 mm, 0.1 m and 1 m; and a plane that falls by whole metres
// from cell to cell, which is no stair.
func TestHeightSteps(t *testing.T) {
	slope := func(stepMM int32) *raster.Grid {
		return rastertest.Surface(60, 60, 1, func(col, row int) int32 {
			return (100_000 - 50*int32(row) - 13*int32(col)) / stepMM * stepMM
		})
	}
	for _, tt := range []struct {
		name string
		g    *raster.Grid
		want string
	}{
		{"1 mm", slope(1), ""},
		{"0.1 m", slope(100), "multiples of 0.1 m"},
		{"1 m", slope(1000), "off by up to 10 %"},
		{"a steep plane", rastertest.Plane(20, 20, 100_000, 0, 1000), ""},
	} {
		f, ok := heightSteps(tt.g)
		if ok != (tt.want != "") || ok && !strings.Contains(f.Text, tt.want) {
			t.Errorf("%s: %v %q, want %q", tt.name, ok, f.Text, tt.want)
		}
	}
}
