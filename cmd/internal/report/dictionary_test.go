package report

import (
	"fmt"
	"os"
	"strings"
	"testing"

	"siltstep/geojson"
	"siltstep/raster/rastertest"
)

const (
	dictionaryBegin = "<!-- dictionary: written by scripts/fixtures -->\n"
	dictionaryEnd   = "<!-- end of dictionary -->\n"
)

// markdown writes the tables a person meets in files as Markdown.
func markdown() string {
	var b strings.Builder
	layers := append(geojson.Schema(), RankingTable(), ProfileTable(), SectionTable(), summaryTable(), SeriesTable(), ScenarioTable(), DamSectionTable(), ChangeTable(), EditTable())
	for _, l := range layers {
		fmt.Fprintf(&b, "\n<details><summary><b>%s</b>: %s</summary>\n\n| field | unit | meaning | empty means |\n|---|---|---|---|\n", l.Name, l.Meaning)
		for _, f := range l.Fields {
			fmt.Fprintf(&b, "| `%s` | %s | %s | %s |\n", f.Name, f.Unit, f.Meaning, f.Null)
		}
		b.WriteString("\n</details>\n")
	}
	return b.String() + "\n"
}

// The README holds the dictionary of the schema; -update writes it there.
func TestReadmeHoldsDictionary(t *testing.T) {
	const path = "../../../README.md"
	text, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	head, rest, ok := strings.Cut(string(text), dictionaryBegin)
	_, tail, ok2 := strings.Cut(rest, dictionaryEnd)
	if !ok || !ok2 {
		t.Fatalf("%s: no place for the dictionary between its two marks", path)
	}
	rastertest.Golden(t, path, head+dictionaryBegin+markdown()+dictionaryEnd+tail)
}
