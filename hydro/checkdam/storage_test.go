package checkdam

import (
	"math"
	"testing"
)

// b 2, z 1, h 0.6, bed 6 %: bh²/(2k) + zh³/(3k) with k the bed slope less that of the deposit. Own sums.
func TestWedge(t *testing.T) {
	s := trapezoid(t, 2, 1, 1.5)
	for _, c := range []struct{ ratio, cutM, want float64 }{
		{0, math.Inf(1), 7.20}, {.5, math.Inf(1), 14.40}, {.7, math.Inf(1), 24.00}, {.5, 10, 11.10},
	} {
		if got := wedgeM3(s, 0.6, 0.06, c.ratio*0.06, c.cutM); !near(got, c.want, 1e-9) {
			t.Errorf("ratio %g cut at %g m: %.4f m³, want %.2f", c.ratio, c.cutM, got, c.want)
		}
	}
}

// Wedges of H 1 m on a bed of 5 %: in a V of sides 0.5 (rise over run) H³/(3·s·t) = 13.3333; in a trapezoid of b 2, m 1.5 it is 30.0, and 60.0 under a
// deposit of half the slope. With an upstream face of 1.5:1 the V holds 13.3333/(1 + 1.5·0.05) = 12.4031 and the trapezoid 27.9070. The
// last take the face on the sloping bed into account; on a level bed, as here, it takes a little less.
func TestWedgeOfAVAndATrapezoid(t *testing.T) {
	v, trap := trapezoid(t, 0, 2, 1.5), trapezoid(t, 2, 1.5, 1.5)
	for _, c := range []struct {
		name      string
		s         Section
		ratio     float64
		want, net float64
	}{{"V", v, 0, 13.3333, 12.4031}, {"trapezoid", trap, 0, 30, 27.9070}, {"trapezoid under a deposit", trap, .5, 60, math.NaN()}} {
		got := wedgeM3(c.s, 1, .05, c.ratio*.05, math.Inf(1))
		if !near(got, c.want, 1e-4) {
			t.Errorf("%s: %.4f m³, want %.4f", c.name, got, c.want)
		}
		if net := got - bodyInWedgeM3(Body{FaceUp: 1.5}, c.s, 1); !math.IsNaN(c.net) && math.Abs(net/c.net-1) > 0.01 {
			t.Errorf("%s: %.4f m³ without the face, want about %.4f", c.name, net, c.net)
		}
	}
}

// The example of a swale in a state's stormwater manual (Minnesota Pollution Control Agency, read): h 1.5 ft, sides 2:1, bed 5 ft, 2 %, gives
// 450 ft³ a dam by h²(h·H + b)/(2S), which averages end areas; exactly it is 393.75 ft³, 14.3 % less.
func TestWedgeAgainstAPublishedSwale(t *testing.T) {
	s := trapezoid(t, 5*ft, 2, 3*ft)
	got := wedgeM3(s, 1.5*ft, .02, 0, math.Inf(1)) / (ft * ft * ft)
	published := 1.5 * 1.5 * (1.5*2 + 5) / (2 * .02)
	if !near(got, 393.75, 1e-6) || !near(published, 450, 1e-9) {
		t.Errorf("%.2f ft³ exactly, %.2f published", got, published)
	}
}

func TestFillYears(t *testing.T) {
	d := dam(t, func(r *Request) { r.CatchmentM2, r.Yield = 10_000, Yield{0.5, 3} })
	// 7.2 m³ from 1 ha: 7.2/(3·0.8) = 3 and 7.2/(0.5·0.2) = 72 years.
	if s := d.Storage; !near(s.FillYearsLow, 3, 1e-9) || !near(s.FillYearsHigh, 72, 1e-9) {
		t.Errorf("%g to %g years", s.FillYearsLow, s.FillYearsHigh)
	}
	if without := dam(t, nil); !math.IsNaN(without.Storage.FillYearsLow) || !noted(without, RuleYield) {
		t.Error("years to fill without a yield")
	}
}

// 0.6 m at 10 %: 1.2 m, the least; 1 m at 10 %: 1.5 m; 1 m at 16 %: 1.75 m. Heede 1976, from memory; least of IndianaCheckDam.
func TestApron(t *testing.T) {
	for _, c := range []struct{ heightM, slope, want float64 }{{.6, .10, 1.2}, {1, .10, 1.5}, {1, .16, 1.75}} {
		if f := foundation(c.heightM, c.heightM, c.slope, math.NaN(), 2, 2); !near(f.ApronLengthM, c.want, 1e-9) {
			t.Errorf("%g m at %g: %.3f m, want %g", c.heightM, c.slope, f.ApronLengthM, c.want)
		}
	}
}
