package page

import (
	"bytes"
	"encoding/json"
	"errors"
	"html"
	"io"
	"math"
	"reflect"
	"regexp"
	"strings"
	"testing"

	"siltstep/cmd/internal/facts"

	"github.com/paulmach/orb"
)

var dataElement = regexp.MustCompile(`(?s)<script type="application/json" id="plan">(.*?)</script>`)

// packedTable is a table as the page holds it.
type packedTable struct {
	Rows    int
	Columns map[string][]any
	Words   map[string][]string
}

// recordsOf reads a table back, by way of the JSON of one record.
func recordsOf[T any](t *testing.T, packed packedTable) []T {
	t.Helper()
	list := make([]T, packed.Rows)
	for i := range list {
		one := map[string]any{}
		for name, column := range packed.Columns {
			if len(column) != packed.Rows {
				t.Fatalf("column %s has %d rows of %d", name, len(column), packed.Rows)
			}
			one[name] = column[i]
			if words := packed.Words[name]; words != nil {
				one[name] = words[int(column[i].(float64))]
			}
		}
		text, err := json.Marshal(one)
		if err != nil {
			t.Fatal(err)
		}
		if err := json.Unmarshal(text, &list[i]); err != nil {
			t.Fatal(err)
		}
	}
	return list
}

// sameRecords compares through JSON, where what is not known is null and so equal to itself.
func sameRecords[T any](t *testing.T, name string, got, want []T) {
	t.Helper()
	a, _ := json.Marshal(got)
	b, _ := json.Marshal(want)
	if len(want) == 0 {
		t.Errorf("%s: the invented plan has none, so nothing is compared", name)
	}
	if !bytes.Equal(a, b) {
		t.Errorf("%s: the page does not hold what the plan holds", name)
	}
}

func TestPageHoldsThePlan(t *testing.T) {
	f := invented(6, 20, 200)
	var held struct {
		Grid   facts.Grid
		Totals facts.Totals
		Tables map[string]packedTable
	}
	match := dataElement.FindStringSubmatch(pageOf(t, f, Options{}))
	if match == nil {
		t.Fatal("no data in the page")
	}
	if err := json.Unmarshal([]byte(match[1]), &held); err != nil {
		t.Fatal(err)
	}
	sameRecords(t, "grid", []facts.Grid{held.Grid}, []facts.Grid{f.Grid})
	sameRecords(t, "totals", []facts.Totals{held.Totals}, []facts.Totals{f.Totals})
	sameRecords(t, "drainages", recordsOf[facts.Drainage](t, held.Tables["drainages"]), f.Drainages)
	sameRecords(t, "parts", recordsOf[facts.Part](t, held.Tables["parts"]), f.Parts)
	sameRecords(t, "headcuts", recordsOf[facts.Headcut](t, held.Tables["headcuts"]), f.Headcuts)
	sameRecords(t, "reaches", recordsOf[facts.Reach](t, held.Tables["reaches"]), f.Reaches)
	sameRecords(t, "sites", recordsOf[facts.Site](t, held.Tables["sites"]), f.Sites)
	sameRecords(t, "designs", recordsOf[facts.Design](t, held.Tables["designs"]), f.Designs)
	sameRecords(t, "series", recordsOf[facts.Series](t, held.Tables["series"]), f.Series)
	sameRecords(t, "scenarios", recordsOf[facts.Scenario](t, held.Tables["scenarios"]), f.Scenarios)
	sameRecords(t, "loads", recordsOf[facts.Load](t, held.Tables["loads"]), f.Loads)
	sameRecords(t, "gradients", recordsOf[facts.Gradient](t, held.Tables["gradients"]), f.Gradients)
	sameRecords(t, "filling", recordsOf[facts.Filling](t, held.Tables["filling"]), f.Filling)
	sameRecords(t, "checks", recordsOf[facts.Check](t, held.Tables["checks"]), f.Checks)
	sameRecords(t, "weaknesses", recordsOf[facts.Weakness](t, held.Tables["weaknesses"]), f.Weaknesses)
	sameRecords(t, "changes", recordsOf[facts.Change](t, held.Tables["changes"]), f.Changes)
	if len(held.Tables) != 14 {
		t.Errorf("%d tables in the page, 14 compared", len(held.Tables))
	}
}

func TestPolicyNamesScriptAndStyle(t *testing.T) {
	text := pageOf(t, invented(2, 4, 100), Options{Hillshade: shade(t, 60, 140)})
	content := regexp.MustCompile(`http-equiv="Content-Security-Policy" content="([^"]*)"`).FindStringSubmatch(text)
	if content == nil {
		t.Fatal("no policy")
	}
	got := html.UnescapeString(content[1])
	style := regexp.MustCompile(`(?s)<style>(.*?)</style>`).FindStringSubmatch(text)[1]
	script := regexp.MustCompile(`(?s)<script>(.*?)</script>`).FindStringSubmatch(text)[1]
	want := "default-src 'none'; script-src " + hash(script) + "; style-src " + hash(style) + "; img-src data:; base-uri 'none'; form-action 'none'"
	if got != want {
		t.Errorf("policy %s\nwant %s", got, want)
	}
	if strings.Contains(text, "\r") {
		t.Error("carriage returns change the hashes")
	}
	if n := strings.Count(text, "<style"); n != 1 {
		t.Errorf("%d styles, want 1", n)
	}
	if inline := regexp.MustCompile(`<[a-z][^<>]*\s(style|on[a-z]+)=`).FindString(strings.Replace(text, script, "", 1)); inline != "" {
		t.Errorf("inline style or handler, which the policy forbids: %s", inline)
	}
}

func TestPageAsksForNothing(t *testing.T) {
	text := pageOf(t, invented(2, 4, 100), Options{Hillshade: shade(t, 60, 140)})
	for _, library := range []string{"leaflet.js", "uplot.js", "leaflet.LICENSE", "uplot.LICENSE"} {
		held, err := assets.ReadFile("assets/vendor/" + library)
		if err != nil {
			t.Fatal(err)
		}
		plain := strings.TrimSpace(sourceMap.ReplaceAllString(plainLines(string(held)), ""))
		if !strings.Contains(text, plain) {
			t.Errorf("%s is not in the page as it was copied", library)
		}
		text = strings.Replace(text, plain, "", 1)
	}
	text = strings.ReplaceAll(text, `"http://www.w3.org/2000/svg"`, "")   // a name, not an address
	text = strings.ReplaceAll(text, "`url(#${id})`", "")                  // a pattern in the same drawing
	text = regexp.MustCompile(`(?s)/\*.*?\*/`).ReplaceAllString(text, "") // remarks in the styles
	for _, bad := range []string{"http:", "https:", "url(", "@import", "sourceMappingURL", "<link", "<iframe", "fetch(", "XMLHttpRequest", "import("} {
		if i := strings.Index(text, bad); i >= 0 {
			t.Errorf("%q in the page: …%s…", bad, text[max(0, i-40):min(len(text), i+60)])
		}
	}
}

func TestNamesStayText(t *testing.T) {
	const evil = `</script><img src=x onerror=alert(1)><!--`
	f := invented(2, 4, 100)
	f.Findings[0].Text, f.Sites[0].Cautions, f.Settings[0].Value = evil, evil, evil
	text := pageOf(t, f, Options{Title: evil})
	if n := strings.Count(text, "</script"); n != 2 {
		t.Errorf("%d ends of scripts, want 2", n)
	}
	if strings.Contains(text, "<img src=x") || strings.Contains(text, "<!--") {
		t.Error("a name became markup")
	}
}

func TestSameBytes(t *testing.T) {
	f := invented(3, 9, 100)
	first := pageOf(t, f, Options{})
	if again := pageOf(t, f, Options{}); again != first {
		t.Error("the page differs from run to run")
	}
}

func TestWriteFails(t *testing.T) {
	f := invented(1, 1, 100)
	failed := errors.New("no such system")
	rows := []struct {
		name string
		opt  Options
		want error
	}{
		{"projection fails", Options{ToGrid: func([]orb.Point) ([]orb.Point, error) { return nil, failed }}, failed},
		{"projection loses points", Options{ToGrid: func([]orb.Point) ([]orb.Point, error) { return nil, nil }}, errOutside},
		{"projection of no use", Options{ToGrid: func(at []orb.Point) ([]orb.Point, error) { return make([]orb.Point, len(at)), nil }}, errOutside},
		{"place outside", Options{ToGrid: func(at []orb.Point) ([]orb.Point, error) {
			return []orb.Point{{math.NaN(), 0}, {1, 1}, {1, 1}, {1, 1}, {1, 1}}[:len(at)], nil
		}}, errOutside},
	}
	for _, r := range rows {
		t.Run(r.name, func(t *testing.T) {
			if err := Write(io.Discard, f, r.opt); !errors.Is(err, r.want) {
				t.Errorf("error %v, want %v", err, r.want)
			}
		})
	}
	if err := Write(io.Discard, f, Options{ToGrid: flat, Hillshade: []byte("no picture")}); err == nil || !strings.Contains(err.Error(), "no PNG") {
		t.Errorf("error %v, want one about the picture", err)
	}
	defer func() {
		if recover() == nil {
			t.Error("no panic without a projection")
		}
	}()
	Write(io.Discard, f, Options{})
}

func TestColumnsOf(t *testing.T) {
	type record struct {
		ID   string `json:"id"`
		Word string `json:"word"`
		N    int    `json:"n"`
	}
	got := columnsOf([]record{{"a", "x", 1}, {"b", "y", 2}, {"c", "x", 3}, {"d", "x", 4}})
	want := table{Rows: 4, Columns: map[string]any{"id": []string{"a", "b", "c", "d"}, "word": []int{0, 1, 0, 0}, "n": []int{1, 2, 3, 4}}, Words: map[string][]string{"word": {"x", "y"}}}
	if !reflect.DeepEqual(got, want) {
		t.Errorf("got %v, want %v", got, want)
	}
}
