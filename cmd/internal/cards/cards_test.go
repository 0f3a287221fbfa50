package cards

import (
	"bytes"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"
	"time"

	"siltstep/cmd/internal/facts"
	"siltstep/cmd/internal/units"
)

// written returns the PDF of a plan.
func written(t *testing.T, f *facts.Folder, opt Options) []byte {
	t.Helper()
	var b bytes.Buffer
	if err := Write(&b, f, opt); err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}

// pagesOf returns the text of each page, as another program reads it, with single spaces.
func pagesOf(t *testing.T, pdf []byte) []string {
	t.Helper()
	tool, err := exec.LookPath("pdftotext")
	if err != nil {
		t.Skip("pdftotext (package poppler-utils) is not installed: THE TEXT OF THE CARDS IS NOT CHECKED")
	}
	path := filepath.Join(t.TempDir(), "cards.pdf")
	if err := os.WriteFile(path, pdf, 0o600); err != nil {
		t.Fatal(err)
	}
	out, err := exec.Command(tool, path, "-").Output()
	if err != nil {
		t.Fatal(err)
	}
	pages := strings.Split(strings.TrimSuffix(string(out), "\f"), "\f")
	for i, text := range pages {
		pages[i] = strings.Join(strings.Fields(text), " ")
	}
	return pages
}

var pageObject = regexp.MustCompile(`/Type /Page\b`)

func TestOneCardADamInBuildOrder(t *testing.T) {
	f := drawnPlan(3, 4)
	pdf := written(t, f, Options{Title: "Thornwick Draw"})
	pages := pagesOf(t, pdf)
	if n := len(pageObject.FindAll(pdf, -1)); n != len(pages) {
		t.Errorf("%d page objects, %d pages of text", n, len(pages))
	}
	var ids []string
	cardName := regexp.MustCompile(`· card (D\d\d-\d\d), `)
	for _, text := range pages {
		if found := cardName.FindStringSubmatch(text); found != nil {
			ids = append(ids, found[1])
			if !strings.HasPrefix(text, found[1]+" ") {
				t.Errorf("card of %s does not begin with its id: %.60s", found[1], text)
			}
		} else if len(ids) > 0 {
			t.Errorf("a page without a dam among the cards: %.80s", text)
		}
	}
	// drawnPlan builds the last drainage first.
	want := strings.Fields("D03-01 D03-02 D03-03 D03-04 D02-01 D02-02 D02-03 D02-04 D01-01 D01-02 D01-03 D01-04")
	if !slices.Equal(ids, want) {
		t.Errorf("cards %v, want %v", ids, want)
	}
	for _, words := range []string{"Read this first", "This is a planning aid, not an engineered design.", "Thornwick Draw", "12 dams", "3 series", "73.21 m³ in place", "125.87 t to order", "treated channel length 123.5 m", "WGS 84 / UTM zone 13N", "Safety"} {
		if !strings.Contains(pages[0], words) {
			t.Errorf("cover has no %q", words)
		}
	}
}

// number writes a figure as the cards round it, in metres and the like.
func number(x facts.Num, decimals int) string {
	return strconv.FormatFloat(float64(x), 'f', decimals, 64)
}

func TestFiguresAreThePlans(t *testing.T) {
	f := drawnPlan(2, 3)
	pages := pagesOf(t, written(t, f, Options{Paper: "letter"}))
	for _, s := range f.Sites {
		i := slices.IndexFunc(pages, func(text string) bool { return strings.HasPrefix(text, s.ID+" ") })
		if i < 0 {
			t.Fatalf("no page of %s", s.ID)
		}
		for _, words := range []string{
			"Latitude " + number(s.Lat, 6) + " Longitude " + number(s.Lon, 6), "Grid " + number(s.XM, 2) + " E " + number(s.YM, 2) + " N",
			"geo:" + number(s.Lat, 6) + "," + number(s.Lon, 6),
			number(s.EffectiveHeightM, 2) + " m from bed to notch sill", number(s.NotchWidthM, 2) + " m wide at its sill, " + number(s.NotchDepthM, 2) + " m deep, trapezoidal, sides 1:1",
			"bed " + number(s.BedM, 2) + ", sill " + number(s.NotchSillM, 2) + ", top " + number(s.DamTopM, 2) + " m", number(s.DamTopM-s.BedM, 2) + " m above the bed",
			number(s.CrestLengthM, 2) + " m long, " + number(s.CrestWidthM, 2) + " m thick", number(s.KeyBedM, 2) + " m into the bed, " + number(s.KeyBankM, 2) + " m into each bank",
			number(s.ApronLengthM, 2) + " m long below", "D50 " + number(s.StoneD50M, 3) + " m", number(s.RockM3, 2) + " m³ in place; " + number(s.RockT, 2) + " t to order",
			"bed " + number(s.BedWidthM, 2) + " m wide, " + number(s.BankToBankM, 2) + " m bank to bank", "lower bank " + number(s.BankHeightM, 2) + " m high",
			number(s.PeakM3s, 3) + " m³/s (10-year storm of 24 h)", "0.193 m³/s with 0.10 m freeboard", number(s.CatchmentHa, 2) + " ha; bed slope 6.0 %", "17 for the whole series",
			"1.5:1 upstream, 2.5:1 downstream", "Measure both banks: the wings stand 0.71 m above the bed.", "The toe may wash out.", "medium",
			"Second thing to heed.", "Date", "Names", "Photo no.", "Moved or changed because",
		} {
			if !strings.Contains(pages[i], words) {
				t.Errorf("%s: no %q in %s", s.ID, words, pages[i])
			}
		}
	}
}

func TestUSCardHasOneSystem(t *testing.T) {
	f := drawnPlan(1, 2)
	pages := pagesOf(t, written(t, f, Options{System: units.US}))
	card := pages[len(pages)-1]
	if found := regexp.MustCompile(`\d (m|m³|m³/s|ha|t)( |\.|,|;|$)`).FindString(card); found != "" {
		t.Errorf("metric %q on a US card: %s", found, card)
	}
	for _, words := range []string{
		"26.2 ft upstream of D01-01, level distance; 1.57 ft higher.", // 8 / 0.3048 = 26.247, 0.48 / 0.3048 = 1.575
		"D50 4.4 in", // 0.113 / 0.0254 = 4.449
		"4.90 yd³ in place; 8.18 US tons (2,000 lb) to order", // 3.75 / 0.764555 = 4.9048, 7.42 / 0.907185 = 8.179
		"Drainage area 4.29 ac",                               // 1.7342 · 10,000 / 4046.856 = 4.285
		"6.61 cfs (10-year storm of 24 h)",                    // 0.1872 / 0.0283168 = 6.611
		"A confluence lies 16.7 ft away.",                     // 5.1 / 0.3048 = 16.73
	} {
		if !strings.Contains(card, words) {
			t.Errorf("no %q in %s", words, card)
		}
	}
}

func TestSameBytes(t *testing.T) {
	f := drawnPlan(2, 5)
	first := written(t, f, Options{})
	for range 3 {
		if !bytes.Equal(first, written(t, f, Options{})) {
			t.Fatal("the same plan gave other bytes")
		}
	}
}

func TestDocumentIsSmall(t *testing.T) {
	const most = 200 << 10 // fonts and all, so that a card can be sent by phone
	if n := len(written(t, drawnPlan(1, 1), Options{})); n > most {
		t.Errorf("cover and one card take %d bytes", n)
	} else {
		t.Logf("cover and one card: %d bytes", n)
	}
}

func TestEmptyPlan(t *testing.T) {
	f := drawnPlan(2, 0)
	f.Series = nil
	f.Totals.EligibleM = unknown
	pages := pagesOf(t, written(t, f, Options{}))
	if len(pages) != 1 || !strings.Contains(pages[0], "This plan has no dams, so there are no cards.") || !strings.Contains(pages[0], "screened only") {
		t.Errorf("%d pages: %s", len(pages), pages)
	}
	if f = new(facts.Folder); len(pageObject.FindAll(written(t, f, Options{}), -1)) != 1 {
		t.Error("a plan of nothing has no page")
	}
}

func TestUnknownIsSaid(t *testing.T) {
	f := drawnPlan(1, 1)
	s := &f.Sites[0]
	s.NotchWidthM, s.NotchDepthM, s.DamTopM, s.PeakM3s, s.StoneD50M, s.Lat, s.Lon = unknown, unknown, unknown, unknown, unknown, unknown, unknown
	f.Designs[0] = facts.Design{ID: s.ID, Missing: "Notch: give rain.table.", CapacityM3s: unknown, FreeboardM: unknown, NotchSideSlope: unknown}
	f.Sections, f.Profiles = nil, nil
	pages := pagesOf(t, written(t, f, Options{}))
	card := pages[len(pages)-1]
	for _, words := range []string{"Latitude not known", "Notch not known wide", "D50 not known", "Storm peak not known", "Not known yet: Notch: give rain.table.", "measure it at the axis", "DO NOT BUILD AS DESIGNED"} {
		if !strings.Contains(card, words) {
			t.Errorf("no %q in %s", words, card)
		}
	}
	if strings.Contains(card, "NaN") || strings.Contains(card, "geo:") {
		t.Errorf("a card with NaN, or a code for nowhere: %s", card)
	}
}

func TestPaper(t *testing.T) {
	if err := Write(new(bytes.Buffer), drawnPlan(1, 1), Options{Paper: "a3"}); err == nil || !strings.Contains(err.Error(), "take a4 or letter") {
		t.Errorf("a3: %v", err)
	}
	for paper, box := range map[string]string{"a4": "/MediaBox [0 0 595.28 841.89]", "letter": "/MediaBox [0 0 612.00 792.00]"} {
		if !bytes.Contains(written(t, drawnPlan(1, 1), Options{Paper: paper}), []byte(box)) {
			t.Errorf("%s: no %s", paper, box)
		}
	}
}

func TestTwoThousandDams(t *testing.T) {
	if testing.Short() {
		t.Skip("2,000 cards take seconds")
	}
	const most = 60 * time.Second // a stage of a plan may take so long on a small machine
	const mostBytes = 30 << 20
	begun := time.Now()
	pdf := written(t, drawnPlan(200, 10), Options{})
	if took := time.Since(begun); took > most {
		t.Errorf("2,000 cards took %s", took)
	}
	t.Logf("2,000 cards: %s, %d kB", time.Since(begun), len(pdf)/1000)
	if n := len(pageObject.FindAll(pdf, -1)); n < 2000 || len(pdf) > mostBytes {
		t.Errorf("%d pages, %d bytes", n, len(pdf))
	}
}
