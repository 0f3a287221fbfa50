package channel

import (
	"testing"

	"siltstep/raster"
)

func TestThalweg(t *testing.T) {
	const v = raster.VoidMM
	tests := []struct {
		name string
		mm   []int32
		at   int
		want int
	}{
		{"the line lies on it", []int32{900, 900, 500, 0, 500, 900, 900}, 3, 3},
		{"one cell to the left", []int32{900, 600, 0, 300, 600, 900, 900, 900, 900}, 4, 2},
		{"two cells to the right", []int32{900, 900, 900, 900, 600, 400, 200, 0, 0, 0, 400, 900, 900}, 4, 8},
		{"level bed: stays", []int32{900, 0, 0, 0, 0, 0, 900}, 3, 3},
		// The evened bed dips by one sample of 40 mm where three others dip by 30.
		{"one low sample does not draw it", []int32{900, 30, 60, 20, 60, 60, 30, 30, 30, 900}, 5, 7},
		{"a bank of 0.5 m hides lower ground beyond", []int32{900, 300, 300, 800, 800, 0, -400, -500, -400}, 2, 2},
		{"a hump of 0.08 m does not", []int32{900, 300, 300, 300, 340, 380, 200, 100, 200, 600}, 2, 7},
		{"falls to the end of the search: stays", []int32{900, 800, 700, 600, 500, 400, 300, 200, 100, 0, -100}, 1, 1},
		{"falls to a void: stays", []int32{v, 400, 500, 600, 700}, 3, 3},
		{"void", []int32{1, v, 0}, 1, 1},
		{"one sample", []int32{5}, 0, 0},
	}
	for _, tt := range tests {
		if got := thalweg(tt.mm, tt.at); got != tt.want {
			t.Errorf("%s: sample %d, want %d", tt.name, got, tt.want)
		}
	}
}
