package flow_test

import (
	"testing"

	"siltstep/raster/rastertest"
)

// Bearing of the middle cell of 3 x 3, worked by hand. The middle stands at 10 m; a
// neighbour not told is at 20 m.
func TestBearing(t *testing.T) {
	const M = 10_000
	around := func(e, s, w, n, se, sw, nw, ne int32) [8]int32 {
		fall := [8]int32{e, s, w, n, se, sw, nw, ne}
		for k, f := range fall {
			if fall[k] = M - f; f == 0 {
				fall[k] = 2 * M
			}
		}
		return fall
	}
	tests := []struct {
		name    string
		mm      [8]int32 // heights of E, S, W, N, SE, SW, NW, NE from the fall to each in mm
		bearing int16
	}{
		{"east", around(1, 0, 0, 0, 0, 0, 0, 0), 90},
		{"south", around(0, 1, 0, 0, 0, 0, 0, 0), 180},
		{"west", around(0, 0, 1, 0, 0, 0, 0, 0), 270},
		{"north is 360", around(0, 0, 0, 1, 0, 0, 0, 0), 360},
		{"south-east", around(0, 0, 0, 0, 1, 0, 0, 0), 135},
		{"south-west", around(0, 0, 0, 0, 0, 1, 0, 0), 225},
		{"north-west", around(0, 0, 0, 0, 0, 0, 1, 0), 315},
		{"north-east", around(0, 0, 0, 0, 0, 0, 0, 1), 45},
		{"all equal: east, nearer than a diagonal", around(5, 5, 5, 5, 5, 5, 5, 5), 90},
		{"south before west and north", around(0, 5, 5, 5, 0, 0, 0, 0), 180},
		{"west before north", around(0, 0, 5, 5, 0, 0, 0, 0), 270},
		{"diagonals: south-east first", around(0, 0, 0, 0, 5, 5, 5, 5), 135},
		{"diagonals: south-west before north-west", around(0, 0, 0, 0, 0, 5, 5, 5), 225},
		{"diagonals: north-west before north-east", around(0, 0, 0, 0, 0, 0, 5, 5), 315},
		{"steeper comes before order", around(5, 5, 5, 6, 0, 0, 0, 0), 360},
		// 1414/√2 = 999.85 < 1000 < 1000.56 = 1415/√2
		{"diagonal just too flat", around(1000, 0, 0, 0, 0, 0, 0, 1414), 90},
		{"diagonal just steeper", around(1000, 0, 0, 0, 0, 0, 0, 1415), 45},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			m := tt.mm
			g := rastertest.Of(
				[]int32{m[6], m[3], m[7]},
				[]int32{m[2], M, m[0]},
				[]int32{m[5], m[1], m[4]})
			if got := run(t, g, 1).BearingDeg(4); got != tt.bearing {
				t.Errorf("got %d, want %d", got, tt.bearing)
			}
		})
	}
}

// Border cells by hand: fall inside against the fall that the plane through the cell's
// own neighbours has beyond the border.
func TestBorderRule(t *testing.T) {
	tests := []struct {
		name     string
		rows     [][]int32
		row, col int
		bearing  int16 // 0: flow ends
	}{
		// Rising inwards: nothing lower inside.
		{"lowest at the border", [][]int32{{1, 2, 3}, {1, 2, 3}, {1, 2, 3}}, 1, 0, 0},
		// Falls 4 to the south outside, 3 to the east inside.
		{"steeper outside", [][]int32{{17, 14, 11}, {13, 10, 7}, {9, 6, 3}}, 2, 1, 0},
		// Falls 1 to the south outside, 3 to the east inside: along the border.
		{"steeper inside", [][]int32{{11, 8, 5}, {10, 7, 4}, {9, 6, 3}}, 2, 1, 90},
		// Falls 3 both ways along the axes, so 6/√2 to the outer corner SE against 3 inside.
		{"diagonal over the border", [][]int32{{12, 9, 6}, {9, 6, 3}, {6, 3, 0}}, 2, 0, 0},
		// Along the border 3 to the east; outward 0, and SE 3/√2: leaving the grid to the south
		// does not fall, so SE does not count.
		{"diagonal without an outward fall", [][]int32{{9, 6, 3}, {9, 6, 3}, {9, 6, 3}}, 2, 0, 90},
		// Equal falls of 2: outside wins.
		{"equal inside and outside", [][]int32{{9, 9, 9}, {6, 6, 6}, {2, 4, 2}}, 2, 1, 0},
		// V valley head at the border: sides 5, bed 1. The banks are not read as outflow:
		// 1 to the south inside, the fall to the north outside is -1.
		{"valley head", [][]int32{{15, 10, 15}, {14, 9, 14}, {13, 8, 13}}, 0, 1, 180},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			g := rastertest.Of(tt.rows...)
			f := run(t, g, 1)
			i := g.Index(tt.col, tt.row)
			if got := f.BearingDeg(i); got != tt.bearing {
				t.Errorf("bearing %d, want %d", got, tt.bearing)
			}
			if got := slowDown(g, f.FilledMM)[i]; got != f.Down(i) {
				t.Errorf("the slow rules send it to %d, the field to %d", got, f.Down(i))
			}
		})
	}
}
