package demo

import (
	"slices"
	"testing"
)

func TestStemsEndInLargerOnes(t *testing.T) {
	// Cells 0→1→2→3→leaves and 4→5→2: two stems that meet in cell 2.
	stems := findStems(&routing{
		down:   []int32{1, 2, 3, -1, 5, 2},
		areaM2: []float64{3000, 4000, 9000, 9500, 2600, 2700},
	})
	if len(stems) != 2 || stems[0].into != -1 || stems[1].into != 0 {
		t.Fatalf("%+v", stems)
	}
	for k, want := range [][]int32{{0, 1, 2, 3}, {4, 5, 2}} {
		if !slices.Equal(stems[k].cells, want) {
			t.Errorf("stem %d: %v; want %v", k, stems[k].cells, want)
		}
	}
}
