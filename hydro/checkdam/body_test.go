package checkdam

import (
	"math"
	"testing"

	"pgregory.net/rapid"
)

func trapezoid(t interface{ Fatal(...any) }, b, z, bankM float64) Section {
	s, err := TrapezoidSection(b, z, bankM)
	if err != nil {
		t.Fatal(err)
	}
	return s
}

// b 2, z 1, h 0.6, w 0.5, faces 1:1 and 2:1: core 2·(0.5·0.6 + 1.5·0.36) = 1.680, banks 2·(0.5·0.18 + 1.5·0.072) = 0.396.
func TestBodyOfATrapezoid(t *testing.T) {
	s := trapezoid(t, 2, 1, 1.5)
	body := Body{CrestWidthM: 0.5, FaceUp: 1, FaceDown: 2}
	if got := body.VolumeM3(s, levelCrest(s, 0.6)); !near(got, 2.076, 1e-9) {
		t.Errorf("%.4f m³, want 2.076", got)
	}
	// The average length of handbooks gives 0.84·2.6 = 2.184, 5.2 % high.
	if got := body.VolumeM3(s, levelCrest(s, 0.6)); got > 2.1 {
		t.Errorf("%.4f m³: an average length was used", got)
	}
}

// closed is the closed form of a level crest over a trapezoid.
func closed(b, z, h float64, body Body) float64 {
	w, m := body.CrestWidthM, body.meanFace()
	return b*(w*h+m*h*h) + 2*z*(w*h*h/2+m*h*h*h/3)
}

func TestBodyFollowsTheClosedForm(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		b, z, h := rapid.Float64Range(0.1, 10).Draw(t, "b"), rapid.Float64Range(0, 4).Draw(t, "z"), rapid.Float64Range(0.1, 2).Draw(t, "h")
		body := Body{rapid.Float64Range(0.1, 2).Draw(t, "w"), rapid.Float64Range(0, 3).Draw(t, "up"), rapid.Float64Range(0, 4).Draw(t, "down")}
		s := trapezoid(t, b, z, 2.5)
		want := closed(b, z, h, body)
		if got := body.VolumeM3(s, levelCrest(s, h)); !near(got, want, 1e-9*want) {
			t.Fatalf("%g m³, want %g", got, want)
		}
	})
}

// A curved bed measured at more and more points comes to one volume: that of the slow sum of thin slices.
func TestBodyOfAMeasuredSectionConverges(t *testing.T) {
	body := Body{CrestWidthM: 0.5, FaceUp: 1.5, FaceDown: 3}
	bed := func(x float64) float64 { return 0.4 * x * x }
	slow := 0.0
	for i := range 200_000 {
		x := -2 + (float64(i)+0.5)*4/200_000
		if h := 0.6 - bed(x); h > 0 {
			slow += (body.CrestWidthM*h + body.meanFace()*h*h) * 4 / 200_000
		}
	}
	last := math.Inf(1)
	for _, n := range []int{8, 32, 128, 512} {
		var points []Point
		for i := range n + 1 {
			x := -2 + 4*float64(i)/float64(n)
			points = append(points, Point{x, bed(x)})
		}
		s, err := NewSection(points)
		if err != nil {
			t.Fatal(err)
		}
		off := math.Abs(body.VolumeM3(s, levelCrest(s, 0.6)) - slow)
		if off > last {
			t.Errorf("%d pieces: off by %g m³, more than before", n, off)
		}
		last = off
	}
	if last > 1e-4*slow {
		t.Errorf("off by %g of %g m³ with 512 pieces", last, slow)
	}
}

// The notch of a crest is left out: wings of 0.25 m over a rectangle of 4 m with a notch of 2 m, upright.
func TestBodyLeavesTheNotchOut(t *testing.T) {
	s := trapezoid(t, 4, 0, 1.5)
	body := Body{CrestWidthM: 0.5}
	n := Notch{Shape: Rectangular, WidthM: 2, DepthM: 0.25}
	want := 0.5 * (2*0.6 + 2*0.85) // notch and wings, 0.5 m thick
	if got := body.VolumeM3(s, notchedCrest(s, 0.6, n)); !near(got, want, 1e-9) {
		t.Errorf("%.4f m³, want %.4f", got, want)
	}
	p := Notch{Shape: Parabolic, WidthM: 2, DepthM: 0.3}
	want = 0.5 * (4*0.9 - 2.0/3*2*0.3)                                             // a parabola takes two thirds of its box
	if got := body.VolumeM3(s, notchedCrest(s, 0.6, p)); !near(got, want, 0.001) { // 32 pieces stand for the parabola
		t.Errorf("parabola: %.4f m³, want %.4f", got, want)
	}
}

func TestSectionRefuses(t *testing.T) {
	for name, points := range map[string][]Point{
		"two points":    {{0, 1}, {1, 0}},
		"goes back":     {{0, 1}, {2, 0}, {1, 1}},
		"not a number":  {{0, 1}, {1, math.NaN()}, {2, 1}},
		"one bank only": {{0, 1}, {1, 0}, {2, 0}},
	} {
		if _, err := NewSection(points); err == nil {
			t.Errorf("%s is taken", name)
		}
	}
	for name, v := range map[string][3]float64{"no bank": {2, 1, 0}, "negative bed": {-1, 1, 1}, "slot": {0, 0, 1}, "not a number": {math.NaN(), 1, 1}} {
		if _, err := TrapezoidSection(v[0], v[1], v[2]); err == nil {
			t.Errorf("%s is taken", name)
		}
	}
}

// A section measured at the corners of a trapezoid is that trapezoid, and off to one side it still has its middle.
func TestSectionMeasured(t *testing.T) {
	s, err := NewSection([]Point{{0, 11.5}, {1.5, 10}, {3.5, 10}, {5, 11.5}})
	if err != nil {
		t.Fatal(err)
	}
	plain := trapezoid(t, 2, 1, 1.5)
	for _, y := range []float64{0.3, 1, 1.5} {
		if !near(s.WidthM(y), plain.WidthM(y), 1e-9) || !near(s.AreaM2(y), plain.AreaM2(y), 1e-9) {
			t.Errorf("at %g m: width %g, area %g", y, s.WidthM(y), s.AreaM2(y))
		}
	}
	if !near(s.BedMiddleM(), 2.5, 1e-9) || !near(s.BankHeightM(), 1.5, 1e-9) || !near(s.BedWidthM(), 2.3, 1e-9) { // 2 + 2·0.15
		t.Errorf("middle %g, banks %g, bed %g", s.BedMiddleM(), s.BankHeightM(), s.BedWidthM())
	}
}
