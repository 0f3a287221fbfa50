package funder

import (
	"bytes"
	"crypto/sha256"
	"encoding/base64"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"golang.org/x/net/html"

	"siltstep/cmd/internal/facts"
	"siltstep/cmd/internal/units"
)

const picture = `<svg xmlns="http://www.w3.org/2000/svg" width="9" height="9"><path d="M0 0h9"/></svg>`

func page(t *testing.T, f *facts.Folder, opt Options) string {
	t.Helper()
	var a, b bytes.Buffer
	if err := WriteHTML(&a, f, opt); err != nil {
		t.Fatal(err)
	}
	if err := WriteHTML(&b, f, opt); err != nil {
		t.Fatal(err)
	}
	if !bytes.Equal(a.Bytes(), b.Bytes()) {
		t.Error("not the same bytes twice")
	}
	return a.String()
}

func TestPageHoldsAllAndLoadsNothing(t *testing.T) {
	p := invented(t)
	opt := Options{System: units.US, Title: "Creek & <b>bank</b>", MapSVG: []byte(picture), Works: inventedWorks}
	text := page(t, p.folder, opt)
	tree, err := html.Parse(strings.NewReader(text))
	if err != nil {
		t.Fatal(err)
	}
	var shown strings.Builder
	for n := range tree.Descendants() {
		if n.Type == html.TextNode && n.Parent.Data != "style" {
			shown.WriteString(n.Data + "\n")
		}
		for _, a := range n.Attr {
			if (a.Key == "src" || a.Key == "href") && !strings.HasPrefix(a.Val, "data:image/svg+xml;base64,") {
				t.Errorf("%s %s=%s", n.Data, a.Key, a.Val)
			}
			if a.Key == "style" || strings.HasPrefix(a.Key, "on") {
				t.Errorf("%s has %s, which the policy forbids", n.Data, a.Key)
			}
		}
		if n.Type == html.ElementNode && n.Data == "script" {
			t.Error("a script")
		}
	}
	d, _, err := build(p.folder, opt, false)
	if err != nil {
		t.Fatal(err)
	}
	for _, want := range texts(d) {
		if !strings.Contains(shown.String(), want) && want != "Map of the drainages and dams of the plan" {
			t.Errorf("the page lacks %q", want)
		}
	}
	style := regexp.MustCompile(`(?s)<style>(.*)</style>`).FindStringSubmatch(text)
	sum := sha256.Sum256([]byte(style[1]))
	if want := "style-src &#39;sha256-" + base64.StdEncoding.EncodeToString(sum[:]); !strings.Contains(strings.ReplaceAll(text, "&#43;", "+"), want) || !strings.Contains(text, "default-src &#39;none&#39;") {
		t.Error("the policy does not fit the style")
	}
}

func TestBothFormsSayTheSame(t *testing.T) {
	p := invented(t)
	d, _, err := build(p.folder, Options{}, false)
	if err != nil {
		t.Fatal(err)
	}
	var a, b bytes.Buffer
	if err := WriteMarkdown(&a, p.folder, Options{}); err != nil {
		t.Fatal(err)
	}
	if err := WriteMarkdown(&b, p.folder, Options{}); err != nil {
		t.Fatal(err)
	}
	if !bytes.Equal(a.Bytes(), b.Bytes()) {
		t.Error("not the same bytes twice")
	}
	for _, want := range texts(d) {
		if !strings.Contains(a.String(), escape.Replace(want)) {
			t.Errorf("the Markdown lacks %q", want)
		}
	}
	first := strings.Index(a.String(), p.folder.Cautions[0].Text)
	if head := strings.Index(a.String(), "Draft narrative"); first < 0 || first > head {
		t.Error("the cautions do not come first")
	}
}

// The story of a creek: 600.46 m are 1,970 ft, 73.4 m³ are 96.0 yd³, 126.24 t are 139.2 US tons of 2,000 lb.
func TestFiguresOfTheCreek(t *testing.T) {
	p := invented(t)
	var b bytes.Buffer
	if err := WriteMarkdown(&b, p.folder, Options{System: units.US}); err != nil {
		t.Fatal(err)
	}
	for _, want := range []string{"48 low rock check dams in 3 series", "96 yd³ (73", "139 US tons (2,000 lb) or 126", "1,970 ft (600 m) of channel treated by 48 dams"} {
		if !strings.Contains(b.String(), want) {
			t.Errorf("no %q", want)
		}
	}
}

func TestSoilOfWhatWasNotJudgedIsNotKnown(t *testing.T) {
	p := invented(t)
	var b bytes.Buffer
	if err := WriteMarkdown(&b, p.folder, Options{}); err != nil {
		t.Fatal(err)
	}
	if !regexp.MustCompile(`(?m)^\| not judged \| 1 \|.*\| not known \| not known \|$`).MatchString(b.String()) {
		t.Error("soil gone from the drainage that was not judged has a figure")
	}
}

func TestWorstDrainageWithoutDamsIsNamed(t *testing.T) {
	p := invented(t)
	var b bytes.Buffer
	if err := WriteMarkdown(&b, p.folder, Options{}); err != nil {
		t.Fatal(err)
	}
	if strings.Contains(b.String(), "has no dams in this plan") {
		t.Error("D01 is the worst and has dams")
	}
	p.folder.Drainages[2].Severity, p.folder.Drainages[2].PropertyShare = 90, 0.25
	p.folder.Inputs = []facts.Input{{Role: "property"}}
	b.Reset()
	if err := WriteMarkdown(&b, p.folder, Options{}); err != nil {
		t.Fatal(err)
	}
	if !strings.Contains(b.String(), "D03, has no dams in this plan; on the property lies 25 % of its length") {
		t.Error("D03 is the worst and has no dams, and nothing says so")
	}
}

func TestNarrativeHasTheLengthOfAForm(t *testing.T) {
	for name, change := range map[string]func(*facts.Folder){"all known": func(*facts.Folder) {}, "much not known": blank} {
		p := invented(t)
		change(p.folder)
		d, _, err := build(p.folder, Options{System: units.US}, false)
		if err != nil {
			t.Fatal(err)
		}
		n := 0
		for _, b := range d.sections[1].blocks {
			n += len(strings.Fields(b.text))
		}
		if n < 150 || n > 250 {
			t.Errorf("%s: %d words, want 150 to 250", name, n)
		}
	}
}

func TestNotKnownIsSaid(t *testing.T) {
	p := invented(t)
	blank(p.folder)
	var b bytes.Buffer
	if err := WriteMarkdown(&b, p.folder, Options{}); err != nil {
		t.Fatal(err)
	}
	for _, want := range []string{"Cost is not known. What is needed: prices.currency", "Erosion avoided is not known", "low not known, likely not known, high not known", "How fast they fill is not known", "Area benefited: not computed"} {
		if !strings.Contains(strings.ReplaceAll(b.String(), `\_`, "_"), want) {
			t.Errorf("no %q", want)
		}
	}
	if strings.Contains(b.String(), "NaN") {
		t.Error("NaN is printed")
	}
}

func TestPlanWithoutDamsIsSaid(t *testing.T) {
	var b bytes.Buffer
	if err := WriteMarkdown(&b, &facts.Folder{}, Options{Works: &Works{}}); err != nil {
		t.Fatal(err)
	}
	if !strings.Contains(b.String(), "The plan has no dams.") || strings.Contains(b.String(), "NaN") {
		t.Error(b.String())
	}
}

func TestNothingIsClaimedOfStorms(t *testing.T) {
	p := invented(t)
	d, _, err := build(p.folder, options()[1], false)
	if err != nil {
		t.Fatal(err)
	}
	claim := regexp.MustCompile(`(?i)storm|flood|peak flow|exempt`)
	denied := regexp.MustCompile(`No smaller storm flow is claimed|no change was detected in large storms|We claim no smaller storm flow|what storm water can do to the bed|A big flood can take a dam out|^floodplain`)
	for _, text := range texts(d) {
		if left := denied.ReplaceAllString(text, ""); claim.MatchString(left) {
			t.Errorf("reads as a claim: %q", left)
		}
	}
}

func TestFullerThanFullIsRefused(t *testing.T) {
	p := invented(t)
	p.folder.Filling[0].High = 1.03
	if err := WriteMarkdown(&bytes.Buffer{}, p.folder, Options{}); err == nil || !strings.Contains(err.Error(), "filling of D01") {
		t.Errorf("%v", err)
	}
}

func TestPlacesAreLeftOut(t *testing.T) {
	p := invented(t)
	if text := page(t, p.folder, Options{HidePlaces: true}); strings.Contains(text, "104.44") || strings.Contains(text, "37.2") {
		t.Error("a coordinate is printed")
	}
	if text := page(t, p.folder, Options{}); !strings.Contains(text, "-104.44000") {
		t.Error("no coordinate is printed")
	}
}

func TestMapThatIsNoPictureIsRefused(t *testing.T) {
	p := invented(t)
	for name, svg := range map[string]string{
		"script": `<svg><script>1</script></svg>`, "handler": `<svg onload="1"/>`, "outside": `<svg><image href="http://a/b.png"/></svg>`, "not closed": `<svg>`, "no svg": `<p/>`,
	} {
		if err := WriteHTML(&bytes.Buffer{}, p.folder, Options{MapSVG: []byte(svg)}); err == nil {
			t.Errorf("%s: taken", name)
		}
	}
}

func TestWorksAreThoseOfTheLayer(t *testing.T) {
	dir := t.TempDir()
	point := `{"type":"Feature","geometry":{"type":"Point","coordinates":[0,0]},"properties":`
	layer := `{"type":"FeatureCollection","features":[` + point + `{"drainage":"D01","footprint_m2":20.5,"pond_m2":null,"fill_m3":3}},` + point + `{"drainage":"D01","footprint_m2":10.25,"pond_m2":4,"fill_m3":2}}]}`
	if err := os.WriteFile(filepath.Join(dir, "footprints.geojson"), []byte(layer), 0o644); err != nil {
		t.Fatal(err)
	}
	w, err := ReadWorks(dir)
	if err != nil || w.FootprintM2 != 30.75 || w.FillM3 != 5 || w.PondM2.Known() || w.ByDrainage["D01"] != 30.75 {
		t.Errorf("%+v, %v", w, err)
	}
}
