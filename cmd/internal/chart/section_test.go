package chart

import (
	"bytes"
	"fmt"
	"io"
	"math"
	"regexp"
	"strings"
	"testing"

	"siltstep/cmd/internal/units"
	"siltstep/hydro/channel"
	"siltstep/raster"
	"siltstep/raster/rastertest"
)

// cut is a trench with a bed of 2 m at 1598 m, banks 1:1 to the left and 2:1 (horizontal to vertical) to
// the right, and land at 1600 m to the left and 1599.5 m to the right. By hand: toes at ∓1 m, tops at −3
// and 4 m; at the level of the lower top, 1.5 m over the bed, it is 2 + 1.5 + 3 = 6.5 m wide.
func cut() channel.Section {
	s := channel.Section{
		StationM: 123.4, FirstM: -10, StepM: 0.5, BedM: 1598, BedWidthM: 2, TopWidthM: 6.5, DepthM: 1.5,
		AreaM2:   (2 + 6.5) / 2 * 1.5,
		Left:     channel.Bank{ToeM: -1, TopM: -3, HeightM: 2, Slope: 1},
		Right:    channel.Bank{ToeM: 1, TopM: 4, HeightM: 1.5, Slope: 0.5},
		Fit:      channel.Trapezoid{BedWidthM: 2, SideSlope: 1.5, DepthM: 1.5, ResidualM: 0.12},
		Resolved: true,
	}
	for x := s.FirstM; x <= 10; x += s.StepM {
		z := 1598 + min(max(-1-x, 0), 2) + min(max(x-1, 0), 3)/2
		s.MM = append(s.MM, int32(math.Round(1000*z)))
	}
	return s
}

func sectionSVG(t *testing.T, s channel.Section, system units.System) string {
	t.Helper()
	var b bytes.Buffer
	if err := WriteSection(&b, s, "D07, deepest cross-section", system); err != nil {
		t.Fatal(err)
	}
	return b.String()
}

// unresolved is the same ground, of which nothing can be told.
func unresolved() channel.Section {
	s, unknown := cut(), math.NaN()
	none := channel.Bank{ToeM: unknown, TopM: unknown, HeightM: unknown, Slope: unknown}
	return channel.Section{
		StationM: s.StationM, FirstM: s.FirstM, StepM: s.StepM, MM: s.MM, BedM: unknown, BedWidthM: unknown, TopWidthM: unknown, DepthM: unknown,
		AreaM2: unknown, Left: none, Right: none, Fit: channel.Trapezoid{BedWidthM: unknown, SideSlope: unknown, DepthM: unknown, ResidualM: unknown},
		Why: "no top of a bank within 10 m on the left",
	}
}

func TestSectionAgainstGoldens(t *testing.T) {
	for name, text := range map[string]string{
		"section":    sectionSVG(t, cut(), units.Metric),
		"sectionus":  sectionSVG(t, cut(), units.US),
		"unresolved": sectionSVG(t, unresolved(), units.Metric),
	} {
		rastertest.Golden(t, "testdata/"+name+".svg", text)
	}
}

// Dimensions stand in the drawing as given; what is not known does not stand there at all.
func TestSectionSays(t *testing.T) {
	gentle := cut()
	gentle.DepthM, gentle.BedWidthM, gentle.TopWidthM, gentle.AreaM2 = 0, 0, 0, 0
	gentle.Left, gentle.Right, gentle.Fit = channel.Bank{}, channel.Bank{}, channel.Trapezoid{}
	for _, test := range []struct {
		name        string
		s           channel.Section
		system      units.System
		says, lacks []string
	}{
		{"metric", cut(), units.Metric, []string{"station 123.4 m, looking downstream", "depth 1.50 m", "bed width 2.00 m", "top width 6.50 m", "vertical exaggeration 3 : 1", "left bank", "right bank", "fitted trapezoid", SectionNote}, []string{"Not resolved"}},
		{"US", cut(), units.US, []string{"station 404.9 ft", "depth 4.92 ft", "bed width 6.56 ft", "top width 21.33 ft"}, nil}, // 1.5, 2 and 6.5 m over 0.3048
		{"not resolved", unresolved(), units.Metric, []string{"Not resolved: no top of a bank within 10 m on the left.", "left bank", "vertical exaggeration"}, []string{"depth", "width", "toe", "trapezoid"}},
		{"no banks", gentle, units.Metric, []string{"No banks: the bed does not lie below the land beside it."}, []string{"depth", "width", "toe", "Not resolved"}},
	} {
		text := sectionSVG(t, test.s, test.system)
		if strings.Contains(text, "NaN") || strings.Contains(text, "Inf") {
			t.Errorf("%s: NaN or Inf in the drawing", test.name)
		}
		all := strings.Join(texts(t, text), "\n")
		for _, want := range test.says {
			if !strings.Contains(all, want) {
				t.Errorf("%s: %q is not said:\n%s", test.name, want, all)
			}
		}
		for _, no := range test.lacks {
			if strings.Contains(all, no) {
				t.Errorf("%s: %q is said:\n%s", test.name, no, all)
			}
		}
	}
}

// The printed exaggeration is measured on the drawing, by the ground's own points.
func TestSectionExaggeration(t *testing.T) {
	text := sectionSVG(t, cut(), units.Metric)
	path := regexp.MustCompile(`<path d="(M[^"]*)"[^>]*stroke-width:1\.2`).FindStringSubmatch(text[strings.Index(text, "left bank"):])
	if path == nil {
		t.Fatal("no ground line in the drawing")
	}
	at := regexp.MustCompile(`[ML](-?[0-9.]+),(-?[0-9.]+)`).FindAllStringSubmatch(path[1], -1)
	if len(at) != len(cut().MM) {
		t.Fatalf("%d points of ground, want %d", len(at), len(cut().MM))
	}
	value := func(i, k int) (v float64) { fmt.Sscan(at[i][k], &v); return v }
	across := (value(40, 1) - value(0, 1)) / 20     // −10 to 10 m
	up := (value(0, 2) - value(20, 2)) / 2          // left land over the bed, 2 m
	if got := up / across; math.Abs(got-3) > 0.01 { // coordinates are rounded to 0.1 pt of some 120 pt
		t.Errorf("exaggeration measured %.3f, printed 3", got)
	}
}

// By hand, at 1599.5 m, the lower top: left bank 1:1 from −1 m at 1598 m, so −2.5 m; right 2:1 from 1 m, so
// 4 m. Seen from the other side, left and right change places.
func TestSectionEdges(t *testing.T) {
	back := cut()
	back.Left = channel.Bank{ToeM: -1, TopM: -4, HeightM: 1.5, Slope: 0.5}
	back.Right = channel.Bank{ToeM: 1, TopM: 3, HeightM: 2, Slope: 1}
	for _, test := range []struct {
		s           channel.Section
		left, right float64
		ok          bool
	}{{cut(), -2.5, 4, true}, {back, -4, 2.5, true}, {unresolved(), 0, 0, false}} {
		left, right, ok := crossSection{Section: test.s}.edges()
		if ok != test.ok || ok && (math.Abs(left-test.left) > 1e-9 || math.Abs(right-test.right) > 1e-9) {
			t.Errorf("edges %v and %v (%v), want %v and %v", left, right, ok, test.left, test.right)
		}
	}
	shape := crossSection{Section: cut()}.trapezoid() // middle 0.75 m, bed 2 m, top 2 + 2·1.5·1.5 = 6.5 m
	want := []offsetPoint{{-2.5, 1599.5}, {-0.25, 1598}, {1.75, 1598}, {4, 1599.5}}
	for i := range want {
		if len(shape) != 4 || math.Abs(shape[i].offsetM-want[i].offsetM) > 1e-9 || math.Abs(shape[i].z-want[i].z) > 1e-9 {
			t.Fatalf("trapezoid %v, want %v", shape, want)
		}
	}
}

func TestSectionWithVoids(t *testing.T) {
	s := cut()
	for i := 5; i < 8; i++ {
		s.MM[i] = raster.VoidMM
	}
	if runs := groundRuns(s); len(runs) != 2 || len(runs[0]) != 5 || len(runs[1]) != len(s.MM)-8 {
		t.Errorf("%d runs of ground, want two around the hole", len(runs))
	}
	texts(t, sectionSVG(t, s, units.Metric))
	for i := range s.MM {
		if i != 3 {
			s.MM[i] = raster.VoidMM
		}
	}
	if err := WriteSection(io.Discard, s, "D07", units.Metric); err == nil || !strings.Contains(err.Error(), "D07") {
		t.Errorf("one sample: error %v, want one that names the section", err)
	}
}
