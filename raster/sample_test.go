package raster_test

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"siltstep/raster"
)

func TestSample(t *testing.T) {
	// Four cells of 10 m, corner at (0, 20); centres at 5 and 15:
	//   1000 3000
	//   2000 6000 mm
	square := raster.New(2, 2, raster.Transform{OriginY: 20, CellM: 10})
	copy(square.MM, []int32{1000, 3000, 2000, 6000})
	holed := raster.New(2, 2, square.Transform)
	copy(holed.MM, []int32{1000, 3000, 2000, raster.VoidMM})
	nan, inf := math.NaN(), math.Inf(1)
	tests := []struct {
		name string
		g    *raster.Grid
		x, y float64
		want float64 // m
		ok   bool
	}{
		{"north-west centre", square, 5, 15, 1, true},
		{"south-east centre", square, 15, 5, 6, true},
		{"half way east", square, 10, 15, 2, true},
		{"half way south", square, 5, 10, 1.5, true},
		{"middle, mean of four", square, 10, 10, 3, true},         // (1+3+2+6)/4
		{"quarter east, half south", square, 7.5, 10, 2.25, true}, // (1.5 + 3)/2
		{"outer half of the border cell", square, 4.9, 15, 0, false},
		{"north of the last centre", square, 10, 15.1, 0, false},
		{"far away", square, 1e300, 10, 0, false},
		{"not a number", square, nan, 10, 0, false},
		{"infinite", square, 10, inf, 0, false},
		{"void corner carries weight", holed, 10, 10, 0, false},
		{"void corner on its centre", holed, 15, 5, 0, false},
		{"void corner without weight, row", holed, 10, 15, 2, true},
		{"void corner without weight, column", holed, 5, 10, 1.5, true},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			got, ok := tt.g.Sample(tt.x, tt.y)
			if ok != tt.ok || got != tt.want { // the shares are binary fractions: exact
				t.Errorf("got %v, %v; want %v, %v", got, ok, tt.want, tt.ok)
			}
		})
	}
}

func TestSampleOneCell(t *testing.T) {
	g := raster.New(1, 1, raster.Transform{CellM: 4, OriginY: 4})
	g.MM[0] = -1500
	if z, ok := g.Sample(2, 2); !ok || z != -1.5 {
		t.Errorf("at the only centre: got %v, %v; want -1.5, true", z, ok)
	}
	if _, ok := g.Sample(2.5, 2); ok {
		t.Error("beside the only centre: want false")
	}
}

// Elevations over the whole range of int32 are met without overflow.
func TestSampleFullRange(t *testing.T) {
	g := raster.New(2, 1, raster.Transform{CellM: 1, OriginY: 1})
	g.MM[0], g.MM[1] = math.MinInt32+1, math.MaxInt32
	if z, ok := g.Sample(1, 0.5); !ok || z != 0 { // the mean of -2147483.647 and 2147483.647 m
		t.Errorf("got %v, %v; want 0, true", z, ok)
	}
}

// A plane in whole millimetres is met at every position between the outer centres.
func TestSamplePlane(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		step := rapid.Int32Range(-5000, 5000)
		a, b := step.Draw(t, "mm a column"), step.Draw(t, "mm a row")
		const cell = 2.5
		g := raster.New(8, 6, raster.Transform{OriginX: 1000, OriginY: 2000, CellM: cell})
		for i := range g.MM {
			col, row := g.ColRow(i)
			g.MM[i] = a*int32(col) + b*int32(row)
		}
		u := rapid.Float64Range(0, 7).Draw(t, "column")
		v := rapid.Float64Range(0, 5).Draw(t, "row")
		got, ok := g.Sample(1000+(u+0.5)*cell, 2000-(v+0.5)*cell)
		want := (float64(a)*u + float64(b)*v) / 1000
		// 1e-9 m: relief of 60 m, positions in the thousands, float64 spacing about 5e-13.
		// At the very edge rounding of the position may put it just outside.
		edge := min(u, 7-u, v, 5-v) < 1e-9
		if !ok && !edge || ok && math.Abs(got-want) > 1e-9 {
			t.Fatalf("at column %v, row %v: got %v, %v; want %v", u, v, got, ok, want)
		}
	})
}
