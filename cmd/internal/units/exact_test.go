package units

import (
	"math"
	"testing"

	"pgregory.net/rapid"
)

func TestExactText(t *testing.T) {
	rows := []struct {
		name, got, want string
	}{
		{"height", LengthText(0.6), "0.6 m"},
		{"two feet", LengthText(0.6096), "0.6096 m"},
		{"nothing", LengthText(0), "0 m"},
		{"negative zero", LengthText(math.Copysign(0, -1)), "0 m"},
		{"start area", AreaText(2500), "0.25 ha"},
		{"4 ha", AreaText(40000), "4 ha"},
		{"10 ac", AreaText(40468.564224), "4.0468564224 ha"},
		{"2 %", SlopeText(0.02), "2 %"},
		{"7 %, whose hundredfold is not 7 in floating point", SlopeText(0.07), "7 %"},
		{"20 %", SlopeText(0.2), "20 %"},
		{"number", NumberText(0.5), "0.5"},
		{"rain", RainDepthText(63.5), "63.5 mm"},
		{"rainfall rate", RainfallRateText(76.2), "76.2 mm/h"},
		{"yield", YieldText(0.5), "0.5 m3/ha"},
		{"weight", MassText(0.08), "0.08 t"},
		{"density", DensityText(1.4), "1.4 t/m3"},
		{"years", YearsText(10), "10 yr"},
		{"hours", HoursText(24), "24 h"},
		{"minutes", MinutesText(120), "120 min"},
		{"face", SideSlopeText(1.5), "1.5:1"},
		{"small number", NumberText(1e-9), "1e-09"},
	}
	for _, r := range rows {
		t.Run(r.name, func(t *testing.T) {
			if r.got != r.want {
				t.Errorf("got %q, want %q", r.got, r.want)
			}
		})
	}
}

func TestExactTextReadsBack(t *testing.T) {
	for _, p := range pairs {
		t.Run(p.name, rapid.MakeCheck(func(t *rapid.T) {
			x := rapid.Float64Range(0, math.MaxFloat64).Draw(t, "x")
			if back, err := p.parse(p.text(x)); err != nil || back != x {
				t.Fatalf("%v written %q read back as %v, %v", x, p.text(x), back, err)
			}
		}))
	}
}

func TestExactTextPanics(t *testing.T) {
	for _, x := range []float64{math.NaN(), math.Inf(1), -1} {
		func() {
			defer func() {
				if recover() == nil {
					t.Errorf("no panic for %v", x)
				}
			}()
			_ = LengthText(x)
		}()
	}
}
