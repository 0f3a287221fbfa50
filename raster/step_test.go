package raster_test

import (
	"math"
	"testing"

	"siltstep/raster"
	"siltstep/raster/rastertest"
)

// stairs are hills whose heights are rounded to a step, and then to mm.
func stairs(stepMM, shiftMM float64) *raster.Grid {
	return rastertest.Surface(300, 200, 1, func(c, r int) int32 {
		z := 800_000 + 40_000*math.Sin(float64(c)/37)*math.Cos(float64(r)/29)
		return int32(math.Round(math.Round(z/stepMM)*stepMM + shiftMM))
	})
}

func TestStep(t *testing.T) {
	for _, row := range []struct {
		name string
		g    *raster.Grid
		want float64 // mm
	}{
		{"whole metres", stairs(1000, 0), 1000},
		{"whole metres, shifted", stairs(1000, 137), 1000},
		{"decimetres", stairs(100, 0), 100},
		{"quarters of a metre", stairs(250, 0), 250},
		{"whole feet", stairs(304.8, 0), 304.8},
		{"whole survey feet", stairs(1200000.0/3937, 0), 1200000.0 / 3937},
		{"tenths of a foot", stairs(30.48, 0), 30.48},
		{"centimetres", stairs(10, 0), 10},
		{"an odd step", stairs(73, 0), 73},
		{"millimetres", stairs(1, 0), 1},
		{"whole metres, one cell in 300 filled in", rastertest.Surface(300, 200, 1, func(c, r int) int32 {
			if (300*r+c)%300 == 7 {
				return int32(100_001 + 7*r)
			}
			return int32(1000 * (c + r))
		}), 1000},
		{"two cells, both of whole 2 m and not of 5 m", rastertest.Of([]int32{236_000, 1_076_000}), 2000},
		{"below zero", rastertest.Of([]int32{-300, 500}), 100},
		{"voids do not count", rastertest.Of([]int32{raster.VoidMM, 4000, 3000}), 1000},
		{"one height", rastertest.Of([]int32{3000, 3000}), math.NaN()},
		{"no height", rastertest.Of([]int32{raster.VoidMM}), math.NaN()},
	} {
		if got := row.g.Step().MM; math.Abs(got-row.want) > 1e-9 || math.IsNaN(got) != math.IsNaN(row.want) {
			t.Errorf("%s: got %g mm, want %g", row.name, got, row.want)
		}
	}
}

// 0, 1, 1, 9 mm: three heights of the four that four cells could hold; 0 to 2 mm in six cells: all three.
func TestStepDistinct(t *testing.T) {
	if s := rastertest.Of([]int32{0, 1, 1, 9}).Step(); s != (raster.Step{MM: 1, Distinct: 3, Share: 0.75}) {
		t.Errorf("got %+v", s)
	}
	if s := rastertest.Of([]int32{0, 1, 2, 2, 1, 0}).Step(); s != (raster.Step{MM: 1, Distinct: 3, Share: 1}) {
		t.Errorf("got %+v", s)
	}
}
