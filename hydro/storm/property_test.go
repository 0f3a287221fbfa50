package storm

import (
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"
)

// drawn is a request whose values lie anywhere in their ranges.
func drawn(t *rapid.T) Request {
	q := Request{
		CatchmentM2:          rapid.Float64Range(1, 1e7).Draw(t, "area"),
		RunoffCoefficient:    rapid.Float64Range(0, 1).Draw(t, "C"),
		CurveNumber:          rapid.Float64Range(1, 100).Draw(t, "CN"),
		Ratio:                rapid.SampledFrom([]Ratio{"", Ratio05}).Draw(t, "ratio"),
		TimeOfConcentrationS: rapid.Float64Range(1, 40_000).Draw(t, "tc"),
		PondShare:            rapid.Float64Range(0, .1).Draw(t, "ponds"),
		PeakFactor:           rapid.SampledFrom([]float64{0, 300, 600}).Draw(t, "factor"),
		Pattern:              rapid.SampledFrom(append([]Pattern{""}, patterns...)).Draw(t, "pattern"),
		HoursH:               24,
		Rain:                 Rain{DepthMM: rapid.Float64Range(.01, 500).Draw(t, "rain")},
	}
	switch {
	case q.Pattern == PatternNested:
		q.HoursH = rapid.Float64Range(5.0/60, 1).Draw(t, "hours")
	case !q.Pattern.day():
		q.HoursH = rapid.Float64Range(1.0/60, 100).Draw(t, "hours")
	}
	return q
}

// Nothing is negative or endless, and the hydrograph holds the runoff.
func TestPeaksAreFinite(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		q := drawn(t)
		r, err := Peaks(q)
		if err != nil {
			if !strings.Contains(err.Error(), "too long") && !strings.Contains(err.Error(), "at most 200000") {
				t.Fatal(err)
			}
			t.Skip("too many steps")
		}
		for _, p := range r.Methods {
			if p.Valid && !(p.PeakM3s >= 0 && p.PeakM3s <= math.MaxFloat64) || math.IsNaN(p.PeakM3s) && (p.Valid || p.Note == "") {
				t.Fatalf("%+v", p)
			}
		}
		if volume := r.RunoffMM / 1000 * q.CatchmentM2; len(r.Hydrograph.FlowM3s) > 0 && math.Abs(r.Hydrograph.VolumeM3()-volume) > 1e-9*max(volume, r.RainMM/1000*q.CatchmentM2*1e-3) {
			t.Fatalf("%g m³ flow of %g m³", r.Hydrograph.VolumeM3(), volume)
		}
		for _, n := range r.Findings {
			if n.Text == "" || n.Rule == "" || strings.Contains(n.Text, "NaN") && n.Rule != RuleSpread {
				t.Fatalf("%+v", n)
			}
		}
	})
}

// More rain or a higher curve number never lowers a peak; a longer time never raises the graphical and rational ones.
func TestPeaksFollowTheirInputs(t *testing.T) {
	table := ranch()
	rapid.Check(t, func(t *rapid.T) {
		q := drawn(t)
		q.Pattern, q.HoursH = rapid.SampledFrom(patterns[3:]).Draw(t, "type"), 24
		more, higher, longer := q, q, q
		more.Rain.DepthMM = rapid.Float64Range(q.Rain.DepthMM, 600).Draw(t, "more rain")
		higher.CurveNumber = rapid.Float64Range(q.CurveNumber, 100).Draw(t, "higher CN")
		longer.TimeOfConcentrationS = rapid.Float64Range(q.TimeOfConcentrationS, 40_000).Draw(t, "longer")
		base, _ := Peaks(q)
		a, _ := Peaks(more)
		b, _ := Peaks(higher)
		c, _ := Peaks(longer)
		for _, m := range []Method{MethodGraphical, MethodUnitHydrograph} {
			low := base.peak(m) * (1 - 1e-9)
			if a.peak(m) < low || b.peak(m) < low {
				t.Fatalf("%s: %g, with more rain %g, with a higher curve number %g", m, base.peak(m), a.peak(m), b.peak(m))
			}
		}
		if c.peak(MethodGraphical) > base.peak(MethodGraphical)*(1+1e-9) {
			t.Fatalf("graphical: %g, after a longer time %g", base.peak(MethodGraphical), c.peak(MethodGraphical))
		}
		q.Rain, q.Pattern, q.ReturnPeriodYr = Rain{Table: &table}, "", 10
		longer = q
		longer.TimeOfConcentrationS = rapid.Float64Range(q.TimeOfConcentrationS, 40_000).Draw(t, "longer still")
		short, _ := Peaks(q)
		long, _ := Peaks(longer)
		if long.peak(MethodRational) > short.peak(MethodRational)*(1+1e-9) {
			t.Fatalf("rational: %g, after a longer time %g", short.peak(MethodRational), long.peak(MethodRational))
		}
	})
}
