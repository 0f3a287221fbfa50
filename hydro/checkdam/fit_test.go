package checkdam

import (
	"math"
	"strings"
	"testing"
)

// Between upright banks a notch as wide as the bed leaves no room for its sides: it is narrowed until they fit, and water is not
// reckoned through the banks. A 2 m bed, notch 1:1, depth D: the width is at most 2 − 2D.
func TestNotchStaysBetweenTheBanks(t *testing.T) {
	d := dam(t, func(r *Request) { r.Section, _ = TrapezoidSection(2, 0, 2); r.PeakM3s = 0.3 })
	n := d.Notch
	if most := 2 - 2*n.DepthM; !(n.WidthM > 0 && n.WidthM <= most+1e-9 && n.WidthM > most-0.25) || !noted(d, RuleNotch) || !d.Buildable {
		t.Errorf("notch %.2f m wide, %.2f m deep, at most %.2f m; %v", n.WidthM, n.DepthM, most, d.Notes)
	}
	if got := n.FlowM3s(n.HeadM); !near(got, 0.3, 1e-6) {
		t.Errorf("passes %g m³/s", got)
	}
	given := dam(t, func(r *Request) { r.Section, _ = TrapezoidSection(2, 0, 2); r.PeakM3s, r.Notch.WidthM = 0.3, 2 })
	if given.Buildable || given.Notch.WidthM != 2 {
		t.Errorf("a notch asked for: buildable %v, %.2f m", given.Buildable, given.Notch.WidthM)
	}
}

func TestNotchFits(t *testing.T) {
	uneven := measured(t, -4, 1.6, -3, 1.5, -1.5, .3, -.6, .05, .8, 0, 1.2, .1, 1.5, .9, 2.1, 1.3, 3, 1.35)
	plain := measured(t, -3.5, 1.5, -2, 0, 2, 0, 3.5, 1.5)
	for _, c := range []struct {
		name    string
		section Section
		notch   Notch
		want    bool
	}{
		{"as wide as the bed", plain, theory(Trapezoidal, 4, 1, .4), true},
		{"to the banks at the sill, 0.6 m: 5.2 m", plain, theory(Trapezoidal, 5.2, 1, .4), true},
		{"a hand wider", plain, theory(Trapezoidal, 5.3, 1, .4), false},
		{"flat sides", plain, theory(Trapezoidal, 4, 3, .4), false}, // 4 + 2·3·0.4 = 6.4 over 4 + 2·1.0 = 6
		{"beyond the ends", plain, theory(Rectangular, 20, 0, .4), false},
		{"parabola", plain, theory(Parabolic, 5.5, 0, .4), true},
		{"wide parabola", plain, theory(Parabolic, 6.5, 0, .4), false},
		// The bed's middle is at 0.16; the right bank stands at 1.2 + 0.3·(0.6−0.1)/0.8 = 1.39 at the sill.
		{"off centre, inside", uneven, theory(Rectangular, 2.4, 0, .3), true},
		{"off centre, into the right bank", uneven, theory(Rectangular, 2.6, 0, .3), false},
	} {
		if got := c.notch.fits(c.section, 0.6); got != c.want {
			t.Errorf("%s: %v; middle %.3f", c.name, got, c.section.BedMiddleM())
		}
	}
}

func TestChannelsBelowTheSill(t *testing.T) {
	two := measured(t, 0, 1.5, 1, 0, 3, 1.0, 4, 0.1, 5, 1.5)
	for level, want := range map[float64]int{0.05: 1, 0.5: 2, 1.0: 2, 1.2: 1} {
		if got := two.channels(level); got != want {
			t.Errorf("below %g m: %d, want %d", level, got, want)
		}
	}
}

// What a heavy stone's note offers holds when it is done.
func TestLighterStoneIsLighter(t *testing.T) {
	d := dam(t, nil)
	if !(d.StoneM > liftedM) {
		t.Fatalf("stone %g m", d.StoneM)
	}
	wide, run := d.lighterNotchM(), d.lighterFace()
	if math.IsNaN(wide) && math.IsNaN(run) {
		t.Fatal("nothing is offered")
	}
	if !math.IsNaN(wide) {
		if w := dam(t, func(r *Request) { r.Notch.WidthM = wide }); w.StoneM > liftedM || !w.Buildable {
			t.Errorf("a notch of %.2f m: stone %.3f m, buildable %v", wide, w.StoneM, w.Buildable)
		}
		if less := dam(t, func(r *Request) { r.Notch.WidthM = wide - 0.11 }); less.StoneM <= liftedM {
			t.Errorf("a notch of %.2f m does already: %.3f m", wide-0.11, less.StoneM)
		}
	}
	if !math.IsNaN(run) {
		if f := dam(t, func(r *Request) { r.FaceDown = run }); f.StoneM > liftedM {
			t.Errorf("a face of %g:1: stone %.3f m", run, f.StoneM)
		}
	}
	// Stone follows from notch and face: a lower dam asks for the same.
	if low := dam(t, func(r *Request) { r.HeightM = 0.4 }); !near(low.StoneM, d.StoneM, 1e-9) {
		t.Errorf("a lower dam: %g m, not %g m", low.StoneM, d.StoneM)
	}
}

// A crest left open is two stones thick where that is more than usual for the kind; one given is only remarked on.
func TestCrestIsTwoStonesThick(t *testing.T) {
	d := dam(t, nil)
	if !near(d.Request.CrestWidthM, 2*d.StoneM, 1e-9) || d.Body.CrestWidthM != d.Request.CrestWidthM || noted(d, RuleCrest) {
		t.Errorf("crest %g m of stone %g m", d.Request.CrestWidthM, d.StoneM)
	}
	if given := dam(t, func(r *Request) { r.CrestWidthM = 0.5 }); given.Request.CrestWidthM != 0.5 || !noted(given, RuleCrest) {
		t.Errorf("crest given %g m, notes %v", given.Request.CrestWidthM, given.Notes)
	}
	if small := dam(t, func(r *Request) { r.PeakM3s = 0.1 }); small.Request.CrestWidthM != 0.5 {
		t.Errorf("crest %g m of stone %g m", small.Request.CrestWidthM, small.StoneM)
	}
}

func TestLimitsRoundedFromFeetLetFeetThrough(t *testing.T) {
	two := dam(t, func(r *Request) { r.HeightM, r.CatchmentM2 = 2*ft, 10*43560*ft*ft })
	for _, n := range two.Notes {
		if n.Rule == RuleHeight || n.Fail {
			t.Errorf("2 ft and 10 acres: %s", n.Says)
		}
	}
	if three := dam(t, func(r *Request) { r.HeightM = 3 * ft; r.Section, _ = TrapezoidSection(2, 1, 3) }); !three.Buildable {
		t.Errorf("3 ft: %v", three.Notes)
	}
	if more := dam(t, func(r *Request) { r.HeightM = 3.2 * ft; r.Section, _ = TrapezoidSection(2, 1, 3) }); more.Buildable {
		t.Error("3.2 ft passes")
	}
}

func TestRemark(t *testing.T) {
	r := remark("%s of 100 %%", metres(0.6)).and(" and %s", land(25_000))
	if got := r.String(); got != "0.60 m of 100 % and 2.5 ha" {
		t.Error(got)
	}
	feet := func(q Quantity) string { return strings.Repeat("x", int(q.Of)+1) }
	if got := r.Say(feet); got != "x of 100 % and xxx" {
		t.Error(got)
	}
	if got := (Remark{}).String(); got != "" {
		t.Errorf("%q", got)
	}
	if got := weightOf(0.3, 2.65).String(); got != "37 kg" { // π/6·0.027·2650 = 37.5
		t.Error(got)
	}
}

// The formula gives 1.90 m of 1 m and 1 m²/s; of 0.5 m and 0.4 m²/s, 1.90·0.8556·0.6097 = 0.991 m (own sum). Only upright faces are warned of.
func TestScour(t *testing.T) {
	for _, c := range [][3]float64{{1, 1, 1.90}, {0.5, 0.4, 0.991}} {
		if got := scourM(c[0], c[1]); !near(got, c[2], 1e-3) {
			t.Errorf("%g m, %g m²/s: %.4f m, want %g", c[0], c[1], got, c[2])
		}
	}
	if logs := dam(t, func(r *Request) { r.Kind = Log }); !noted(logs, RuleScour) {
		t.Error("logs: no warning of scour")
	}
	if rock := dam(t, nil); noted(rock, RuleScour) {
		t.Error("a 3:1 face is warned of scour")
	}
}
