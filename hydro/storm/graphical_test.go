package storm

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"
)

// csm returns a unit peak in ft³/s per square mile per inch.
func csm(t *testing.T, p Pattern, hours, ratio float64) float64 {
	t.Helper()
	v, _, err := UnitPeak(p, hours*hourS, ratio)
	if err != nil {
		t.Fatal(err)
	}
	return v / csmPerInch
}

// Coefficients C0, C1, C2 by Ia/P (SCS1986, appendix F, in copies; C2 of type III and of the last row of type II memory). The
// unit peak at 0.1, 1 and 10 h is worked from them: at 1 h it is 10^C0 alone.
func TestUnitPeakCoefficients(t *testing.T) {
	for p, text := range map[Pattern]string{
		PatternI:   ".10 2.30550 -.51429 -.11750; .20 2.23537 -.50387 -.08929; .25 2.18219 -.48488 -.06589; .30 2.10624 -.45695 -.02835; .35 2.00303 -.40769 .01983; .40 1.87733 -.32274 .05754; .45 1.76312 -.15644 .00453; .50 1.67889 -.06930 0",
		PatternIA:  ".10 2.03250 -.31583 -.13748; .20 1.91978 -.28215 -.07020; .25 1.83842 -.25543 -.02597; .30 1.72657 -.19826 .02633; .50 1.63417 -.09100 0",
		PatternII:  ".10 2.55323 -.61512 -.16403; .30 2.46532 -.62257 -.11657; .35 2.41896 -.61594 -.08820; .40 2.36409 -.59857 -.05621; .45 2.29238 -.57005 -.02281; .50 2.20282 -.51599 -.01259",
		PatternIII: ".10 2.47317 -.51848 -.17083; .30 2.39628 -.51202 -.13245; .35 2.35477 -.49735 -.11985; .40 2.30726 -.46541 -.11094; .45 2.24876 -.41314 -.11508; .50 2.17772 -.36803 -.09525",
	} {
		for _, line := range strings.Split(text, "; ") {
			v := numbers(t, line, "")
			last := secondary
			if p == PatternIII || p == PatternII && v[0] == .5 {
				last = memory
			}
			for hours, log := range map[float64]float64{1: v[1], .1: v[1] - v[2] + v[3], 10: v[1] + v[2] + v[3]} {
				source := last
				if hours == 1 {
					source = secondary
				}
				check(t, source, fmt.Sprintf("%s %.2f at %g h", p, v[0], hours), csm(t, p, hours, v[0]), math.Pow(10, log), 1e-6)
			}
		}
	}
}

// Type II by time of concentration (computed).
func TestUnitPeakTypeII(t *testing.T) {
	hours := []float64{.1, .2, .5, 1, 1.53, 2, 5, 10}
	for ratio, text := range map[float64]string{
		.10: "1010.0 799.9 529.1 357.5 271.7 225.5 110.4 59.4",
		.30: "936.1 697.5 438.7 292.0 222.0 185.1 94.0 53.2",
		.50: "508.4 360.9 227.5 159.5 128.0 111.3 68.6 47.2",
	} {
		for i, want := range numbers(t, text, "") {
			check(t, computed, fmt.Sprintf("%g h, Ia/P %g", hours[i], ratio), csm(t, PatternII, hours[i], ratio), want, .06)
		}
	}
	check(t, computed, "metric unit peak", csmPerInch, 4.3044e-4, 1e-8)
	// Between rows the peak is interpolated: at Ia/P 0.20 and 1 h the mean of 357.5 and 292.0.
	check(t, computed, "between rows", csm(t, PatternII, 1, .20), (357.5+292.0)/2, .1)
}

// An engineer's sheet in a Colorado mining record: CN 94, Tc 0.02 h, Ia 0.13 in, Ia/P 0.093 and 0.072, qu 1000, runoff
// 0.84 and 1.21 in. The unclamped formula gives 1,157 and more at 0.02 h, and Ia/P below 0.1 has no row.
func TestUnitPeakIsClamped(t *testing.T) {
	for _, row := range []struct{ ratio, runoffIn float64 }{{.093, .84}, {.072, 1.21}} {
		ia := Loss{CurveNumber: 94}.AbstractionMM()
		check(t, read, "Ia, in", ia/inchMM, .13, .003)
		check(t, read, "runoff, in", Loss{CurveNumber: 94}.RunoffMM(.13/row.ratio*inchMM)/inchMM, row.runoffIn, .009)
		v, notes, err := UnitPeak(PatternII, .02*hourS, row.ratio)
		if err != nil {
			t.Fatal(err)
		}
		check(t, read, "unit peak", v/csmPerInch, 1000, 15)
		check(t, computed, "unit peak at the limits", v/csmPerInch, 1010.0, .06)
		if got := rules(notes); len(got) != 2 || got[0] != RuleConcentration || got[1] != RuleMethod {
			t.Errorf("notes %v", notes)
		}
	}
	low, _, _ := UnitPeak(PatternII, hourS, .5)
	high, notes, err := UnitPeak(PatternII, hourS, .9)
	if err != nil || low != high || len(notes) != 1 {
		t.Errorf("Ia/P 0.9 gives %g beside %g, %v, %v", high, low, notes, err)
	}
}

// SCS1986, table 4-2: 0.72 in a copy, the rest memory.
func TestPondFactor(t *testing.T) {
	for share, want := range map[float64]float64{0: 1, .002: .97, .01: .87, .03: .75} {
		check(t, memory, "pond factor", must[float64](t)(PondFactor(share)), want, 1e-12)
	}
	check(t, secondary, "pond factor", must[float64](t)(PondFactor(.05)), .72, 1e-12)
	for _, share := range []float64{-.01, .06, math.NaN()} {
		_, err := PondFactor(share)
		refused(t, "pond share", err, "ponds and swamps")
	}
}

func TestUnitPeakRefuses(t *testing.T) {
	for name, f := range map[string]func() (float64, []Note, error){
		"nested": func() (float64, []Note, error) { return UnitPeak(PatternNested, hourS, .2) },
		"0":      func() (float64, []Note, error) { return UnitPeak(PatternII, 0, .2) },
		"NaN":    func() (float64, []Note, error) { return UnitPeak(PatternII, math.NaN(), .2) },
		"10 h":   func() (float64, []Note, error) { return UnitPeak(PatternII, 10.01*hourS, .2) },
		"Ia/P":   func() (float64, []Note, error) { return UnitPeak(PatternII, hourS, -.1) },
	} {
		_, _, err := f()
		refused(t, name, err, name)
	}
}

// A longer time or a larger share lost at first never raises the peak.
func TestUnitPeakFalls(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := rapid.SampledFrom(patterns[3:]).Draw(t, "type")
		s := rapid.Float64Range(1, MostConcentrationS).Draw(t, "time")
		longer := rapid.Float64Range(s, MostConcentrationS).Draw(t, "longer")
		ratio := rapid.Float64Range(0, 2).Draw(t, "Ia/P")
		larger := rapid.Float64Range(ratio, 2).Draw(t, "larger Ia/P")
		a, _, _ := UnitPeak(p, s, ratio)
		b, _, _ := UnitPeak(p, longer, ratio)
		c, _, _ := UnitPeak(p, s, larger)
		if !(a > 0 && b > 0 && c > 0 && b <= a*(1+1e-12) && c <= a*(1+1e-12)) {
			t.Fatalf("%g, longer %g, more lost %g", a, b, c)
		}
	})
}
