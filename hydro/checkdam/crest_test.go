package checkdam

import (
	"math"
	"testing"

	"pgregory.net/rapid"
)

// A trapezoid of bed 2 m, banks 1:1 and 1.5 m high; a dam of 0.6 m with a notch of 1 m at the sill, 0.3 m deep, sides 1:1. By hand: the
// top at 0.9 m meets the banks at ∓(1 + 0.9) m, the notch opens from ∓0.8 m at the top to ∓0.5 m at the sill.
func TestAcross(t *testing.T) {
	s, err := TrapezoidSection(2, 1, 1.5)
	if err != nil {
		t.Fatal(err)
	}
	d := Design{Request: Request{Section: s, HeightM: 0.6}, Notch: &Notch{Shape: Trapezoidal, WidthM: 1, SideSlope: 1, DepthM: 0.3}}
	want := []Rise{{-1.9, 0.9, 0.9}, {-1, 0, 0.9}, {-0.8, 0, 0.9}, {-0.5, 0, 0.6}, {0.5, 0, 0.6}, {0.8, 0, 0.9}, {1, 0, 0.9}, {1.9, 0.9, 0.9}}
	sameRises(t, d.Across(), [][]Rise{want})
	d.Notch = nil // to the sill, which meets the banks at ∓1.6 m
	sameRises(t, d.Across(), [][]Rise{{{-1.6, 0.6, 0.6}, {-1, 0, 0.6}, {1, 0, 0.6}, {1.6, 0.6, 0.6}}})
}

func TestStanding(t *testing.T) {
	level := []Point{{-2, 1}, {2, 1}}
	for _, test := range []struct {
		name          string
		ground, crest []Point
		want          [][]Rise
	}{
		{"an island between two channels", []Point{{-2, 2}, {-1, 0}, {0, 2}, {1, 0}, {2, 2}}, level,
			[][]Rise{{{-1.5, 1, 1}, {-1, 0, 1}, {-0.5, 1, 1}}, {{0.5, 1, 1}, {1, 0, 1}, {1.5, 1, 1}}}},
		{"ends in the air where the ground ends", []Point{{-2, 0}, {2, 0}}, level, [][]Rise{{{-2, 0, 1}, {2, 0, 1}}}},
		{"upright banks and an upright notch", []Point{{-1, 2}, {-1, 0}, {1, 0}, {1, 2}}, []Point{{-1, 1}, {0, 1}, {0, 0.5}, {1, 0.5}},
			[][]Rise{{{-1, 0, 1}, {0, 0, 1}, {0, 0, 0.5}, {1, 0, 0.5}}}},
		{"touches an island", []Point{{-1, 1}, {-0.5, 0}, {0, 1}, {0.5, 0}, {1, 1}}, level,
			[][]Rise{{{-1, 1, 1}, {-0.5, 0, 1}, {0, 1, 1}}, {{0, 1, 1}, {0.5, 0, 1}, {1, 1, 1}}}},
		{"in the ground", []Point{{-2, 3}, {2, 3}}, level, nil},
		{"level with the ground", level, level, nil},
	} {
		t.Run(test.name, func(t *testing.T) { sameRises(t, standing(test.ground, test.crest), test.want) })
	}
}

func TestLevelAt(t *testing.T) {
	line := []Point{{-2, 1}, {0, 3}, {0, 5}, {1, 4}, {2, math.NaN()}, {3, 1}}
	for x, want := range map[float64]float64{-2: 1, -1: 2, 0: 3, 0.5: 4.5, 1: 4, 1.5: math.NaN(), 2: math.NaN(), 3: 1, 2.5: math.NaN(), -2.1: math.NaN(), 3.1: math.NaN()} {
		if got := LevelAt(line, x); got != want && !(math.IsNaN(got) && math.IsNaN(want)) {
			t.Errorf("at %g: %g, want %g", x, got, want)
		}
	}
}

func sameRises(t *testing.T, got, want [][]Rise) {
	t.Helper()
	if len(got) != len(want) {
		t.Fatalf("%v, want %v", got, want)
	}
	for i := range want {
		if len(got[i]) != len(want[i]) {
			t.Fatalf("%v, want %v", got[i], want[i])
		}
		for k, w := range want[i] {
			if g := got[i][k]; math.Abs(g.OffsetM-w.OffsetM)+math.Abs(g.GroundM-w.GroundM)+math.Abs(g.CrestM-w.CrestM) > 1e-12 {
				t.Errorf("place %d: %v, want %v", k, g, w)
			}
		}
	}
}

// The rock over what stands, summed up place by place, is that of the body: w·h + m·h² is a parabola between places, for which Simpson's
// rule is exact.
func TestAcrossHoldsTheBody(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		metres := func(name string, lo, hi float64) float64 { return rapid.Float64Range(lo, hi).Draw(t, name) }
		var points []Point
		x := -5.0
		for i := range rapid.IntRange(3, 9).Draw(t, "points") {
			x += metres("step", 0.1, 2)
			points = append(points, Point{x, metres("level", 0, 2)})
			if i == 0 {
				points[0].LevelM = 2
			}
		}
		points = append(points, Point{x + 1, 2.5}, Point{x + 2, 0}, Point{x + 3, 2.5})
		s, err := NewSection(points)
		if err != nil {
			t.Skip(err.Error())
		}
		b := Body{CrestWidthM: metres("crest", 0.1, 1), FaceUp: metres("up", 0, 3), FaceDown: metres("down", 0, 3)}
		d := Design{Request: Request{Section: s, HeightM: metres("height", 0.1, 1)}}
		crest := levelCrest(s, d.Request.HeightM)
		if rapid.Bool().Draw(t, "notched") {
			d.Notch = &Notch{Shape: Trapezoidal, WidthM: metres("width", 0, 2), SideSlope: metres("side", 0, 2), DepthM: metres("depth", 0.15, 1)}
			crest = notchedCrest(s, d.Request.HeightM, *d.Notch)
		}
		rock := func(h float64) float64 { return b.CrestWidthM*h + b.meanFace()*h*h }
		got := 0.0
		for _, run := range d.Across() {
			for i := 1; i < len(run); i++ {
				from, to := run[i-1].CrestM-run[i-1].GroundM, run[i].CrestM-run[i].GroundM
				got += (run[i].OffsetM - run[i-1].OffsetM) / 6 * (rock(from) + 4*rock((from+to)/2) + rock(to))
			}
		}
		if want := b.VolumeM3(s, crest); math.Abs(got-want) > 1e-9 { // m³; rounding alone
			t.Errorf("rock %.12g m³, want %.12g", got, want)
		}
	})
}
