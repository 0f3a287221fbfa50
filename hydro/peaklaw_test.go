package hydro

import (
	"math"
	"testing"

	"siltstep/hydro/storm"
)

// An interpolated peak is that of the storm itself, reckoned anew for one catchment.
func TestPeakLawAgainstTheStorm(t *testing.T) {
	table := &storm.Table{DurationsMin: []float64{5, 10, 30, 60, 120, 360, 1440}, ReturnPeriodsYr: []float64{10},
		DepthsMM: [][]float64{{10}, {15}, {26}, {32}, {38}, {48}, {62}}}
	both := Storm{Rain: storm.Rain{Table: table}, HoursH: 24, RunoffCoefficient: 0.35, CurveNumber: 80}
	rational, unit := both, both
	rational.Method, unit.CurveNumber = storm.MethodRational, 85
	for name, s := range map[string]Storm{"both": both, "rational named": rational, "another curve number": unit} {
		law := &peakLaw{ask: s.request()}
		for _, areaM2 := range []float64{500, 30_000, 800_000, 800_001, 2_000_000, 5_000_000} {
			for _, travelS := range []float64{0, 359, 360, 373, 500, 1234, 4000, 20_000} {
				q := s.request()
				q.CatchmentM2, q.TimeOfConcentrationS = areaM2, max(1, travelS)
				want, err := storm.Peaks(q)
				if err != nil {
					t.Fatal(err)
				}
				got := law.peak(areaM2, travelS)
				// 1 %: the unit hydrograph goes by whole steps of rain.
				off := func(a, b float64) bool {
					return !(math.Abs(a/b-1) < 0.01) && math.IsNaN(a) == math.IsNaN(b) == !math.IsNaN(a)
				}
				if off(got.peakM3s, want.PeakM3s) || off(got.lowM3s, want.LowM3s) || off(got.highM3s, want.HighM3s) {
					t.Errorf("%s, %g m², %g s: %.4f (%.4f to %.4f) m³/s, want %.4f (%.4f to %.4f)", name, areaM2, travelS,
						got.peakM3s, got.lowM3s, got.highM3s, want.PeakM3s, want.LowM3s, want.HighM3s)
				}
				if got.concentrationS != want.TimeOfConcentrationS {
					t.Errorf("%s, %g s: time of concentration %g s, want %g", name, travelS, got.concentrationS, want.TimeOfConcentrationS)
				}
				if alone := law.peakM3s(areaM2, travelS); alone != got.peakM3s && !(math.IsNaN(alone) && math.IsNaN(got.peakM3s)) {
					t.Errorf("%s, %g m², %g s: alone %g m³/s, else %g", name, areaM2, travelS, alone, got.peakM3s)
				}
			}
		}
	}
}

func TestPeakBeyondTheTableIsNotKnown(t *testing.T) {
	law := &peakLaw{ask: Storm{Rain: storm.Rain{IntensityMMH: 50}, RunoffCoefficient: 0.3}.request()}
	for _, s := range []float64{math.NaN(), math.Inf(1), 1e6} {
		if got := law.peak(1e4, s); !math.IsNaN(got.peakM3s) || got.why == "" || !math.IsNaN(law.peakM3s(1e4, s)) {
			t.Errorf("%g s: %+v", s, got)
		}
	}
	// 0.3·50 mm/h on 1 ha is 0.3·50·1/360 = 0.04167 m³/s at any time.
	if got := law.peakM3s(1e4, 1000); math.Abs(got-0.041667) > 1e-6 {
		t.Errorf("%g m³/s", got)
	}
}
