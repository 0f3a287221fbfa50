package checkdam

import (
	"math"
	"testing"
)

// Own sums of V²/(2g·C²·1.65), g 9.81; in feet with g 32.174.
func TestIsbashD50(t *testing.T) {
	for _, c := range []struct{ ms, high, low float64 }{
		{1, .0418, .0215}, {1.5, .0940, .0483}, {2, .1671, .0858}, {4, .6683, .3432},
		{5 * ft, .3184 * ft, .1635 * ft}, {8 * ft, .8150 * ft, .4186 * ft}, {10 * ft, 1.2735 * ft, .6541 * ft},
	} {
		tol := 6e-5 + 5e-4*c.high // printed to 0.1 mm; g of 9.81 and 32.174 ft differ by 0.03 %
		if got := IsbashD50M(c.ms, IsbashHighTurbulence, StoneGravity); !near(got, c.high, tol) {
			t.Errorf("%g m/s, high turbulence: %.4f m, want %.4f", c.ms, got, c.high)
		}
		if got := IsbashD50M(c.ms, IsbashLowTurbulence, StoneGravity); !near(got, c.low, tol) {
			t.Errorf("%g m/s, low turbulence: %.4f m, want %.4f", c.ms, got, c.low)
		}
	}
	// The compilation's form, 0.5·V²/(2g·1.65), gives 0.118 ft at 5 ft/s: 2.7 times too small to use.
	if unsafe := 0.5 * 25 / (2 * 32.174 * 1.65) * ft; IsbashD50M(5*ft, IsbashHighTurbulence, StoneGravity) < 2.5*unsafe {
		t.Errorf("as small as the unsafe form, %.4f m", unsafe)
	}
}

// A design sheet that quotes Robinson, Rice and Kadavy 1998, read in a copy: stone, thickness of two stones, roughness. In feet and
// inches the forms are divided by 4.75e-3 and 3.93e-2; our own sums.
func TestRockChuteD50(t *testing.T) {
	for _, c := range []struct {
		q, slope, mm, n float64
		usCfsFt, usIn   float64
	}{
		{.05, .02, 13.913, .024, .5382, .5477},
		{.70, .06, 134.43, .040, 7.5347, 5.2917},
		{.05, .40, 76.609, .048, .5382, 3.0146},
	} {
		got := RockChuteD50M(c.q, c.slope)
		if !near(1000*got, c.mm, 0.005) { // printed to 0.001 mm and 0.01 mm
			t.Errorf("q %g, S %g: %.3f mm, want %.3f", c.q, c.slope, 1000*got, c.mm)
		}
		if n := RockChuteN(got, c.slope); !near(n, c.n, 0.0005) {
			t.Errorf("q %g, S %g: n %.4f, want %.3f", c.q, c.slope, n, c.n)
		}
		if in := 1000 * got / 25.4; !near(in, c.usIn, 0.002) { // the two forms agree to 0.04 %
			t.Errorf("q %g, S %g: %.4f in, want %.4f", c.q, c.slope, in, c.usIn)
		}
	}
	if a, b := RockChuteD50M(.5, .0999999), RockChuteD50M(.5, .1); math.Abs(a/b-1) > 0.0035 { // 0.3 %
		t.Errorf("the forms jump from %g to %g m at 10 %%", a, b)
	}
	if RockChuteD50M(.05, .4) <= RockChuteD50M(.05, .2) {
		t.Error("a steeper face asks for smaller stone: the sign of the exponent")
	}
}

// A riprap sizing in a mining-permit record of Colorado, read: 1.87 m/s, 0.1219 m deep, K1 0.8944 at 3:1.
func TestHEC11D50(t *testing.T) {
	if got := HEC11D50M(1.87, .1219, .8944); !near(got, .1315, 1e-4) {
		t.Errorf("%.5f m, want 0.1315", got)
	}
}

func dam(t *testing.T, change func(*Request)) Design {
	t.Helper()
	s, err := TrapezoidSection(2, 1, 1.5)
	if err != nil {
		t.Fatal(err)
	}
	r := Request{Kind: LooseRock, HeightM: 0.6, Slope: 0.06, Section: s, FaceUp: math.NaN(), FaceDown: math.NaN(), PeakM3s: 0.9}
	if change != nil {
		change(&r)
	}
	d, err := Size(r)
	if err != nil {
		t.Fatal(err)
	}
	return d
}

func TestStoneOfASteepFaceIsNotExtrapolated(t *testing.T) {
	d := dam(t, func(r *Request) { r.FaceDown = 2 })
	for _, s := range d.Stones {
		if s.Method == MethodRockChute && (s.Valid || !math.IsNaN(s.D50M)) {
			t.Errorf("a 2:1 face, 50 %%, has a chute stone: %+v", s)
		}
	}
	if d.StoneBy != MethodIsbash || !noted(d, RuleFace) {
		t.Errorf("stone by %q, notes %v", d.StoneBy, d.Notes)
	}
}

// The largest of the methods inside their range is taken.
func TestStoneIsTheLargestValid(t *testing.T) {
	d := dam(t, nil)
	most, valid := 0.0, 0
	for _, s := range d.Stones {
		if s.Valid {
			valid++
			most = max(most, s.WithFactorM)
		}
	}
	if valid < 2 || d.StoneM != most {
		t.Errorf("%d valid methods, stone %.3f m of %.3f", valid, d.StoneM, most)
	}
	for _, s := range d.Stones {
		if s.Method == MethodHEC11 && s.Valid {
			t.Errorf("riprap of calm water is taken for a critical notch: %s", s.Note)
		}
	}
	given := dam(t, func(r *Request) { r.VelocityMs = 2 })
	if s := given.Stones[0]; s.Method != MethodIsbash || !near(s.D50M, .1671, 1e-4) {
		t.Errorf("at 2 m/s: %+v", s)
	}
}

func noted(d Design, rule Rule) bool {
	for _, n := range d.Notes {
		if n.Rule == rule {
			return true
		}
	}
	return false
}
