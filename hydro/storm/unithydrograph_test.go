package storm

import (
	"fmt"
	"math"
	"testing"

	"pgregory.net/rapid"
)

// q/qp and accumulated volume by t/Tp (NRCSNEH630, table 16-1: the curve in a copy, the mass curve from memory, where
// some printings have 0.012 at 0.3; integration gives 0.017). The mass is rounded and by steps: 0.004 is allowed.
func TestCurvilinearShape(t *testing.T) {
	q := numbers(t, "0 .030 .100 .190 .310 .470 .660 .820 .930 .990 1.000 .990 .930 .860 .780 .680 .560 .460 .390 .330 .280 .207 .147 .107 .077 .055 .040 .029 .021 .015 .011 .005 0", "")
	mass := numbers(t, "0 .001 .006 .017 .035 .065 .107 .163 .228 .300 .375 .450 .522 .589 .650 .700 .751 .790 .822 .849 .871 .908 .934 .953 .967 .977 .984 .989 .993 .995 .997 .999 1", "")
	area := 0.0
	for i := range q {
		check(t, secondary, fmt.Sprintf("q/qp at %g", rowTime(i)), curvilinear(rowTime(i)), q[i], 1e-12)
		if i > 0 {
			area += (q[i] + q[i-1]) / 2 * (rowTime(i) - rowTime(i-1))
		}
		check(t, memory, fmt.Sprintf("mass at %g", rowTime(i)), area/1.33595, mass[i], .004)
	}
	check(t, computed, "area", area, 1.33595, 1e-9)
	check(t, computed, "peak factor of the table", evenPeakFactor/area, 483.05, .01)
	if rowTime(20) != 2 || rowTime(30) != 4 || rowTime(32) != 5 {
		t.Error("the times of the table are wrong")
	}
}

// 484 × area × depth / time in US units is 0.2083 in km², mm, h (NWSUnitHydrograph, read in part).
func TestUnitPeakFormula(t *testing.T) {
	check(t, read, "0.2083", UnitPeakM3s(1e6, hourS, PeakFactor), .2083, .00006)
	check(t, computed, "484 in US units", UnitPeakM3s(mileM2, hourS, PeakFactor)*inchMM/cubicFootM3, 484, .01)
	// 5 ha, 13.80 mm in one step of 0.133 × 10 min: Tp 0.1111 h, 1.294 m³/s at most.
	tp := (.133/2 + .6) * 600.0
	check(t, computed, "time to peak, h", tp/hourS, .1111, .0001)
	check(t, computed, "ceiling", UnitPeakM3s(5e4, tp, PeakFactor)*13.80, 1.294, .002)
	check(t, memory, "gamma shape at 484", gammaShape(484), 3.70, .02)
}

// Curve number 100, rain by the hour in cm, ordinates by the hour (inputs Ponce1989, example 5-7, read; outputs by hand).
func TestConvolution(t *testing.T) {
	u := UnitHydrograph{hourS, numbers(t, "0 100 200 400 800 600 400 200 100 0", "")}
	rain := Hyetograph{hourS, numbers(t, ".1 .8 1.6 1.2 .9 .4", "")}
	g, err := newLand([]Patch{{1, 100}}, WetnessAverage, Ratio20)
	if err != nil {
		t.Fatal(err)
	}
	h := u.Convolve(g.excess(rain))
	sum := 0.0
	for i, want := range numbers(t, "0 10 100 360 840 1670 2500 2700 2410 1740 1000 460 170 40 0", "") {
		check(t, computed, "flow", h.FlowM3s[i], want, 1e-9)
		sum += h.FlowM3s[i]
	}
	check(t, computed, "sum", sum, 14000, 1e-9)
	if len(h.FlowM3s) != 15 || h.PeakM3s() != h.FlowM3s[7] || h.PeakS() != 7*hourS || math.Abs(h.VolumeM3()-14000*hourS) > 1e-6 {
		t.Errorf("%d values, peak %g at %g s", len(h.FlowM3s), h.PeakM3s(), h.PeakS())
	}
	if empty := u.Convolve(nil); empty.PeakM3s() != 0 || empty.VolumeM3() != 0 || empty.PeakS() != 0 {
		t.Error("no runoff flows")
	}
}

// The unit hydrograph holds 1 mm over the catchment whatever its shape, factor and step; the table as printed would hold
// 484/483.05 of it, 0.2 % too much. Its peak is near that of its factor: the longest steps may miss the top
// and cut 7.5 % off.
func TestUnitHydrographHoldsItsRunoff(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		shape := rapid.SampledFrom([]Shape{"", ShapeCurvilinear, ShapeTriangular}).Draw(t, "shape")
		factor := rapid.SampledFrom([]float64{0, 484, 600, 300, 100}).Draw(t, "factor")
		m2 := rapid.Float64Range(100, 1e8).Draw(t, "area")
		tc := rapid.Float64Range(60, 36_000).Draw(t, "tc")
		step := tc * rapid.Float64Range(.01, stepShare).Draw(t, "step")
		u, err := NewUnitHydrograph(shape, m2, tc, step, factor)
		if err != nil {
			t.Fatal(err)
		}
		mm := rapid.SliceOfN(rapid.Float64Range(0, 50), 1, 40).Draw(t, "runoff")
		total := 0.0
		for _, v := range mm {
			total += v
		}
		h := u.Convolve(mm)
		if volume := total / 1000 * m2; math.Abs(h.VolumeM3()-volume) > 1e-9*volume {
			t.Fatalf("%g m³ flow of %g m³", h.VolumeM3(), volume)
		}
		for _, q := range h.FlowM3s {
			if !(q >= 0 && q < math.MaxFloat64) {
				t.Fatalf("flow %g", q)
			}
		}
		if factor == 0 {
			factor = PeakFactor
		}
		one := u.Convolve([]float64{1})
		if ratio := one.PeakM3s() / UnitPeakM3s(m2, step/2+.6*tc, factor); ratio < .92 || ratio > 1.02 {
			t.Fatalf("peak is %g of that of factor %g", ratio, factor)
		}
	})
}

func TestUnitHydrographRefuses(t *testing.T) {
	for name, a := range map[string][4]float64{
		"catchment": {0, 600, 60, 484}, "time of concentration": {1e4, 0, 60, 484}, "step is": {1e4, 600, 0, 484}, "quarter": {1e4, 600, 300, 484},
		"peak factor": {1e4, 600, 60, 900}, "too fine": {1e4, 36_000, .1, 484}, "catchment is NaN": {math.NaN(), 600, 60, 484},
	} {
		_, err := NewUnitHydrograph(ShapeCurvilinear, a[0], a[1], a[2], a[3])
		refused(t, name, err, name)
	}
	_, err := NewUnitHydrograph("square", 1e4, 600, 60, 484)
	refused(t, "shape", err, "curvilinear or triangular")
}
