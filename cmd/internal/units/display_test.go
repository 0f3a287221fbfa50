package units

import (
	"math"
	"testing"
)

func TestDisplay(t *testing.T) {
	// Published worked figures: 600 m is 1,970 ft rounded to ten, 10 ac is 4.047 ha, 2 ft is
	// 0.6096 m, 1 cfs is 0.0283168466 m³/s, 1 yd³ is 0.764554858 m³ (NIST SP 811, 2008,
	// Appendix B, from memory); the rest is one division by the exact unit.
	rows := []struct {
		name, got, want string
	}{
		{"length", Metric.Length(10, 1), "10.0 m"},
		{"length in feet: 10/0.3048", US.Length(10, 1), "32.8 ft"},
		{"treated length: 600/0.3048", US.Length(600, 0), "1969 ft"},
		{"area", Metric.Area(40468.564224, 3), "4.047 ha"},
		{"area in acres", US.Area(40468.564224, 2), "10.00 ac"},
		{"volume", Metric.Volume(73, 0), "73 m³"},
		{"volume: 73/0.764554858 = 95.48", US.Volume(73, 1), "95.5 yd³"},
		{"flow", Metric.Flow(1.5, 2), "1.50 m³/s"},
		{"flow: 0.0283168466/0.0283168466", US.Flow(0.0283168466, 2), "1.00 cfs"},
		{"weight", Metric.Mass(125.56, 1), "125.6 t"},
		{"weight: 73 m³ x 1.72 t/m³ / 0.90718474 = 138.41", US.Mass(73*1.72, 0), "138 US tons (2,000 lb)"},
		{"rainfall", Metric.Rainfall(25.4, 1), "25.4 mm/h"},
		{"rainfall in inches", US.Rainfall(25.4, 2), "1.00 in/h"},
		{"slope", Metric.Slope(0.08, 1), "8.0 %"},
		{"slope is the same in US units", US.Slope(0.08, 1), "8.0 %"},
		{"below zero", Metric.Length(-1.25, 2), "-1.25 m"},
		{"rounded to nothing keeps no sign", Metric.Length(-0.001, 1), "0.0 m"},
		{"not computed", Metric.Length(math.NaN(), 1), "–"},
		{"infinite", US.Flow(math.Inf(1), 1), "–"},
	}
	for _, r := range rows {
		t.Run(r.name, func(t *testing.T) {
			if r.got != r.want {
				t.Errorf("got %q, want %q", r.got, r.want)
			}
		})
	}
}

func TestConstants(t *testing.T) {
	// The right-hand values are those printed in NIST SP 811 (2008), Appendix B, or their
	// products, from memory; tolerance 1e-15 relative: the last bit of a float.
	rows := []struct {
		name      string
		got, want float64
	}{
		{"foot, m", FootM, 0.3048},
		{"survey foot, m: 1200/3937", SurveyFootM, 0.3048006096012192},
		{"acre, m²: 43,560 x 0.09290304", AcreM2, 4046.8564224},
		{"cubic foot, m³", CubicFootM3, 0.028316846592},
		{"cubic yard, m³", CubicYardM3, 0.764554857984},
		{"short ton, t", ShortTonT, 0.90718474},
	}
	for _, r := range rows {
		t.Run(r.name, func(t *testing.T) {
			if math.Abs(r.got-r.want) > 1e-15*r.want {
				t.Errorf("got %v, want %v", r.got, r.want)
			}
		})
	}
}

// The units on the way in and on the way out agree: one typed unit is one displayed unit.
func TestInAgreesWithOut(t *testing.T) {
	rows := []struct {
		name  string
		parse func(string) (float64, error)
		scale func(System) Scale
	}{
		{"length", ParseLength, System.LengthScale},
		{"area", ParseArea, System.AreaScale},
		{"slope", ParseSlope, System.SlopeScale},
		{"rainfall", ParseRainfallRate, System.RainfallScale},
	}
	for _, r := range rows {
		for _, s := range []System{Metric, US} {
			c := r.scale(s)
			si, err := r.parse("1 " + c.Unit)
			if err != nil || math.Abs(si-c.One) > 1e-15*c.One {
				t.Errorf("%s, %v: 1 %s read as %v, %v; shown with %v", r.name, s, c.Unit, si, err, c.One)
			}
		}
	}
}

func TestSystem(t *testing.T) {
	for _, s := range []System{Metric, US} {
		if got, err := ParseSystem(s.String()); err != nil || got != s {
			t.Errorf("%v read back as %v, %v", s, got, err)
		}
	}
	if _, err := ParseSystem("imperial"); err == nil || err.Error() != "imperial; metric or us" {
		t.Errorf("imperial: %v", err)
	}
	if got := System(9).String(); got != "System(9)" {
		t.Errorf("got %s", got)
	}
	defer func() {
		if recover() == nil {
			t.Error("no panic for negative decimals")
		}
	}()
	_ = Metric.Length(1, -1)
}
