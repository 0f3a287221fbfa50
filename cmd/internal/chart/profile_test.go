package chart

import (
	"bytes"
	"encoding/xml"
	"errors"
	"fmt"
	"io"
	"math"
	"regexp"
	"strings"
	"testing"

	"siltstep/cmd/internal/units"
	"siltstep/hydro/channel"
	"siltstep/hydro/siting"
	"siltstep/raster/rastertest"

	"gonum.org/v1/plot/vg/draw"
	"gonum.org/v1/plot/vg/vgsvg"
)

// drawn is a profile of 300 m: 3 % below, 9 % between stations 120 and 160, 5 % above, the
// ground 0 to 0.3 m over the bed.
func drawn() Profile {
	bed := func(s float64) float64 {
		return 1600 + 0.03*s + 0.06*min(max(s-120, 0), 40) + 0.02*max(s-160, 0)
	}
	p := Profile{Title: "D07"}
	for s := 0.0; s <= 300; s += 2 {
		p.Stations = append(p.Stations, channel.Station{StationM: s, BedM: bed(s), GroundM: bed(s) + 0.15*(1+math.Sin(s/7))})
	}
	return p
}

// withDams puts level-pool dams of one height toe to crest between two stations.
func withDams(p Profile, fromM, toM, heightM float64) Profile {
	last := p.Stations[len(p.Stations)-1].StationM
	for at := fromM; at < toM; {
		s := siting.Site{ID: fmt.Sprintf("%s-%02d", p.Title, len(p.Sites)+1), StationM: at, BedM: bedAt(p.Stations, at)}
		s.SillM = s.BedM + heightM
		for s.WedgeEndM = at; s.WedgeEndM < last && bedAt(p.Stations, s.WedgeEndM) < s.SillM; s.WedgeEndM += 0.01 {
		}
		s.BodyUpM, s.BodyDownM = heightM+0.3, 2*heightM+0.3 // faces of 1 and 2 to 1, a crest of 0.6 m
		p.Sites = append(p.Sites, s)
		at = s.WedgeEndM
	}
	return p
}

func svg(t *testing.T, p Profile, system units.System) string {
	t.Helper()
	var b bytes.Buffer
	if err := WriteProfile(&b, p, system); err != nil {
		t.Fatal(err)
	}
	return b.String()
}

func TestProfileAgainstGoldens(t *testing.T) {
	crowded := withDams(drawn(), 20, 280, 0.3)
	crowded.Truncated = true
	hidden := withDams(drawn(), 180, 280, 0.6)
	for i := range hidden.Stations {
		hidden.Stations[i].NoBed = i >= 20 && i < 40 || i == 60
	}
	for name, text := range map[string]string{
		"hidden":  svg(t, hidden, units.Metric),
		"metric":  svg(t, withDams(drawn(), 20, 280, 0.6), units.Metric),
		"us":      svg(t, withDams(drawn(), 20, 280, 0.6), units.US),
		"crowded": svg(t, crowded, units.Metric),
		"bare":    svg(t, drawn(), units.Metric),
	} {
		rastertest.Golden(t, "testdata/"+name+".svg", text)
	}
}

// texts returns the texts of an SVG, and fails where it is not XML.
func texts(t *testing.T, svg string) []string {
	t.Helper()
	var out []string
	in := ""
	for d := xml.NewDecoder(strings.NewReader(svg)); ; {
		token, err := d.Token()
		if errors.Is(err, io.EOF) {
			return out
		}
		if err != nil {
			t.Fatal(err)
		}
		switch token := token.(type) {
		case xml.StartElement:
			in = token.Name.Local
		case xml.CharData:
			if s := strings.TrimSpace(string(token)); s != "" && in == "text" {
				out = append(out, s)
			}
		}
	}
}

// Every number in the header is one of the plan. By hand: the bed rises 0.03·300 +
// 0.06·40 + 0.02·140 = 14.2 m over 300 m, which is 4.73 %.
func TestHeaderNumbers(t *testing.T) {
	p := withDams(drawn(), 20, 280, 0.6)
	for system, want := range map[units.System]string{
		units.Metric: "length 300.0 m  ·  drop 14.2 m  ·  mean slope 4.7 %  ·  vertical exaggeration ",
		units.US:     "length 984.3 ft  ·  drop 46.6 ft  ·  mean slope 4.7 %  ·  vertical exaggeration ",
	} {
		all := strings.Join(texts(t, svg(t, p, system)), "\n")
		if !strings.Contains(all, want) || !strings.Contains(all, fmt.Sprintf("%d dams", len(p.Sites))) {
			t.Errorf("%v: header lacks %q or the number of dams:\n%s", system, want, all)
		}
		if !strings.Contains(all, NotJudged) {
			t.Errorf("%v: what was not judged is not said", system)
		}
	}
}

// The printed exaggeration is measured on the drawing: the bed line's own points give it.
func TestExaggerationIsThatOfTheDrawing(t *testing.T) {
	p := drawn()
	for _, system := range []units.System{units.Metric, units.US} {
		text := svg(t, p, system)
		m := regexp.MustCompile(`vertical exaggeration ([0-9.e+]+) : 1`).FindStringSubmatch(text)
		path := regexp.MustCompile(`<path d="(M[^"]*)"[^>]*stroke-width:1\.2`).FindStringSubmatch(text)
		if m == nil || path == nil {
			t.Fatal("no exaggeration or no bed line in the drawing")
		}
		var printed float64
		fmt.Sscan(m[1], &printed)
		points := regexp.MustCompile(`[ML](-?[0-9.]+),(-?[0-9.]+)`).FindAllStringSubmatch(path[1], -1)
		var x0, y0, x1, y1 float64
		fmt.Sscan(points[0][1], &x0)
		fmt.Sscan(points[0][2], &y0)
		fmt.Sscan(points[len(points)-1][1], &x1)
		fmt.Sscan(points[len(points)-1][2], &y1)
		measured := (y1 - y0) / 14.2 / ((x1 - x0) / 300)
		if math.Abs(measured/printed-1) > 0.005 { // coordinates are rounded to 0.1 pt of some 200 pt
			t.Errorf("%v: %v is printed, the bed line gives %.3f", system, printed, measured)
		}
	}
}

// The axes are fitted to a round exaggeration for any relief, whatever falls on their ends.
func TestExaggerationIsRound(t *testing.T) {
	for reliefM := 1.0; reliefM < 100; reliefM *= 1.07 {
		p := Profile{Stations: []channel.Station{{BedM: 1645, GroundM: 1645}, {StationM: 270, BedM: 1645 + reliefM, GroundM: 1645 + reliefM}}}
		for _, system := range []units.System{units.Metric, units.US} {
			_, got := fit(p, system, draw.NewCanvas(vgsvg.New(700, 300), 700, 300))
			if round := roundDown(got * (1 + 1e-9)); math.Abs(got/round-1) > 1e-6 {
				t.Errorf("%v, relief %.1f m: exaggeration %v is not round", system, reliefM, got)
			}
		}
	}
}

func TestLabels(t *testing.T) {
	few, many := withDams(drawn(), 20, 280, 0.6), withDams(drawn(), 20, 280, 0.3)
	for name, p := range map[string]Profile{"few": few, "many": many} {
		id := regexp.MustCompile(`^D07-\d\d$`)
		shown := 0
		for _, s := range texts(t, svg(t, p, units.Metric)) {
			if id.MatchString(s) {
				shown++
			}
		}
		if shown == 0 || (name == "few") != (shown == len(p.Sites)) {
			t.Errorf("%s: %d of %d dams are labelled", name, shown, len(p.Sites))
		}
		if said := strings.Contains(svg(t, p, units.Metric), fmt.Sprintf("For room, %d of %d dams are labelled.", shown, len(p.Sites))); said != (shown < len(p.Sites)) {
			t.Errorf("%s: note on labels: %v, %d of %d", name, said, shown, len(p.Sites))
		}
	}
}

func TestOddProfiles(t *testing.T) {
	level := Profile{Title: "D01", Stations: []channel.Station{{BedM: 5, GroundM: 5}, {StationM: 1, BedM: 5, GroundM: 5}}}
	steep := Profile{Title: "D02", Stations: []channel.Station{{BedM: 5, GroundM: 5}, {StationM: 1, BedM: 900, GroundM: 900}}}
	for _, p := range []Profile{level, steep} {
		if text := svg(t, p, units.Metric); strings.Contains(text, "NaN") || strings.Contains(text, "Inf") {
			t.Errorf("%s: NaN or Inf in the drawing", p.Title)
		}
	}
	if err := WriteProfile(io.Discard, Profile{Title: "D03", Stations: level.Stations[:1]}, units.Metric); err == nil {
		t.Error("one station: no error")
	}
}

func TestSameBytes(t *testing.T) {
	p := withDams(drawn(), 20, 280, 0.6)
	first, second := svg(t, p, units.Metric), svg(t, p, units.Metric)
	if first != second {
		t.Error("two drawings of one profile differ")
	}
}

func TestRoundDown(t *testing.T) {
	for v, want := range map[float64]float64{1: 1, 0.99: 0.8, 7.9: 6, 8: 8, 9.99: 8, 14.9: 10, 15: 15, 37: 30, 0: 0, math.Inf(1): 0} {
		if got := roundDown(v); math.Abs(got-want) > 1e-12 {
			t.Errorf("roundDown(%v) = %v, want %v", v, got, want)
		}
	}
}

// 0.6 m at 3 % reach 20 m: by hand the wedge ends where the bed has risen to the sill.
func TestWedgeEndsOnTheBed(t *testing.T) {
	p := withDams(drawn(), 20, 30, 0.6)
	if got := p.Sites[0].WedgeEndM; math.Abs(got-40) > 0.02 { // searched in steps of 0.01 m
		t.Errorf("the wedge ends at %.2f m, want 40", got)
	}
	p.Sites[0].WedgeEndM = 40
	w := p.wedge(0)
	first, last := w[0], w[len(w)-1]
	if math.Abs(first.depositM-first.bedM-0.6) > 1e-9 {
		t.Errorf("at the axis the deposit is %.3f m deep, want 0.6", first.depositM-first.bedM)
	}
	if last.stationM != 40 || math.Abs(last.depositM-last.bedM) > 1e-9 {
		t.Errorf("the wedge ends at %.2f m, %.4f m above the bed; want 40 m and 0", last.stationM, last.depositM-last.bedM)
	}
	if len(w) != 2+9 {
		t.Errorf("%d points, want both ends and the 9 stations between 22 and 38 m", len(w))
	}
}
