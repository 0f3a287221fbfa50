package demo

import (
	"math"
	"testing"
)

func TestLevels(t *testing.T) {
	level := []float64{9, 8, 7, 3, 2, 1}
	// Hand sums: (8 + 7 + 3)/3 at 2; the ends keep their own value.
	if got := meanOver(level, 1); math.Abs(got[2]-6) > 1e-12 || got[0] != 9 || got[5] != 1 {
		t.Errorf("running mean %v", got)
	}
	if got := fall(level, 1, 4); got != 2 { // (8 − 2)/3
		t.Errorf("fall %g; want 2", got)
	}
	if got := levelAt(level, 2.25); got != 6 { // 7 − 4/4
		t.Errorf("level %g; want 6", got)
	}
	uneven := []float64{5, 5.5, 4.95, 4}
	flattenDown(uneven, 0.1)
	for k, want := range []float64{5, 4.9, 4.8, 4} {
		if math.Abs(uneven[k]-want) > 1e-12 {
			t.Errorf("levels %v at %d; want %g", uneven, k, want)
		}
	}
}
