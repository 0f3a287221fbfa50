package chart

import (
	"bytes"
	"encoding/base64"
	"encoding/xml"
	"errors"
	"fmt"
	"io"
	"math"
	"strconv"
	"strings"
	"testing"

	"siltstep/cmd/internal/units"
	"siltstep/hydro/erosion"
	"siltstep/raster/rastertest"

	"github.com/paulmach/orb"
)

// greyPixel is a PNG of one grey pixel, as bytes, so that no encoder is in the golden.
const greyPixel = "iVBORw0KGgoAAAANSUhEUgAAAAEAAAABCAAAAAA6fptVAAAACklEQVR4nGNoAAAAggCBd81ytgAAAABJRU5ErkJggg=="

// ranch is a map of 1,000 by 800 m with a drainage of each class, two of them meeting.
func ranch() Map {
	shade, err := base64.StdEncoding.DecodeString(greyPixel)
	if err != nil {
		panic(err)
	}
	return Map{
		Title: "Ranch & Sons", Shade: shade, CRS: "WGS 84 / UTM zone 13N",
		Extent:   orb.Bound{Min: orb.Point{548000, 4125000}, Max: orb.Point{549000, 4125800}},
		Property: []orb.Polygon{{{{548100, 4125100}, {548900, 4125100}, {548900, 4125700}, {548100, 4125700}, {548100, 4125100}}}},
		Drainages: []MapDrainage{
			{ID: "D01", Line: orb.LineString{{548500, 4125780}, {548520, 4125500}, {548400, 4125200}, {548420, 4124900}}, CatchmentM2: 40e4, Class: erosion.Severe, Truncated: true, Rank: 1},
			{ID: "D02", Line: orb.LineString{{548850, 4125650}, {548700, 4125600}, {548520, 4125500}}, CatchmentM2: 6e4, Class: erosion.Eroding, Rank: 2},
			{ID: "D03", Line: orb.LineString{{548150, 4125500}, {548250, 4125350}, {548400, 4125200}}, CatchmentM2: 3e4, Class: erosion.Watch, Rank: 3},
			{ID: "D04", Line: orb.LineString{{548800, 4125400}, {548700, 4125250}, {548750, 4125050}}, CatchmentM2: 1e4, Class: erosion.Sound, Rank: 4},
			{ID: "D05", Line: orb.LineString{{548050, 4125200}, {548080, 4125020}}, CatchmentM2: 0.3e4},
		},
		Headcuts: []orb.Point{{548515, 4125570}, {548700, 4125600}},
		Dams:     []orb.Point{{548200, 4125425}, {548225, 4125387}, {548600, 4125545}},
	}
}

func mapSVG(t *testing.T, m Map, system units.System) string {
	t.Helper()
	var b bytes.Buffer
	if err := WriteMap(&b, m, system); err != nil {
		t.Fatal(err)
	}
	return b.String()
}

func TestMapAgainstGoldens(t *testing.T) {
	empty := Map{Title: "Ranch", Extent: ranch().Extent}
	for name, text := range map[string]string{
		"map":      mapSVG(t, ranch(), units.Metric),
		"mapus":    mapSVG(t, ranch(), units.US),
		"mapempty": mapSVG(t, empty, units.Metric),
	} {
		rastertest.Golden(t, "testdata/"+name+".svg", text)
	}
}

// luminance returns the relative luminance of a colour "#rrggbb", 0 to 1, and contrast the ratio of
// white to it. Source: W3C, Web Content Accessibility Guidelines 2.2, relative luminance and contrast
// ratio; from memory.
func luminance(t *testing.T, colour string) float64 {
	t.Helper()
	var sum float64
	for i, share := range []float64{0.2126, 0.7152, 0.0722} {
		n, err := strconv.ParseUint(colour[1+2*i:3+2*i], 16, 8)
		if err != nil {
			t.Fatal(err)
		}
		v := float64(n) / 255
		if v <= 0.04045 {
			v /= 12.92
		} else {
			v = math.Pow((v+0.055)/1.055, 2.4)
		}
		sum += share * v
	}
	return sum
}

func contrast(l float64) float64 { return 1.05 / (l + 0.05) }

// Each class must be told from the next without colour: darker by far, and by a stroke of its own.
func TestClassesWithoutColour(t *testing.T) {
	if got := contrast(luminance(t, "#ffffff")); math.Abs(got-1) > 1e-9 {
		t.Fatalf("contrast of white on white is %v", got)
	}
	strokes := map[string]string{}
	for i, s := range classStyles {
		l := luminance(t, s.colour)
		if contrast(l) < 3 {
			t.Errorf("%s: contrast on white %.2f, want 3 or more", s.name, contrast(l))
		}
		if i > 1 {
			last := luminance(t, classStyles[i-1].colour)
			if ratio := (last + 0.05) / (l + 0.05); ratio < 1.3 {
				t.Errorf("%s is only %.2f times darker than %s", s.name, ratio, classStyles[i-1].name)
			}
		}
		stroke := fmt.Sprint(s.dashes, s.ticks)
		if other, taken := strokes[stroke]; taken {
			t.Errorf("%s and %s have the same stroke", s.name, other)
		}
		strokes[stroke] = s.name
	}
	order := []erosion.Class{"", erosion.Sound, erosion.Watch, erosion.Eroding, erosion.Severe}
	for i, c := range order {
		if classStyles[i].class != c {
			t.Errorf("class %d is %q, want %q", i, classStyles[i].class, c)
		}
	}
}

// placedText is a text of an SVG and the room it takes.
type placedText struct {
	words string
	box   box
}

// placedTexts returns the upright texts of a map with the room they take, and the size of the page.
func placedTexts(t *testing.T, svg string) (out []placedText, page box) {
	t.Helper()
	number := func(attrs []xml.Attr, name string) float64 {
		for _, a := range attrs {
			if a.Name.Local == name {
				v, err := strconv.ParseFloat(strings.TrimSuffix(a.Value, "pt"), 64)
				if err != nil {
					t.Fatal(err)
				}
				return v
			}
		}
		return 0
	}
	var at []xml.Attr
	middle, turned := false, false
	for d := xml.NewDecoder(strings.NewReader(svg)); ; {
		token, err := d.Token()
		if errors.Is(err, io.EOF) {
			return out, page
		}
		if err != nil {
			t.Fatal(err)
		}
		switch token := token.(type) {
		case xml.StartElement:
			at, turned = nil, false
			for _, a := range token.Attr {
				turned = turned || a.Name.Local == "transform"
				if a.Name.Local == "text-anchor" {
					middle = true
				}
			}
			switch token.Name.Local {
			case "svg":
				page = box{0, 0, number(token.Attr, "width"), number(token.Attr, "height")}
			case "text":
				at = token.Attr
			}
		case xml.CharData:
			if at == nil || turned {
				continue
			}
			x, y, size := number(at, "x"), number(at, "y"), number(at, "font-size")
			w := textWidth(string(token), size)
			if middle {
				x -= w / 2
			}
			out = append(out, placedText{string(token), box{x, y - size, x + w, y + 0.25*size}})
		case xml.EndElement:
			at = nil
			if token.Name.Local == "g" {
				middle = false
			}
		}
	}
}

func TestMapTextsStayOnThePage(t *testing.T) {
	long := ranch()
	long.Title = strings.Repeat("Ranch of the long name ", 8)
	long.CRS = "NAD83(2011) / UTM zone 13N + NAVD88 height - Geoid18 (metre), as said by the file"
	for i := range long.Drainages {
		long.Drainages[i].ID = fmt.Sprintf("drainage number %d of the whole ranch", i+1)
	}
	tall := ranch()
	tall.Extent.Max[1] += 2000
	flat := ranch()
	flat.Extent.Max[0] += 4000
	for name, m := range map[string]Map{"ranch": ranch(), "long": long, "tall": tall, "flat": flat} {
		for _, system := range []units.System{units.Metric, units.US} {
			got, page := placedTexts(t, mapSVG(t, m, system))
			if len(got) < 20 {
				t.Errorf("%s: only %d texts", name, len(got))
			}
			if page.width() > pages[0][0] || page.height() > pages[1][1] || page.width() > pages[1][0] && page.height() > pages[0][1] {
				t.Errorf("%s: page of %v by %v points is larger than Letter or A4 with margins", name, page.width(), page.height())
			}
			for _, p := range got {
				if !p.box.within(page) {
					t.Errorf("%s, %v: %q runs out of the page: %.1f of %.1f", name, system, p.words, p.box, page)
				}
			}
		}
	}
}

// The frame must show the extent at the scale that is printed: by hand, 1,000 m at 1 : 6,000 are
// 166.7 mm, which is 472.4 points.
func TestMapScale(t *testing.T) {
	for system, want := range map[units.System]string{units.Metric: "Scale 1 : 6,000", units.US: "Scale 1 : 6,000 (1 in to 500 ft)"} {
		s := fitSheet(ranch().Extent, system)
		if math.Abs(s.frame.width()-472.44) > 0.01 {
			t.Errorf("%v: the frame is %.2f points wide, want 472.44", system, s.frame.width())
		}
		if all := strings.Join(texts(t, mapSVG(t, ranch(), system)), "\n"); !strings.Contains(all, want) {
			t.Errorf("%v: %q is not said:\n%s", system, want, all)
		}
	}
	for _, test := range []struct {
		v      float64
		system units.System
		want   float64
	}{{5999, units.Metric, 6000}, {6000, units.Metric, 6000}, {6001, units.Metric, 8000}, {8001, units.Metric, 10000}, {5999, units.US, 6000}, {6001, units.US, 7200}, {0.9, units.Metric, 1}} {
		if got := roundMapScale(test.v, test.system); math.Abs(got/test.want-1) > 1e-9 {
			t.Errorf("roundMapScale(%v, %v) = %v, want %v", test.v, test.system, got, test.want)
		}
	}
}

func TestMapSaysWhatIsThere(t *testing.T) {
	one := ranch()
	one.Drainages = one.Drainages[:1]
	one.Headcuts, one.Dams, one.Property = one.Headcuts[:1], nil, nil
	bare := ranch()
	for i := range bare.Drainages {
		bare.Drainages[i].Class, bare.Drainages[i].Rank = "", 0
	}
	bare.Drainages[4].Line = bare.Drainages[4].Line[:1]
	for _, test := range []struct {
		name        string
		m           Map
		says, lacks []string
	}{
		{"all", ranch(), []string{"5 drainages  ·  1 severe  ·  1 eroding  ·  1 watch  ·  1 sound  ·  1 not judged  ·  2 headcuts  ·  3 dams", "Worst first: D01, D02, D03, D04", "D05", "property line", "check dam", mapNotes[0], mapNotes[1], "WGS 84 / UTM zone 13N", "\n200 m\n500 ft\n"}, []string{"for room"}},
		{"one", one, []string{"1 drainage  ·  1 severe  ·  1 headcut", "Worst first: D01"}, []string{"property line", "check dam", "not judged"}},
		{"none", Map{Title: "Ranch", Extent: ranch().Extent}, []string{"0 drainages", "No drainage was found.", "coordinate system not known"}, []string{"property line"}},
		{"not judged", bare, []string{"5 drainages  ·  5 not judged", "Severity not judged: labels by drainage area, the largest first.", "Not drawn, for want of a line: 1 drainage."}, []string{"Worst first"}},
	} {
		all := "\n" + strings.Join(texts(t, mapSVG(t, test.m, units.Metric)), "\n") + "\n"
		for _, want := range test.says {
			if !strings.Contains(all, want) {
				t.Errorf("%s: %q is not said:%s", test.name, want, all)
			}
		}
		for _, no := range test.lacks {
			if strings.Contains(all, no) {
				t.Errorf("%s: %q is said", test.name, no)
			}
		}
	}
}

func TestMapOddIDs(t *testing.T) {
	m := ranch()
	m.Drainages[0].ID = `<D&"'>` + "\x00\n"
	m.Drainages[1].ID = ""
	m.Drainages[2].CatchmentM2 = math.NaN()
	m.Drainages[3].Line = append(m.Drainages[3].Line, orb.Point{math.NaN(), 0}, orb.Point{math.Inf(1), 0})
	m.Headcuts = append(m.Headcuts, orb.Point{math.NaN(), math.NaN()}, orb.Point{0, 0})
	text := mapSVG(t, m, units.Metric)
	if strings.Contains(text, "NaN") || strings.Contains(text, "Inf") {
		t.Error("NaN or Inf in the drawing")
	}
	if all := strings.Join(texts(t, text), "\n"); !strings.Contains(all, `<D&"'>`) {
		t.Errorf("the odd id is not shown as it is:\n%s", all)
	}
	if n := strings.Count(text, `xlink:href="#headcut"`); n != 2+1 {
		t.Errorf("%d headcut marks, want the two in the frame and one in the legend", n)
	}
}

func TestMapErrors(t *testing.T) {
	flat, odd, wrong := ranch(), ranch(), ranch()
	flat.Extent.Max = flat.Extent.Min
	odd.Extent.Max[0] = math.Inf(1)
	wrong.Shade = []byte("GIF89a")
	for name, m := range map[string]Map{"no extent": flat, "endless extent": odd, "not a PNG": wrong} {
		if err := WriteMap(io.Discard, m, units.Metric); err == nil || !strings.Contains(err.Error(), m.Title) {
			t.Errorf("%s: error %v, want one that names the map", name, err)
		}
	}
}

// By the rule 0.25 ha are 1 point and each tenfold adds 0.7.
func TestLineWidth(t *testing.T) {
	for ha, want := range map[float64]float64{0: 1, 0.25: 1, 2.5: 1.7, 25: 2.4, 1e9: 3.6, math.NaN(): 1, math.Inf(1): 3.6} {
		if got := lineWidth(ha * units.HectareM2); math.Abs(got-want) > 1e-9 {
			t.Errorf("lineWidth(%v ha) = %v, want %v", ha, got, want)
		}
	}
}
