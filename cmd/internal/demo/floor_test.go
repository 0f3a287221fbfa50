package demo

import (
	"math"
	"testing"
)

func TestSoftMax(t *testing.T) {
	for _, c := range []struct {
		name       string
		a, b, want float64
	}{
		{"far apart", 2, 1, 2},
		{"equal: a quarter of the softness above", 1, 1, 1.075}, // 1 + 0.3/4
		{"at the seam's end", 1, 1.3, 1.3},
	} {
		if got := softMax(c.a, c.b, 0.3); math.Abs(got-c.want) > 1e-12 {
			t.Errorf("%s: %g; want %g", c.name, got, c.want)
		}
	}
}
