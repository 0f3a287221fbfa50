package channel

import (
	"math"
	"testing"

	"siltstep/raster/rastertest"
)

func TestNearest(t *testing.T) {
	// V valley, 21 x 30, channel from (10, 2) down (50 cells and more).
	g := rastertest.Valley(21, 30, 50_000, 500, 50)
	f := run(t, g)
	at := func(col, row float64) (x, y float64) {
		return rastertest.CornerX + col + 0.5, rastertest.CornerY - row - 0.5
	}
	tests := []struct {
		name     string
		col, row float64
		within   float64
		cell     int
		dist     float64
		ok       bool
	}{
		{"on the channel", 10, 12, 25, 12*21 + 10, 0, true},
		{"six cells beside", 4, 12, 25, 12*21 + 10, 6, true},
		{"exactly as far as allowed", 4, 12, 6, 12*21 + 10, 6, true},
		{"a little too far", 4, 12, 5.99, -1, math.Inf(1), false},
		{"above the head: 3-4-5", 7, -2, 25, 2*21 + 10, 5, true},
		{"outside the grid", -5, 20, 25, 20*21 + 10, 15, true},
		{"between two: the lower index", 10, 14.5, 1, 14*21 + 10, 0.5, true},
		{"no end of reach", 10, 400, math.Inf(1), 29*21 + 10, 371, true},
		{"far away", 5000, 5000, 25, -1, math.Inf(1), false},
		{"negative reach", 10, 12, -1, -1, math.Inf(1), false},
		{"reach not a number", 10, 12, math.NaN(), -1, math.Inf(1), false},
		{"position not a number", math.NaN(), 12, 25, -1, math.Inf(1), false},
	}
	for _, tt := range tests {
		x, y := at(tt.col, tt.row)
		cell, dist, ok := Nearest(g, f, Config{}, x, y, tt.within)
		if cell != tt.cell || ok != tt.ok || ok && math.Abs(dist-tt.dist) > 1e-6 { // map coordinates of 4,000 km hold 1e-9 m
			t.Errorf("%s: cell %d at %v, %t; want %d at %v, %t", tt.name, cell, dist, ok, tt.cell, tt.dist, tt.ok)
		}
	}
}
