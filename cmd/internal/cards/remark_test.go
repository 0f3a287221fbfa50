package cards

import (
	"fmt"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"siltstep/cmd/internal/facts"

	"pgregory.net/rapid"
)

func TestSplit(t *testing.T) {
	for _, row := range []struct {
		name, joined string
		want         []string
	}{
		{"nothing", "", nil},
		{"one", "Look below", []string{"Look below."}},
		{"two", "Look below; Look above.", []string{"Look below.", "Look above."}},
		{"a sentence with a semicolon", "Dig; then fill; Rest", []string{"Dig; then fill.", "Rest."}},
	} {
		t.Run(row.name, func(t *testing.T) {
			if got := split(row.joined); !slices.Equal(got, row.want) {
				t.Errorf("%q, want %q", got, row.want)
			}
		})
	}
}

// longPlan has one dam with so many cautions that no letters of 8 points hold them.
func longPlan(cautions int) *facts.Folder {
	f := drawnPlan(1, 2)
	var all []string
	for i := range cautions {
		all = append(all, fmt.Sprintf("Caution no. %d: %s", i+1, strings.TrimSpace(strings.Repeat("water goes round the end where the bank is low ", 3))))
	}
	f.Sites[1].Cautions = strings.Join(all, "; ")
	return f
}

func TestLongCautionsStayOnThePage(t *testing.T) {
	for _, paper := range []string{"a4", "letter"} {
		for _, cautions := range []int{8, 12, 60} {
			t.Run(fmt.Sprint(paper, cautions), func(t *testing.T) {
				pages := pagesOf(t, written(t, longPlan(cautions), Options{Paper: paper}))
				card := pages[len(pages)-1]
				if !strings.HasPrefix(card, "D01-02 ") || !strings.Contains(card, "As built: D01-02") {
					t.Fatalf("the last page is no card of D01-02: %s", card)
				}
				whole := strings.Count(card, "bank is low.")
				// Two cautions end there, one check and one weakness.
				left := 0
				if found := regexp.MustCompile(`(\d+) remarks? cut or left out: read (?:them|it) in plan.json, sites, checks and weaknesses of D01-02`).FindStringSubmatch(card); found != nil {
					left, _ = strconv.Atoi(found[1])
				}
				others := strings.Count(card, "Measure both banks: the wings stand 0.71 m above the bed.") + strings.Count(card, "The toe may wash out.")
				if whole+others+left != cautions+2 {
					t.Errorf("%d cautions and %d others whole, %d said to be left, of %d: %s", whole, others, left, cautions+2, card)
				}
				if cautions == 60 && left == 0 {
					t.Error("60 cautions cannot fit, and none is said to be left")
				}
				if others != 2 {
					t.Errorf("what to check and what may fail was left out for cautions: %s", card)
				}
			})
		}
	}
}

func TestNoLetterBelowEightPoints(t *testing.T) {
	d, err := newDocument(longPlan(30), Options{})
	if err != nil {
		t.Fatal(err)
	}
	d.pdf.SetCompression(false)
	d.cover()
	for i := range d.runs[0].dams {
		d.card(d.runs[0], i, i+1)
	}
	var b strings.Builder
	if err := d.pdf.Output(&b); err != nil {
		t.Fatal(err)
	}
	sizes := regexp.MustCompile(`/F\w+ ([\d.]+) Tf`).FindAllStringSubmatch(b.String(), -1)
	if len(sizes) < 10 {
		t.Fatalf("%d sizes of letters found", len(sizes))
	}
	for _, one := range sizes {
		if size, err := strconv.ParseFloat(one[1], 64); err != nil || size < 8 {
			t.Errorf("letters of %s points", one[1])
		}
	}
}

func TestRemarksFitTheirColumns(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		var lines []remarkLine
		for i := range rapid.IntRange(1, 25).Draw(t, "remarks") {
			head := i%4 == 0
			for k := range rapid.IntRange(1, 9).Draw(t, "lines") {
				lines = append(lines, remarkLine{"words", head, i, k == 0})
				if head {
					break
				}
			}
		}
		per := rapid.IntRange(5, 60).Draw(t, "lines a column")
		kept := cut(lines, per, "D01-02", 0)
		left := columnBreak(kept, per)
		if left > per || len(kept)-left > per {
			t.Fatalf("%d lines: %d and %d in columns of %d", len(lines), left, len(kept)-left, per)
		}
		if fits(lines, per) != (len(kept) == len(lines) && kept[len(kept)-1] == lines[len(lines)-1]) {
			t.Fatalf("%d of %d lines kept in columns of %d", len(kept), len(lines), per)
		}
	})
}
