package channel

import (
	"math"
	"testing"

	"pgregory.net/rapid"
)

func TestTrapezoidOf(t *testing.T) {
	tests := []struct {
		name                 string
		areaM2, topM, depthM float64
		want                 Trapezoid
	}{
		// Bed 2, banks 1 : 1.5, depth 1: top 2 + 2·1.5 = 5, area (2 + 5)/2 = 3.5.
		{"trapezoid", 3.5, 5, 1, Trapezoid{BedWidthM: 2, SideSlope: 1.5, DepthM: 1}},
		{"rectangle", 6, 4, 1.5, Trapezoid{BedWidthM: 4, DepthM: 1.5}},
		{"V", 2.25, 3, 1.5, Trapezoid{SideSlope: 1, DepthM: 1.5}},
		// Banks that steepen upward hold less than a V: m = 1/1² = 1, not 4/2.
		{"less than a V", 1, 4, 1, Trapezoid{SideSlope: 1, DepthM: 1}},
		{"banks that overhang", 5, 4, 1, Trapezoid{BedWidthM: 4, DepthM: 1}},
	}
	for _, tt := range tests {
		if got := trapezoidOf(tt.areaM2, tt.topM, tt.depthM); got != tt.want {
			t.Errorf("%s: %+v, want %+v", tt.name, got, tt.want)
		}
	}
}

func TestTrapezoidKeepsTheArea(t *testing.T) {
	// Depth times mean width of the shape is the area it was fitted to, but where the banks would overhang.
	rapid.Check(t, func(r *rapid.T) {
		area := rapid.Float64Range(0.01, 100).Draw(r, "area")
		top, depth := rapid.Float64Range(0.1, 50).Draw(r, "top"), rapid.Float64Range(0.05, 10).Draw(r, "depth")
		f := trapezoidOf(area, top, depth)
		got := f.DepthM * (f.BedWidthM + f.SideSlope*f.DepthM)
		if want := min(area, top*depth); math.Abs(got-want) > 1e-9*want { // rounding only
			r.Fatalf("area %v, want %v: %+v", got, want, f)
		}
		if f.BedWidthM < 0 || f.SideSlope < 0 {
			r.Fatalf("%+v", f)
		}
	})
}

func TestHeightOfATrapezoid(t *testing.T) {
	f := Trapezoid{BedWidthM: 2, SideSlope: 1.5, DepthM: 1}
	for at, want := range map[float64]float64{0: 0, 1: 0, -1: 0, 1.75: 0.5, -2.5: 1, 9: 1} {
		if got := f.heightM(at); got != want {
			t.Errorf("%v m from the middle %v m above the bed, want %v", at, got, want)
		}
	}
	if got := (Trapezoid{BedWidthM: 2, DepthM: 1}).heightM(1.01); got != 1 {
		t.Errorf("beyond a wall %v m, want 1", got)
	}
}
