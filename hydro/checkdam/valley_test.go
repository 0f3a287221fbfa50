package checkdam

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"
)

// prism returns a valley of one trapezoid on an even bed, with slices at uneven distances to lengthM.
func prism(t testing.TB, bedWidthM, sideSlope, slope, lengthM float64) Valley {
	t.Helper()
	var slices []Slice
	for _, share := range []float64{0, .02, .13, .31, .5, .77, 1} {
		slices = append(slices, Slice{share * lengthM, 100 + slope*share*lengthM, bedWidthM, sideSlope})
	}
	v, err := NewValley(slices)
	if err != nil {
		t.Fatal(err)
	}
	return v
}

// b 2, z 1, H 0.6 on a bed of 6 %. Volume bH²/(2k) + zH³/(3k) with k = 0.06·(1 − f), over a length H/k; cut at L it is
// b(HL − kL²/2) + z(H²L − HkL² + k²L³/3). The surface is b + z·(H + depth at the end) wide on average: 2.6 m, and 2.9 m where the
// depth ends at 0.3 m. Own sums.
func TestValleyOfAPrism(t *testing.T) {
	for _, c := range []struct {
		name                      string
		ratio, toM                float64
		volumeM3, lengthM, areaM2 float64
	}{
		{"pond", 0, math.Inf(1), 7.20, 10, 26},
		{"deposit at half the slope", .5, math.Inf(1), 14.40, 20, 52},
		{"deposit at 0.7 of the slope", .7, math.Inf(1), 24.00, 100.0 / 3, 260.0 / 3}, // 33.3 m
		{"cut at 10 m", .5, 10, 11.10, 10, 29},
		{"cut beyond its end", .5, 25, 14.40, 20, 52},
		{"cut at the axis", .5, 0, 0, 0, 0},
	} {
		r := prism(t, 2, 1, .06, 50).Below(.6, c.ratio, c.toM)
		if !near(r.VolumeM3, c.volumeM3, 1e-9) || !near(r.LengthM, c.lengthM, 1e-9) || !near(r.AreaM2, c.areaM2, 1e-9) || r.Open {
			t.Errorf("%s: %+v, want %g m³ over %g m and %g m²", c.name, r, c.volumeM3, c.lengthM, c.areaM2)
		}
	}
	if r := prism(t, 2, 1, .06, 8).Below(.6, 0, math.Inf(1)); !r.Open || r.LengthM != 8 {
		t.Errorf("a valley known for 8 of 10 m: %+v", r)
	}
	for _, h := range []float64{0, -1, math.NaN()} {
		if r := prism(t, 2, 1, .06, 8).Below(h, 0, math.Inf(1)); r != (Room{}) {
			t.Errorf("height %g m: %+v", h, r)
		}
	}
}

// H 1 on 5 %. V of z 2: H³z/(3t) = 13.3333; trapezoid of b 2, z 1.5: 30.0. An upstream face of 1.5:1 on the rising bed leaves 1/(1 + 1.5·0.05)
// of both: 12.4031 and 27.9070. A crest of 0.5 m first takes the pond over 0.25 m, b(Hx − tx²/2) + z(H²x − Htx² + t²x³/3) = 0.246885·2 +
// 0.24379·1.5 → in a trapezoid 2·(0.25 − 0.0015625) + 1.5·(0.25 − 0.003125 + 0.0000130) = 0.867207; then the face, from a depth of
// H − t·0.25 = 0.9875: (bd²/2 + zd³/3)·μ/(1 + μt) = (0.975156 + 0.481484)·1.395349 = 2.032521. Own sums.
func TestBodyTakesOfThePond(t *testing.T) {
	v, trap := prism(t, 0, 2, .05, 40), prism(t, 2, 1.5, .05, 40)
	face := Body{FaceUp: 1.5}
	for _, c := range []struct {
		name string
		v    Valley
		body Body
		net  float64
	}{
		{"V", v, face, 12.4031},
		{"trapezoid", trap, face, 27.9070},
		{"with a crest", trap, Body{CrestWidthM: .5, FaceUp: 1.5, FaceDown: 3}, 30 - 0.867207 - 2.032521},
		{"upright face", trap, Body{CrestWidthM: .5}, 30 - 0.867207},
	} {
		m := c.v.Measure(c.body, 1, 0, math.Inf(1), math.NaN(), 0)
		if got := m.PondM3 - m.BodyM3; !near(got, c.net, 1e-4) {
			t.Errorf("%s: %.5f m³ left, want %.5f", c.name, got, c.net)
		}
	}
	if got := trap.Measure(face, 1, 0, 0.1, math.NaN(), 0); !(got.BodyM3 > 0 && got.BodyM3 < got.PondM3) {
		t.Errorf("cut off within the body: %+v", got)
	}
}

// The mean of two end areas overstates a V wedge, whose area falls with the square of the depth, by 1/(2n²) over n equal pieces: 50, 12.5,
// 3.125 and 0.5 % for n of 1, 2, 4 and 10. The valley is exact whatever the pieces.
func TestMeanEndAreasOverstate(t *testing.T) {
	const z, h, slope = 2.0, 1.0, .05
	want := z * h * h * h / (3 * slope)
	for n, over := range map[int]float64{1: .5, 2: .125, 4: .03125, 10: .005} {
		ends := 0.0
		var slices []Slice
		for i := range n + 1 {
			x := h / slope * float64(i) / float64(n)
			slices = append(slices, Slice{x, slope * x, 0, z})
			if i > 0 {
				a, b := h-slope*slices[i-1].AlongM, h-slope*x
				ends += (x - slices[i-1].AlongM) * z * (a*a + b*b) / 2
			}
		}
		if !near(ends/want-1, over, 1e-9) {
			t.Errorf("%d pieces: mean end areas %+.4f %%, want %+.4f", n, 100*(ends/want-1), 100*over)
		}
		v, err := NewValley(slices)
		if err != nil {
			t.Fatal(err)
		}
		if got := v.Below(h, 0, math.Inf(1)).VolumeM3; !near(got, want, 1e-9) {
			t.Errorf("%d pieces: %.6f m³, want %.6f", n, got, want)
		}
	}
}

// The swale of a state's stormwater manual (Minnesota Pollution Control Agency, read): h 1.5 ft, sides 2:1, bed 5 ft, 2 %: 450 ft³ a dam, three dams
// 1,350, by averaging end areas. Exactly bh²/(2S) + zh³/(3S) = 281.25 + 112.5 = 393.75 ft³.
func TestPublishedSwale(t *testing.T) {
	const ft3 = ft * ft * ft
	if got := AveragedEndsM3(5*ft, 2, 1.5*ft, .02) / ft3; !near(3*got, 1350, 1e-6) {
		t.Errorf("three dams %.2f ft³ as published, want 1350", 3*got)
	}
	if got := prism(t, 5*ft, 2, .02, 200*ft).Below(1.5*ft, 0, math.Inf(1)).VolumeM3 / ft3; !near(got, 393.75, 1e-6) {
		t.Errorf("%.4f ft³, want 393.75", got)
	}
}

// A wedge over b 2 and 4 m, z 1 and 2, bed level for 10 m: depth 1 throughout, area b + z from 3 to 6 m²: 45 m³. And a bed that
// falls back below the sill beyond a sill of its own holds nothing there.
func TestValleyThatChanges(t *testing.T) {
	v, err := NewValley([]Slice{{0, 5, 2, 1}, {10, 5, 4, 2}, {11, 6, 4, 2}, {20, 5, 4, 2}})
	if err != nil {
		t.Fatal(err)
	}
	// From 10 to 11 m, b 4, z 2, depth 1 to 0: 4/2 + 2/3 = 2.6667 m³.
	if got := v.Below(1, 0, math.Inf(1)); !near(got.VolumeM3, 45+2.0+2.0/3, 1e-9) || !near(got.LengthM, 11, 1e-9) {
		t.Errorf("%+v, want 47.6667 m³ over 11 m", got)
	}
}

func TestLowAndHigh(t *testing.T) {
	v := prism(t, 2, 1, .06, 50)
	// 7.2 m³ with a surface of 26 m²: 0.1 m more or less in the height of the sill is 2.6 m³.
	m := v.Measure(Body{}, .6, 0, math.Inf(1), .1, 0)
	if !near(m.SedimentLowM3, 4.6, 1e-9) || !near(m.SedimentHighM3, 9.8, 1e-9) || !strings.Contains(m.How, "26 m² × 0.1 m, and") || m.Why != "" {
		t.Errorf("%+v", m)
	}
	// Seen from the side it is 0.6·10/2 = 3 m²: widths 0.5 m more are 1.5 m³, and with the height √(2.6² + 1.5²) = 3.0017 m³.
	if m := v.Measure(Body{}, .6, 0, math.Inf(1), .1, .5); !near(m.SedimentHighM3, 10.2017, 1e-4) || !near(m.SedimentLowM3, 4.1983, 1e-4) {
		t.Errorf("%+v", m)
	}
	// The first order against the volume itself, a millimetre up.
	up := v.Below(.601, 0, math.Inf(1)).VolumeM3 - m.SedimentM3
	if !near(up, .001*m.WedgeAreaM2, .001*.001*50) { // the second order: half of b/k + 2zH/k = 53.3 m²/m
		t.Errorf("a millimetre adds %.5f m³, first order %.5f", up, .001*m.WedgeAreaM2)
	}
	// H 0.3: 2·0.09/0.12 + 0.027/0.18 = 1.65 m³.
	if !near(m.HalfM3, 1.65, 1e-9) {
		t.Errorf("half full %.4f m³, want 1.65", m.HalfM3)
	}
	if m := v.Measure(Body{}, .6, 0, math.Inf(1), 1, 0); m.SedimentLowM3 != 0 {
		t.Errorf("low %g m³", m.SedimentLowM3)
	}
	if m := v.Measure(Body{}, .6, 0, math.Inf(1), math.NaN(), 0); !math.IsNaN(m.SedimentLowM3) || !math.IsNaN(m.SedimentHighM3) || math.IsNaN(m.SedimentM3) {
		t.Errorf("noise not known: %+v", m)
	}
	prism := Storage{PondM3: 1, SedimentM3: 2, BodyM3: 3, FillYearsLow: 4}
	if s := m.Over(prism); s != (Storage{PondM3: m.PondM3, PondLengthM: m.PondLengthM, SedimentM3: m.SedimentM3, WedgeLengthM: m.WedgeLengthM, FillYearsLow: 4}) {
		t.Errorf("%+v in place of the prism", s)
	}
	n := NotMeasured("no ground")
	if n.Over(prism) != prism {
		t.Errorf("not measured, and yet %+v", n.Over(prism))
	}
	if !math.IsNaN(n.PondM3) || !math.IsNaN(n.SedimentHighM3) || n.Why != "no ground" || n.How != "" {
		t.Errorf("%+v", n)
	}
}

func TestNewValleyRefuses(t *testing.T) {
	good := Slice{0, 5, 2, 1}
	for want, slices := range map[string][]Slice{
		"1 cross-sections; at least 2":   {good},
		"must lie at 0":                  {{1, 5, 2, 1}, {2, 5, 2, 1}},
		"does not lie above":             {good, {0, 5, 2, 1}},
		"there is no channel":            {good, {1, 5, 0, 0}},
		"bed at 5 m, -1 m wide":          {good, {1, 5, -1, 1}},
		"side slope NaN":                 {good, {1, 5, 1, math.NaN()}},
		"bed at NaN m":                   {good, {1, math.NaN(), 1, 1}},
		"cross-section 2 at +Inf m does": {good, {math.Inf(1), 5, 1, 1}},
	} {
		if _, err := NewValley(slices); err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("want %q, got %v", want, err)
		}
	}
}

// anyValley draws a valley whose bed rises.
func anyValley(r *rapid.T) []Slice {
	var slices []Slice
	alongM, bedM := 0.0, rapid.Float64Range(-100, 3000).Draw(r, "bed")
	for i := range rapid.IntRange(2, 12).Draw(r, "slices") {
		name := fmt.Sprint(i)
		slices = append(slices, Slice{alongM, bedM, rapid.Float64Range(0.1, 6).Draw(r, "width"+name), rapid.Float64Range(0, 4).Draw(r, "side"+name)})
		alongM += rapid.Float64Range(0.2, 8).Draw(r, "length"+name)
		bedM += rapid.Float64Range(0, 0.6).Draw(r, "rise"+name)
	}
	return slices
}

func TestValleyProperties(t *testing.T) {
	rapid.Check(t, func(r *rapid.T) {
		slices := anyValley(r)
		v, err := NewValley(slices)
		if err != nil {
			r.Fatal(err)
		}
		h, ratio := rapid.Float64Range(0.05, 1.5).Draw(r, "height"), rapid.Float64Range(0, 0.7).Draw(r, "ratio")
		toM := rapid.Float64Range(0.1, 80).Draw(r, "to")
		room := v.Below(h, ratio, toM)
		slack := 1e-9 * (1 + room.VolumeM3) // rounding
		if !(room.VolumeM3 >= 0) || !(room.AreaM2 >= 0) || !(room.LengthM >= 0 && room.LengthM <= toM) {
			r.Fatalf("%+v", room)
		}
		if pond := v.Below(h, 0, toM); pond.VolumeM3 > room.VolumeM3+slack || pond.AreaM2 > room.AreaM2+slack {
			r.Fatalf("the pond holds %+v, the deposit %+v", pond, room)
		}
		if higher := v.Below(h+rapid.Float64Range(0, 1).Draw(r, "more"), ratio, toM); higher.VolumeM3 < room.VolumeM3-slack {
			r.Fatalf("a higher sill holds %+v, a lower one %+v", higher, room)
		}
		if longer := v.Below(h, ratio, toM+rapid.Float64Range(0, 20).Draw(r, "beyond")); longer.VolumeM3 < room.VolumeM3-slack {
			r.Fatalf("cut farther up %+v, nearer %+v", longer, room)
		}
		b := Body{CrestWidthM: rapid.Float64Range(0, 2).Draw(r, "crest"), FaceUp: rapid.Float64Range(0, 3).Draw(r, "face")}
		if body, pond := v.BodyM3(b, h, toM), v.Below(h, 0, toM).VolumeM3; !(body >= 0) || body > pond+slack {
			r.Fatalf("the body takes %g m³ of %g", body, pond)
		}
		// Lifted as a whole, and cut into more slices, it is the same valley.
		var finer []Slice
		for i, s := range slices {
			s.BedM += 7
			if i > 0 {
				finer = append(finer, finer[len(finer)-1].toward(s, (finer[len(finer)-1].AlongM+s.AlongM)/2))
			}
			finer = append(finer, s)
		}
		w, err := NewValley(finer)
		if err != nil {
			r.Fatal(err)
		}
		if again := w.Below(h, ratio, toM); math.Abs(again.VolumeM3-room.VolumeM3) > 1e-8*(1+room.VolumeM3) || again.Open != room.Open {
			r.Fatalf("lifted and cut finer %+v, was %+v", again, room)
		}
	})
}

// slowVolumeM3 sums thin slabs across.
func slowVolumeM3(slices []Slice, h, ratio, toM float64) float64 {
	const pieces = 4000
	sum, bed0 := 0.0, slices[0].BedM
	for i := 1; i < len(slices); i++ {
		a, b := slices[i-1], slices[i]
		dx := (b.AlongM - a.AlongM) / pieces
		for k := range pieces {
			s := a.toward(b, a.AlongM+(float64(k)+.5)*dx)
			d := h - (1-ratio)*(s.BedM-bed0)
			if d <= 0 || s.AlongM > toM {
				return sum
			}
			sum += dx * (s.BedWidthM + s.SideSlope*d) * d
		}
	}
	return sum
}

func TestValleyAgainstThinSlabs(t *testing.T) {
	rapid.Check(t, func(r *rapid.T) {
		slices := anyValley(r)
		v, err := NewValley(slices)
		if err != nil {
			r.Fatal(err)
		}
		h, ratio, toM := rapid.Float64Range(0.05, 1.5).Draw(r, "height"), rapid.Float64Range(0, 0.7).Draw(r, "ratio"), rapid.Float64Range(0.1, 80).Draw(r, "to")
		got, want := v.Below(h, ratio, toM).VolumeM3, slowVolumeM3(slices, h, ratio, toM)
		if math.Abs(got-want) > 0.05+1e-3*want { // one slab of 2 mm at a cut: at most 18 m² of it, 0.04 m³
			r.Fatalf("%.5f m³, in slabs %.5f", got, want)
		}
	})
}
