package demo

import (
	"math"
	"testing"

	"pgregory.net/rapid"
)

func TestNoiseStaysInRange(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := noise{rapid.Uint64().Draw(t, "seed")}
		x, y := rapid.Float64Range(-1e5, 1e5).Draw(t, "x"), rapid.Float64Range(-1e5, 1e5).Draw(t, "y")
		v := n.at(x, y)
		if v < -1 || v > 1 {
			t.Fatalf("%g", v)
		}
		// The quintic's steepest slope is 1.875, on a range of 2.
		if step := math.Abs(n.at(x+1e-3, y) - v); step > 1e-3*2*1.875+1e-9 {
			t.Fatalf("jumps by %g over a thousandth of a step", step)
		}
	})
}

func TestNoiseSpread(t *testing.T) {
	// Lattice values are even from −1 to 1: mean 0, standard deviation 1/√3. 40,000 values:
	// the mean strays by 0.003, four times that allowed.
	n := noise{7}
	sum, square, count := 0.0, 0.0, 0.0
	for i := range int64(200) {
		for j := range int64(200) {
			v := n.lattice(i, j)
			sum, square, count = sum+v, square+v*v, count+1
		}
	}
	if mean, sd := sum/count, math.Sqrt(square/count); math.Abs(mean) > 0.012 || math.Abs(sd-1/math.Sqrt(3)) > 0.012 {
		t.Errorf("mean %.4f, standard deviation %.4f", mean, sd)
	}
}
