package channel

import (
	"slices"
	"testing"

	"siltstep/raster"
	"siltstep/raster/rastertest"
)

func TestAcross(t *testing.T) {
	tests := []struct {
		name         string
		dCol, dRow   float64
		wantC, wantR int
	}{
		{"east", 2, 0, 0, 1},
		{"south", 0, 2, 1, 0},
		{"20° off east", 2, 0.728, 0, 1}, // tan 20° = 0.364
		{"25° off east", 2, 0.933, 1, -1},
		{"south-east", 1, 1, 1, -1},
		{"south-west", -1, 1, 1, 1},
		{"north-west", -1, -1, 1, -1},
		{"north-east", 1, -1, 1, 1},
		{"25° off north", 0.933, -2, 1, 1},
		{"20° off north", 0.728, -2, 1, 0},
		{"nowhere", 0, 0, 0, 0},
	}
	for _, tt := range tests {
		if c, r := across(tt.dCol, tt.dRow); c != tt.wantC || r != tt.wantR {
			t.Errorf("%s: step %d, %d; want %d, %d", tt.name, c, r, tt.wantC, tt.wantR)
		}
	}
}

func TestGroundIsLowestOfThreeAcross(t *testing.T) {
	const void = raster.VoidMM
	g := rastertest.Of(
		[]int32{5, 9, 9, 9},
		[]int32{8, 7, 4, 2}, // path along this row
		[]int32{9, 6, void, 1},
	)
	straight := []int{4, 5, 6, 7}
	got := groundMM(g, straight, centers(straight, g.Cols))
	// (0,1): 5 above. (1,1): 6 below. (2,1): 4 itself, void below. (3,1): 1 below.
	if want := []int32{5, 6, 4, 1}; !slices.Equal(got, want) {
		t.Errorf("along a row: %v, want %v", got, want)
	}
	diagonal := []int{0, 5} // south-east; at (1,1) across are (2,0) = 9 and (0,2) = 9
	got = groundMM(g, diagonal, centers(diagonal, g.Cols))
	if want := []int32{5, 7}; !slices.Equal(got, want) { // at (0,0) both neighbours lie off the grid
		t.Errorf("along a diagonal: %v, want %v", got, want)
	}
	if got := groundMM(g, []int{7}, centers([]int{7}, g.Cols)); got[0] != 2 {
		t.Errorf("a single cell has no direction: %v, want its own 2", got)
	}
}
