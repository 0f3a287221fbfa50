package workbook

import (
	"bytes"
	"math"
	"slices"
	"strconv"
	"testing"

	"siltstep/cmd/internal/facts"

	"github.com/xuri/excelize/v2"
)

// invented is a plan of three dams on two drainages, whose rock and cost add up.
func invented() *facts.Folder {
	f := &facts.Folder{}
	f.Program = facts.Program{Name: "siltstep", Version: "0.1.0", Format: facts.Format, Command: "plan"}
	f.Cautions = []facts.Text{{Text: "This is a planning aid, not an engineered design."}}
	f.Settings = []facts.Setting{{Key: "dams.height", Value: "0.6 m"}}
	f.Sources = []facts.Source{{Key: "EPACheckDam", Text: "A sheet on check dams."}}
	f.Findings = []facts.Finding{{Rule: "no-rainfall", Text: "No rainfall was given.", Lon: facts.Num(math.NaN()), Lat: facts.Num(math.NaN())}}
	f.Scenarios = []facts.Scenario{{Name: "none"}}
	for i, rockT := range []facts.Num{4.25, 6.5, 3.1} {
		drainage := []string{"D01", "D01", "D02"}[i]
		f.Sites = append(f.Sites, facts.Site{ID: drainage + "-0" + strconv.Itoa(1+i%2), Drainage: drainage, Series: 1, Number: 1 + i%2, StationM: facts.Num(10 * i), EffectiveHeightM: 0.4,
			RockM3: rockT / 2, RockT: rockT, PondM3: 1.5, SedimentM3: 1.5, PersonDays: 2, Cost: 100, Confidence: "high"})
	}
	f.Totals.Quantities = facts.Quantities{Dams: 3, RockM3: 6.925, RockT: 13.85, PondM3: 4.5, SedimentLowM3: 4, SedimentM3: 4.5, SedimentHighM3: 5, PersonDays: 6, Cost: 300}
	f.Drainages = []facts.Drainage{
		{ID: "D01", Dams: 2, RockT: 10.75, PondM3: 3, SedimentM3: 3, Cost: 200, Series: 1},
		{ID: "D02", Dams: 1, RockT: 3.1, PondM3: 1.5, SedimentM3: 1.5, Cost: 100, Series: 1},
	}
	f.Series = []facts.Series{{ID: "D01-S1", Drainage: "D01", Number: 1, DamIDs: "D01-01 D01-02"}, {ID: "D02-S1", Drainage: "D02", Number: 1, DamIDs: "D02-01"}}
	return f
}

// opened is the workbook of a plan, read back.
func opened(t *testing.T, f *facts.Folder) *excelize.File {
	t.Helper()
	var b bytes.Buffer
	if err := Write(&b, f); err != nil {
		t.Fatal(err)
	}
	book, err := excelize.OpenReader(&b)
	if err != nil {
		t.Fatal(err)
	}
	return book
}

func TestTheSameTwice(t *testing.T) {
	var first bytes.Buffer
	if err := Write(&first, invented()); err != nil {
		t.Fatal(err)
	}
	for range 4 {
		var again bytes.Buffer
		if err := Write(&again, invented()); err != nil || !bytes.Equal(first.Bytes(), again.Bytes()) {
			t.Fatalf("another run differs (%v)", err)
		}
	}
}

func TestEveryColumnIsExplained(t *testing.T) {
	book := opened(t, invented())
	rows, err := book.GetRows("Fields")
	if err != nil {
		t.Fatal(err)
	}
	explained := map[string]bool{}
	for _, r := range rows[1:] {
		explained[r[0]+"."+r[1]] = len(r) > 3 && r[3] != ""
	}
	if first := book.GetSheetList()[0]; first != "Cautions" {
		t.Errorf("the first sheet is %s", first)
	}
	for _, name := range book.GetSheetList() {
		rows, err := book.GetRows(name)
		if err != nil || len(rows) < 2 {
			t.Fatalf("%s: %d rows, %v", name, len(rows), err)
		}
		for _, column := range rows[0] {
			if !explained[name+"."+column] {
				t.Errorf("%s.%s is not explained", name, column)
			}
		}
	}
}

// Reckoned anew every formula gives what the file holds; the sums are those of the plan, and a dam that is changed shows.
func TestSumsAreLive(t *testing.T) {
	book := opened(t, invented())
	raw := excelize.Options{RawCellValue: true}
	rows, err := book.GetRows("Quantities", raw)
	if err != nil {
		t.Fatal(err)
	}
	formulas := 0
	for r := range rows {
		for c := range rows[0] {
			cell, _ := excelize.CoordinatesToCellName(c+1, r+1)
			if text, _ := book.GetCellFormula("Quantities", cell); text == "" {
				continue
			}
			formulas++
			got, err := book.CalcCellValue("Quantities", cell, raw)
			have, _ := book.GetCellValue("Quantities", cell, raw)
			u, e1 := strconv.ParseFloat(got, 64)
			v, e2 := strconv.ParseFloat(have, 64)
			if err != nil || got != have && (e1 != nil || e2 != nil || math.Abs(u-v) > 1e-9) {
				t.Errorf("%s: reckoned %q, stored %q (%v)", cell, got, have, err)
			}
		}
	}
	last := rows[len(rows)-1]
	at := func(column string) string { return last[slices.Index(rows[0], column)] }
	if formulas < 10 || at("rock_t") != "13.85" || at("plan_rock_t") != "13.85" || at("check") != "agrees" {
		t.Fatalf("%d formulas; the plan as a whole is %v", formulas, last)
	}
	dams, err := book.GetRows("Dams")
	if err != nil {
		t.Fatal(err)
	}
	rock, _ := excelize.CoordinatesToCellName(slices.Index(dams[0], "rock_t")+1, 2)
	check, _ := excelize.CoordinatesToCellName(slices.Index(rows[0], "check")+1, len(rows))
	if err := book.SetCellValue("Dams", rock, 99.0); err != nil {
		t.Fatal(err)
	}
	if got, err := book.CalcCellValue("Quantities", check); err != nil || got != "differs" {
		t.Errorf("with another dam the check reads %q (%v)", got, err)
	}
}
