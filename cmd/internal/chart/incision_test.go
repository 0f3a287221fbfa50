package chart

import (
	"fmt"
	"io"
	"math"
	"regexp"
	"strings"
	"testing"

	"siltstep/cmd/internal/units"
	"siltstep/hydro/erosion"
	"siltstep/raster/rastertest"
)

// incised gives the profile of 300 m an incision of 0.4 to 2 m, unknown between stations 200 and 220,
// with a top-hat 0.2 m less and three headcuts, two of them 6 m apart.
func incised() Profile {
	p := drawn()
	for _, s := range p.Stations {
		v := 1.2 + 0.8*math.Sin(s.StationM/40)
		p.TopHatM = append(p.TopHatM, v-0.2)
		if s.StationM > 200 && s.StationM < 220 {
			v = math.NaN()
		}
		p.IncisionM = append(p.IncisionM, v)
	}
	p.Headcuts = []erosion.Headcut{{StationM: 60, HeightM: 0.45}, {StationM: 66, HeightM: 0.9}, {StationM: 160, HeightM: 1.25}}
	return p
}

func TestIncisionAgainstGolden(t *testing.T) {
	rastertest.Golden(t, "testdata/incision.svg", svg(t, incised(), units.Metric))
}

// Without incision and headcuts a drawing must stay as it is.
func TestNoIncisionNoStrip(t *testing.T) {
	p := drawn()
	p.IncisionM, p.Headcuts = []float64{}, []erosion.Headcut{}
	if svg(t, p, units.Metric) != svg(t, drawn(), units.Metric) {
		t.Error("empty incision changes the drawing")
	}
}

func TestIncisionSays(t *testing.T) {
	whole, hatOnly, cutsOnly := incised(), incised(), incised()
	for i, v := range whole.TopHatM {
		whole.IncisionM[i] = v + 0.2
	}
	hatOnly.IncisionM = nil
	cutsOnly.IncisionM, cutsOnly.TopHatM = nil, nil
	for _, test := range []struct {
		name        string
		p           Profile
		system      units.System
		says, lacks []string
	}{
		{"all", incised(), units.Metric, []string{"Incision (m):", "bed below the land beside it", "by the black top-hat", "gap: cannot be told", "0.45 m", "0.90 m", "1.25 m", NotJudgedBelow}, []string{NotJudged}},
		{"US", incised(), units.US, []string{"Incision (ft):", "4.10 ft"}, nil}, // 1.25 m over 0.3048
		{"whole", whole, units.Metric, []string{"Incision (m):"}, []string{"gap"}},
		{"top-hat only", hatOnly, units.Metric, []string{"by the black top-hat"}, []string{"bed below the land", "gap"}},
		{"headcuts only", cutsOnly, units.Metric, []string{"headcut", NotJudged}, []string{"Incision", "1.25 m"}},
	} {
		text := svg(t, test.p, test.system)
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
				t.Errorf("%s: %q is said", test.name, no)
			}
		}
	}
	if d := describe(incised(), units.Metric); !strings.HasSuffix(d, "incision up to 2.00 m, 3 headcuts.") {
		t.Errorf("described as %q", d)
	}
}

// The depth of the strip, measured on the drawing: from the zero line to the deepest point of the
// incision it must be 2 m on a scale whose end is 1.05 times that.
func TestIncisionDepthOnTheDrawing(t *testing.T) {
	text := svg(t, incised(), units.Metric)
	lines := regexp.MustCompile(`<path d="(M[^"]*)"[^>]*stroke-width:0\.9`).FindAllStringSubmatch(text, -1)
	if len(lines) < 2 {
		t.Fatalf("%d lines of incision, want those on both sides of the gap", len(lines))
	}
	const top, foot = footerHeight + stripHeight - stripHead, footerHeight + stripFoot
	lowest := math.Inf(1)
	for _, l := range lines {
		for _, at := range regexp.MustCompile(`[ML]-?[0-9.]+,(-?[0-9.]+)`).FindAllStringSubmatch(l[1], -1) {
			var y float64
			fmt.Sscan(at[1], &y)
			if y >= foot && y <= top {
				lowest = min(lowest, y)
			}
		}
	}
	if want := top - (top-foot)/1.05; math.Abs(lowest-want) > 0.1 { // coordinates are rounded to 0.1 pt
		t.Errorf("the deepest point lies at %.1f points, want %.1f", lowest, want)
	}
}

func TestIncisionOfOtherLength(t *testing.T) {
	p := incised()
	p.TopHatM = p.TopHatM[1:]
	if err := WriteProfile(io.Discard, p, units.Metric); err == nil || !strings.Contains(err.Error(), "D07: top-hat has 150 values for 151 stations") {
		t.Errorf("error %v, want one that counts", err)
	}
}

func TestKnownRuns(t *testing.T) {
	no := math.NaN()
	for _, test := range []struct {
		values []float64
		want   string
	}{
		{nil, "[]"}, {[]float64{no, no}, "[]"}, {[]float64{1, 2}, "[[0 1]]"}, {[]float64{1, no, 2, 3, math.Inf(1), 4}, "[[0 0] [2 3] [5 5]]"},
	} {
		if got := fmt.Sprint(knownRuns(test.values)); got != test.want {
			t.Errorf("knownRuns(%v) = %v, want %v", test.values, got, test.want)
		}
	}
}
