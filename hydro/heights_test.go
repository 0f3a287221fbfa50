package hydro

import (
	"strings"
	"testing"

	"siltstep/raster"
	"siltstep/raster/rastertest"
)

func TestCommonStep(t *testing.T) {
	for _, tt := range []struct {
		name string
		mm   []int32
		want int64
	}{
		{"whole metres", []int32{5000, 7000, 6000, 5000}, 1000},
		{"metres on a fraction", []int32{5300, 7300, 6300, 5300}, 1000},
		{"centimetres", []int32{5310, 5200, 5500, 5300}, 10},
		{"millimetres", []int32{5311, 5200, 5500, 5300}, 1},
		{"level", []int32{5000, 5000, 5000, 5000}, 0},
		{"a void", []int32{raster.VoidMM, 5000, 8000, 5000}, 3000},
	} {
		if got := commonStepMM(rastertest.Of(tt.mm)); got != tt.want {
			t.Errorf("%s: step %d mm, want %d", tt.name, got, tt.want)
		}
	}
}

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
