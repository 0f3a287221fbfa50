package checkdam

import (
	"math"
	"testing"

	"pgregory.net/rapid"
)

const (
	cfs = 0.028316846592 // m³/s in a cubic foot a second, exact from 0.3048 m
	ft  = 0.3048         // m, exact
)

func theory(shape Shape, widthM, side, depthM float64) Notch {
	return Notch{Shape: shape, WidthM: widthM, SideSlope: side, DepthM: depthM, coefficient: BroadCrest}
}

// Exact critical flow, g 9.81; own sums, by hand for the rectangle: (2/3)^1.5·√9.81·2·0.3^1.5 = 0.5603. The approximate form
// 1.705·b·H^1.5 + 1.268·z·H^2.5 is 1 % to 2 % high and is not used.
func TestNotchFlow(t *testing.T) {
	for _, c := range []struct {
		name      string
		notch     Notch
		headM     float64
		want, tol float64 // m³/s
	}{
		{"rectangle", theory(Rectangular, 2, 0, 1), 0.30, 0.56029, 5e-5},
		{"trapezoid 1:1", theory(Trapezoidal, 2, 1, 1), 0.30, 0.61714, 5e-5},
		{"narrow trapezoid", theory(Trapezoidal, 1, 1, 1), 0.45, 0.67461, 5e-5},
		{"parabola of 3 m at 0.3 m", theory(Parabolic, 3, 0, 0.3), 0.30, 0.4727, 5e-5},
	} {
		if got := c.notch.FlowM3s(c.headM); !near(got, c.want, c.tol) {
			t.Errorf("%s: %.5f m³/s, want %.5f", c.name, got, c.want)
		}
	}
}

// 20 ft under 0.8 ft with the US coefficient 3.09 is 44.22 cfs: Ponce, open-channel examination, read. 3.09 in feet is 1.706 in
// metres; one who takes 3.09 (or the handbooks' 3.0) with metres has 1.8 times the flow.
func TestNotchCoefficientInMetres(t *testing.T) {
	n := theory(Rectangular, 20*ft, 0, 1)
	if got := n.FlowM3s(0.8*ft) / cfs; !near(got, 44.22, 0.05) { // 3.09 is 3.087 rounded: 0.1 %
		t.Errorf("%.3f cfs, want 44.22", got)
	}
	for _, l := range Kinds() {
		if l.Coefficient > BroadCrest {
			t.Errorf("%s: coefficient %g is over the theory in metres, %g: one for feet?", l.Kind, l.Coefficient, BroadCrest)
		}
	}
}

// Of a trapezoid of 1 m, 1:1, under 0.45 m the critical depth is 0.32091 m (own sum); of a parabola three quarters of the head.
func TestNotchCriticalDepth(t *testing.T) {
	if y := theory(Trapezoidal, 1, 1, 1).criticalM(0.45); !near(y, 0.32091, 5e-6) {
		t.Errorf("trapezoid %.5f m", y)
	}
	if y := theory(Parabolic, 3, 0, 0.3).criticalM(0.3); !near(y, 0.225, 1e-9) {
		t.Errorf("parabola %.5f m", y)
	}
	if y := theory(Trapezoidal, 2, 1, 1).criticalM(0.3); !near(y, 0.20586, 5e-6) {
		t.Errorf("wide trapezoid %.5f m", y)
	}
}

func TestNotchSolvesForThePeak(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		l := rapid.SampledFrom(Kinds()).Draw(t, "kind")
		ask := NotchRequest{Shape: rapid.SampledFrom([]Shape{Trapezoidal, Rectangular, Parabolic}).Draw(t, "shape"), WidthM: rapid.Float64Range(0.3, 8).Draw(t, "width")}
		peak := rapid.Float64Range(0.001, 20).Draw(t, "peak")
		n, err := solveNotch(ask, l, 2, peak)
		if err != nil {
			t.Fatal(err)
		}
		if got := n.FlowM3s(n.HeadM); !near(got, peak, 1e-6*peak+1e-9) {
			t.Fatalf("passes %g of %g m³/s at its head", got, peak)
		}
		if n.CapacityM3s < peak*(1-1e-6) || n.DepthM < LeastDepthM || n.FreeboardM < LeastFreeboardM-1e-6 {
			t.Fatalf("%+v for %g m³/s", n, peak)
		}
		wider := n
		wider.WidthM *= 1.1
		if wider.FlowM3s(n.HeadM) < n.FlowM3s(n.HeadM) {
			t.Fatal("a wider notch passes less")
		}
		if n.FlowM3s(n.HeadM*1.1) < n.FlowM3s(n.HeadM) {
			t.Fatal("a higher head passes less")
		}
	})
}

func TestNotchRefuses(t *testing.T) {
	l, _ := LimitsOf(LooseRock)
	for name, ask := range map[string]NotchRequest{
		"unknown shape":            {Shape: "round"},
		"rectangle with a slope":   {Shape: Rectangular, SideSlope: 1},
		"parabola without a width": {Shape: Parabolic},
	} {
		if n, err := solveNotch(ask, l, 0, 1); err == nil {
			t.Errorf("%s: %+v", name, n)
		}
	}
	if q := theory(Rectangular, 2, 0, 1).FlowM3s(-1); q != 0 {
		t.Errorf("flow under a negative head %g", q)
	}
	if n, err := solveNotch(NotchRequest{}, l, 0, 0.5); err != nil || math.IsNaN(n.HeadM) || n.WidthM != 0 {
		t.Errorf("a V notch over a V bed: %+v, %v", n, err)
	}
}
