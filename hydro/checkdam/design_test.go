package checkdam

import (
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"
)

// The dam of the package example: 2 m bed, 1:1 banks of 1.5 m, 0.6 m high, 6 %, 0.9 m³/s. The notch is as wide as the bed. Hand
// check: under 0.41 m of head a 2 m notch with 1:1 sides passes (1.65/1.7046)·(1.705·2·0.2625 + 1.268·0.1076)/1.012 = 0.98, so less head is asked.
func TestSizeOfALooseRockDam(t *testing.T) {
	d := dam(t, func(r *Request) { r.ReachM = 120 })
	if !near(d.Spacing.HorizontalM, 10, 1e-9) || d.Dams != 12 {
		t.Errorf("spacing %g m, %d dams", d.Spacing.HorizontalM, d.Dams)
	}
	if n := d.Notch; n == nil || n.WidthM != 2 || n.HeadM < 0.35 || n.HeadM > 0.41 || !near(n.DepthM, n.HeadM+LeastFreeboardM, 1e-9) {
		t.Errorf("notch %+v", d.Notch)
	}
	if !d.Buildable || !near(d.TopM, 0.6+d.Notch.DepthM, 1e-9) {
		t.Errorf("buildable %v, top %g m, notes %v", d.Buildable, d.TopM, d.Notes)
	}
	// 0.15 m, a quarter of the height, or the stone; the height itself into each bank.
	if f := d.Found; !near(f.KeyBedM, max(0.15, d.StoneM), 1e-9) || !near(f.KeyBankM, 0.6, 1e-9) || !near(f.ApronLengthM, 1.2, 1e-9) {
		t.Errorf("foundation %+v", f)
	}
	r := d.Rock
	if !near(r.TotalM3, r.BodyM3+r.KeyM3+r.ApronM3, 1e-9) || !near(r.Tonnes, 1.7225*r.TotalM3, 1e-9) { // 2.65·0.65
		t.Errorf("rock %+v", r)
	}
	if !near(d.Storage.PondM3, 7.2, 1e-9) || !near(d.Storage.SedimentM3, 7.2, 1e-9) {
		t.Errorf("storage %+v", d.Storage)
	}
}

// Without a peak nothing that rests on it is there, and the rock is that of the level crest: 1:1 and 2:1 faces give 2.076 m³.
func TestSizeWithoutAPeak(t *testing.T) {
	d := dam(t, func(r *Request) { r.PeakM3s, r.FaceUp, r.FaceDown = math.NaN(), 1, 2 })
	if d.Notch != nil || d.Stones != nil || !math.IsNaN(d.StoneM) || !math.IsNaN(d.TopM) || !noted(d, RulePeak) {
		t.Errorf("notch %v, stones %v, stone %g", d.Notch, d.Stones, d.StoneM)
	}
	if !near(d.Rock.BodyM3, 2.076, 1e-9) {
		t.Errorf("body %g m³", d.Rock.BodyM3)
	}
}

func TestSizeSaysWhatCannotBeBuilt(t *testing.T) {
	for _, c := range []struct {
		name   string
		rule   Rule
		change func(*Request)
		text   string
	}{
		{"low banks", RuleBanks, func(r *Request) { r.Section, _ = TrapezoidSection(2, 1, 0.8) }, "0.80 m cannot hold"},
		{"low banks without a peak", RuleBanks, func(r *Request) { r.Section, _ = TrapezoidSection(2, 1, 0.7); r.PeakM3s = math.NaN() }, "cannot hold"},
		{"too high", RuleHeight, func(r *Request) { r.HeightM = 1.0 }, "engineer"},
		{"brush too high", RuleHeight, func(r *Request) { r.Kind, r.HeightM = Brush, 0.6 }, "0.5 m"},
		{"brush in a wide gully", RuleGully, func(r *Request) {
			r.Kind, r.HeightM, r.PeakM3s = Brush, 0.45, 0.1
			r.Section, _ = TrapezoidSection(3, 1, 1.5)
		}, "less than 3.0 m"},
		{"much water over logs", RuleHead, func(r *Request) { r.Kind, r.PeakM3s = Log, 2; r.Section, _ = TrapezoidSection(2, 1, 3) }, "too much water"},
		{"much water over rock", RuleHead, func(r *Request) { r.PeakM3s = 6; r.Section, _ = TrapezoidSection(2, 1, 3) }, "too much water"},
		{"notch wider than the crest", RuleNotch, func(r *Request) { r.Notch.WidthM = 4 }, "cut into the banks"}, // 3.2 m at the sill
		{"upright notch sides asked too wide", RuleNotch, func(r *Request) { r.Notch.WidthM = 2; r.Section, _ = TrapezoidSection(2, 0.1, 1.5) }, "cut into the banks"},
		{"stone larger than the dam", RuleStone, func(r *Request) { r.HeightM = 0.3 }, "larger than the dam is high"},
		{"a velocity below that in the notch", RuleVelocity, func(r *Request) { r.VelocityMs = 1 }, "too small"}, // 1.48 m/s there
		{"two channels", RuleSection, func(r *Request) { r.Section = measured(t, 0, 1.5, 1, 0, 3, 1.5, 4, 0.1, 5, 1.5) }, "2 places"},
		{"large catchment", RuleCatchment, func(r *Request) { r.CatchmentM2 = 60_000 }, "6.0 ha"},
		{"steep bed", RuleSlope, func(r *Request) { r.Slope = 0.25 }, "too steep"},
		{"bodies meet", RuleBodies, func(r *Request) { r.Slope = 0.19; r.FaceDown = 4 }, "touch"},
		{"pumice", RuleStone, func(r *Request) { r.StoneGravity = 2 }, "do not guess"},
	} {
		d := dam(t, c.change)
		found := false
		for _, n := range d.Notes {
			found = found || n.Rule == c.rule && n.Fail && strings.Contains(n.Says.String(), c.text)
		}
		if !found || d.Buildable {
			t.Errorf("%s: buildable %v, notes %+v", c.name, d.Buildable, d.Notes)
		}
	}
	if d := dam(t, func(r *Request) { r.HeightM, r.Engineer = 1.0, true }); !d.Buildable {
		t.Errorf("an engineer's dam of 1 m: %+v", d.Notes)
	}
}

func TestSizeRefuses(t *testing.T) {
	good := dam(t, nil).Request
	for name, change := range map[string]func(*Request){
		"kind":          func(r *Request) { r.Kind = "mud" },
		"height":        func(r *Request) { r.HeightM = 0 },
		"height NaN":    func(r *Request) { r.HeightM = math.NaN() },
		"slope":         func(r *Request) { r.Slope = 0 },
		"section":       func(r *Request) { r.Section = Section{} },
		"peak":          func(r *Request) { r.PeakM3s = 0 },
		"negative peak": func(r *Request) { r.PeakM3s = -1 },
		"face":          func(r *Request) { r.FaceDown = -1 },
		"voids":         func(r *Request) { r.Voids = 1 },
		"stone":         func(r *Request) { r.StoneGravity = 1 },
		"yield":         func(r *Request) { r.Yield = Yield{3, 1} },
		"endless reach": func(r *Request) { r.ReachM = math.Inf(1) },
		"deposit":       func(r *Request) { r.DepositRatio = 0.8 },
		"notch shape":   func(r *Request) { r.Notch.Shape = "round" },
	} {
		r := good
		change(&r)
		if d, err := Size(r); err == nil {
			t.Errorf("%s: %+v", name, d)
		}
	}
}

// measured returns a section from offset and level in turn.
func measured(t *testing.T, at ...float64) Section {
	t.Helper()
	var points []Point
	for i := 0; i+1 < len(at); i += 2 {
		points = append(points, Point{at[i], at[i+1]})
	}
	s, err := NewSection(points)
	if err != nil {
		t.Fatal(err)
	}
	return s
}

// Over a V bed a trapezoidal notch has no bottom. Its water is deeper than in a wide notch, and asks for larger stone; a bed of a
// hand's width asks for about the same.
func TestSizeOverAVBed(t *testing.T) {
	stone := func(bedM float64) float64 {
		return dam(t, func(r *Request) { r.PeakM3s = 0.4; r.Section, _ = TrapezoidSection(bedM, 2, 2) }).StoneM
	}
	v, hand, wide := stone(0), stone(0.05), stone(2)
	if !(v > 1.5*wide) || math.Abs(v-hand) > 0.1*v {
		t.Errorf("V bed %.3f m, 0.05 m bed %.3f m, 2 m bed %.3f m", v, hand, wide)
	}
}

// A parabola is shallow at its sides: what passes a metre of its top width says too little of its middle, where 1.5 times the mean passes.
func TestStoneUnderAParabola(t *testing.T) {
	d := dam(t, func(r *Request) { r.Notch.Shape = Parabolic })
	c := stoneCaseOf(d.Request, *d.Notch)
	if mean := d.Request.PeakM3s / d.Notch.topWidthM(c.criticalM); !near(c.q(), 1.5*mean, 1e-6) {
		t.Errorf("%g m²/s, mean %g", c.q(), mean)
	}
}

// Logs: 0.6 m are three courses of 0.2 m; a crest of 3.2 m, and 0.6 m into each bank, is 4.4 m a course.
func TestSizeTakesOffLogs(t *testing.T) {
	d := dam(t, func(r *Request) { r.Kind, r.PeakM3s = Log, math.NaN() })
	want := map[string]float64{"log courses to the sill": 3, "log courses of the wings": 0, "logs of 0.20 m": 3 * 4.4, "posts of 1.20 m": 6}
	for _, item := range d.Items {
		if !near(item.Quantity, want[item.Name.String()], 1e-9) {
			t.Errorf("%s: %g %s, want %g", item.Name, item.Quantity, item.Unit, want[item.Name.String()])
		}
		delete(want, item.Name.String())
	}
	if len(want) > 0 || d.Rock.BodyM3 != 0 || d.Rock.ApronM3 <= 0 {
		t.Errorf("missing %v; rock %+v", want, d.Rock)
	}
}

// With a notch the wings rise above the sill: their courses leave out its width, and posts reach their top.
func TestSizeTakesOffLogsOfWings(t *testing.T) {
	d := dam(t, func(r *Request) { r.Kind = Log })
	lengthM := d.CrestM + 2*d.Found.KeyBankM
	wings := math.Ceil(d.Notch.DepthM / 0.2)
	got := map[string]float64{}
	for _, item := range d.Items {
		got[item.Name.String()] = item.Quantity
	}
	if want := 3*lengthM + wings*(lengthM-d.Notch.WidthM); wings < 2 || !near(got["logs of 0.20 m"], want, 1e-9) || got["log courses of the wings"] != wings {
		t.Errorf("%v; want %g m of logs in 3 and %g courses", got, want, wings)
	}
}

func TestSizeNeverShrinksWithHeight(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		r := Request{
			Kind: rapid.SampledFrom(Kinds()).Draw(t, "kind").Kind, HeightM: rapid.Float64Range(.15, .9).Draw(t, "height"), Slope: rapid.Float64Range(.01, .3).Draw(t, "slope"),
			Section: trapezoid(t, rapid.Float64Range(.3, 6).Draw(t, "bed"), rapid.Float64Range(.2, 3).Draw(t, "side"), rapid.Float64Range(.5, 4).Draw(t, "bank")),
			FaceUp:  math.NaN(), FaceDown: math.NaN(), PeakM3s: rapid.SampledFrom([]float64{math.NaN(), .05, .5, 3}).Draw(t, "peak"),
			DepositRatio: rapid.Float64Range(0, .7).Draw(t, "deposit"), CatchmentM2: 1e4, Yield: Yield{.5, 3}, ReachM: 100,
		}
		low, err := Size(r)
		if err != nil {
			t.Fatal(err)
		}
		if low.Notch != nil {
			// A notch left open may be wider over a higher dam, between banks that lean back, and asks for smaller stone.
			r.Notch.WidthM = low.Notch.WidthM
		}
		r.HeightM *= 1.2
		high, err := Size(r)
		if err != nil {
			t.Fatal(err)
		}
		for name, pair := range map[string][2]float64{
			"rock":     {low.Rock.TotalM3, high.Rock.TotalM3},
			"pond":     {low.Storage.PondM3, high.Storage.PondM3},
			"sediment": {low.Storage.SedimentM3, high.Storage.SedimentM3},
			"spacing":  {low.Spacing.HorizontalM, high.Spacing.HorizontalM},
		} {
			if !(pair[0] >= 0 && pair[1] >= pair[0]*(1-1e-9) && pair[1] < math.Inf(1)) {
				t.Fatalf("%s: %g, and %g of a dam a fifth higher", name, pair[0], pair[1])
			}
		}
	})
}
