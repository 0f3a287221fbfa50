package chart

import (
	"bytes"
	"fmt"
	"math"
	"regexp"
	"slices"
	"strings"
	"testing"

	"siltstep/cmd/internal/units"
	"siltstep/hydro/checkdam"
	"siltstep/hydro/siting"
	"siltstep/raster/rastertest"
)

// damAcross is a dam of 0.6 m in the trench of cut: bed of 2 m at 1598 m, land at 1600 m to the left and 1599.5 m to the right.
func damAcross(t *testing.T, peakM3s float64) DamSection {
	t.Helper()
	c := cut()
	section, err := checkdam.NewSection([]checkdam.Point{{OffsetM: -3, LevelM: 2}, {OffsetM: -1, LevelM: 0}, {OffsetM: 1, LevelM: 0}, {OffsetM: 4, LevelM: 1.5}})
	if err != nil {
		t.Fatal(err)
	}
	dam, err := checkdam.Size(checkdam.Request{Kind: checkdam.LooseRock, HeightM: 0.6, Slope: 0.05, Section: section, FaceUp: 1.5, FaceDown: 3, PeakM3s: peakM3s})
	if err != nil {
		t.Fatal(err)
	}
	s := DamSection{
		Site: siting.Site{ID: "D07-03", StationM: 123.4, BedM: 1598, SillM: 1598.6, EffectiveHeightM: 0.6},
		Dam:  &dam, AwayM: 1.2,
	}
	for i, mm := range c.MM {
		s.Ground = append(s.Ground, checkdam.Point{OffsetM: c.FirstM + float64(i)*c.StepM, LevelM: float64(mm) / 1000})
	}
	return s
}

func damSVG(t *testing.T, s DamSection, system units.System) string {
	t.Helper()
	var b bytes.Buffer
	if err := WriteDamSection(&b, s, system); err != nil {
		t.Fatal(err)
	}
	return b.String()
}

func TestDamSectionAgainstGoldens(t *testing.T) {
	for name, text := range map[string]string{
		"damsection":   damSVG(t, damAcross(t, 0.3), units.Metric),
		"damsectionus": damSVG(t, damAcross(t, 0.3), units.US),
		"damtosill":    damSVG(t, damAcross(t, math.NaN()), units.Metric),
	} {
		rastertest.Golden(t, "testdata/"+name+".svg", text)
	}
}

func TestDamSectionSays(t *testing.T) {
	weak := damAcross(t, 0.3)
	dam := *weak.Dam
	dam.Buildable = false
	weak.Dam, weak.AwayM = &dam, -0.6
	round := damAcross(t, 0.3)
	request := round.Dam.Request
	request.Notch.Shape = checkdam.Parabolic
	parabola, err := checkdam.Size(request)
	if err != nil {
		t.Fatal(err)
	}
	round.Dam = &parabola
	for _, test := range []struct {
		name        string
		s           DamSection
		system      units.System
		says, lacks []string
	}{
		{"metric", damAcross(t, 0.3), units.Metric, []string{"D07-03: check dam at station 123.4 m, looking downstream", "sill 1598.60 m", "effective height 0.60 m", "left bank, 2.00 m high", "right bank, 1.50 m high",
			"bank to bank 7.00 m", "vertical exaggeration 2 : 1", "key 0.15 m into the bed, 0.60 m into each bank", "Ground read 1.2 m upstream of the axis", "m at the sill", SectionNote}, []string{doNotBuild, "no storm peak"}},
		{"US", damAcross(t, 0.3), units.US, []string{"sill 5244.75 ft", "effective height 1.97 ft", "bank to bank 22.97 ft"}, nil},                                           // 1598.6, 0.6 and 7 m over 0.3048
		{"no peak", damAcross(t, math.NaN()), units.Metric, []string{"notch not sized: no storm peak", "sill 1598.60 m", "crest 3.80 m"}, []string{"top 15", "at the sill"}}, // 2 + 0.6 + 2·0.6 m
		{"a parabola, which has no width at its sill", round, units.Metric, []string{"m at the top"}, []string{"at the sill"}},
		{"not buildable", weak, units.Metric, []string{doNotBuild, "Ground read 0.6 m downstream of the axis"}, nil},
	} {
		text := damSVG(t, test.s, test.system)
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

// The dam is drawn to the scale that is printed. By hand, with a top at z above the bed: the crest is 2 + z + 2z m long, it stands from
// z down to 0.6 m at the sill, and the key goes 0.15 m below the bed.
func TestDamSectionToScale(t *testing.T) {
	s := damAcross(t, 0.3)
	text := damSVG(t, s, units.Metric)
	text = text[strings.Index(text, "sill 1598.60"):] // behind the key to the marks
	crest, key := strokes(t, text, "1.6"), strokes(t, text, "0.9")
	topM := 0.6 + s.Dam.Notch.DepthM
	left, right, top, sill, lowest := math.Inf(1), math.Inf(-1), math.Inf(-1), math.Inf(1), math.Inf(1)
	for _, p := range crest { // the page is drawn with its y upwards
		left, right, top, sill = min(left, p[0]), max(right, p[0]), max(top, p[1]), min(sill, p[1])
	}
	for _, p := range key {
		lowest = min(lowest, p[1])
	}
	across, up := (right-left)/(2+3*topM), (sill-lowest)/(0.6+0.15)
	if got := up / across; math.Abs(got-2) > 0.02 { // coordinates are rounded to 0.1 pt of some 45 pt and more
		t.Errorf("exaggeration measured %.3f, printed 2", got)
	}
	if got := (top - sill) / up; math.Abs(got-s.Dam.Notch.DepthM) > 0.01 { // m; 0.1 pt is 0.001 m
		t.Errorf("notch %.3f m deep as drawn, %.3f m as designed", got, s.Dam.Notch.DepthM)
	}
}

// strokes returns the points of the first path with a line width.
func strokes(t *testing.T, svg, width string) (points [][2]float64) {
	t.Helper()
	path := regexp.MustCompile(`<path d="(M[^"]*)"[^>]*stroke-width:` + regexp.QuoteMeta(width) + `\b`).FindStringSubmatch(svg)
	if path == nil {
		t.Fatalf("no line of width %s", width)
	}
	for _, m := range regexp.MustCompile(`[ML](-?[0-9.]+),(-?[0-9.]+)`).FindAllStringSubmatch(path[1], -1) {
		var p [2]float64
		fmt.Sscan(m[1], &p[0])
		fmt.Sscan(m[2], &p[1])
		points = append(points, p)
	}
	return points
}

// Ground without data leaves a gap; ground of one place alone is refused.
func TestDamSectionOddGround(t *testing.T) {
	s := damAcross(t, 0.3)
	whole := strings.Count(damSVG(t, s, units.Metric), "stroke-width:1.2")
	s.Ground = slices.Clone(s.Ground)
	s.Ground[20].LevelM = math.NaN()
	gap := damSVG(t, s, units.Metric)
	if got := strings.Count(gap, "stroke-width:1.2"); got != whole+1 || strings.Contains(gap, "NaN") {
		t.Errorf("%d lines of ground, want %d around the gap", got, whole+1)
	}
	for i := range s.Ground {
		if i != 3 {
			s.Ground[i].LevelM = math.NaN()
		}
	}
	if err := WriteDamSection(&bytes.Buffer{}, s, units.Metric); err == nil || !strings.Contains(err.Error(), "D07-03") {
		t.Errorf("one place: error %v, want one that names the dam", err)
	}
}
