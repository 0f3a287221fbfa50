package demo

import (
	"math"
	"testing"
)

func TestSplineKeepsPlanes(t *testing.T) {
	// A cubic B-spline gives planes back; away from the rim, where the last cell repeats.
	s := newSurface(12, 9, 4, -8, -8)
	plane := func(p spot) float64 { return 1700 + 0.3*p.e - 0.2*p.s }
	for i := range s.z {
		s.z[i] = plane(s.center(i))
	}
	f := s.finer()
	for i, z := range f.z {
		p := f.center(i)
		inside := p.e > 0 && p.s > 0 && p.e < 32 && p.s < 20
		// 1e-9 m: rounding of float64 at 1,700 m.
		if want := plane(p); inside && (math.Abs(z-want) > 1e-9 || math.Abs(s.heightM(p)-want) > 1e-9) {
			t.Fatalf("at %v: %.12f and %.12f; want %.12f", p, z, s.heightM(p), want)
		}
	}
}
