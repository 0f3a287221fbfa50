package report

import (
	"math"
	"slices"
	"strings"
	"testing"

	"siltstep/geojson"
	"siltstep/hydro"
	"siltstep/hydro/checkdam"
)

// column returns the values of a column, row by row, by their id.
func column(t *testing.T, l geojson.Layer, rows [][]any, name string) map[string][]float64 {
	t.Helper()
	at := slices.IndexFunc(l.Fields, func(f geojson.Field) bool { return f.Name == name })
	if at < 0 {
		t.Fatalf("%s has no column %s", l.Name, name)
	}
	out := map[string][]float64{}
	for _, row := range rows {
		if len(row) != len(l.Fields) {
			t.Fatalf("%s: %d values for %d columns", l.Name, len(row), len(l.Fields))
		}
		for i, f := range l.Fields {
			cell(f, row[i]) // panics on a value of another type than its column
		}
		v, ok := row[at].(float64)
		if !ok {
			v = math.NaN()
		}
		id := row[0].(string)
		out[id] = append(out[id], v)
	}
	return out
}

// eroded is small with yields and densities, and a third section, at 10 m, that is resolved: it stands for 2.5 m more.
func eroded() *hydro.Plan {
	p := small()
	p.Config.Gully = hydro.GullyConfig{FormationYears: 20, BankTPerM3: 1.4, SedimentTPerM3: 1.3}
	p.Config.Works.Yield = checkdam.Yield{LowM3PerHa: 0.5, HighM3PerHa: 3}
	p.Config.Sections.SpacingM = 5
	p.Sections[0][2].Resolved, p.Sections[0][2].DepthM = true, 1.4
	return p
}

func TestLoadsGradientsAndFillingAsRows(t *testing.T) {
	p := eroded()
	l := p.GullyLoadOf(0)
	loads := func(name string) []float64 { return column(t, loadTable(), loadRows(p), name)["D01"] }
	for name, want := range map[string]float64{"voided_m": l.LengthM, "void_m3": l.VoidM3, "mass_t": l.MassT, "year_t": l.YearT, "treated_m": l.TreatedM, "avoided_year_t": l.AvoidedYearT} {
		if got := loads(name); len(got) != 1 || got[0] != want || !(got[0] > 0) {
			t.Errorf("%s %v, want %g", name, got, want)
		}
	}
	if l.LengthM != 12.5 || l.TreatedM != 2.5 { // the lower dam stands at 10 m
		t.Errorf("load %+v", l)
	}
	if rows := loadRows(p); len(rows) != 1 || !strings.Contains(rows[0][len(rows[0])-1].(string), "never add") {
		t.Errorf("%d rows, one drainage is incised: %v", len(rows), rows)
	}
	// Two dams treat 24 m at 5 %: 1.2 m, all of it at the sills.
	for name, want := range map[string]float64{"length_m": 24, "drop_m": 1.2, "falls_m": 1.2, "gradient_before": 0.05, "gradient_after": 0} {
		rows := column(t, gradientTable(), gradientRows(p), name)
		if len(rows) != 2 || len(rows["D01-S1"]) != 1 || math.Abs(rows["D01-S1"][0]-want) > 1e-9 || rows["D01"][0] != rows["D01-S1"][0] {
			t.Errorf("%s %v, want %g", name, rows, want)
		}
	}
	filled := column(t, fillingTable(), fillingRows(p), "filled_high")["D01-S1"]
	if len(filled) != 5 || !slices.IsSorted(filled) || filled[4] != 1 {
		t.Errorf("filled %v", filled)
	}
	// The lower dam alone is designed; 2.9 ha yield √(0.5·3) m³/ha, of which half is kept, at 1.3 t/m³.
	if got, want := column(t, fillingTable(), fillingRows(p), "kept_t")["D01"][0], 2.9*math.Sqrt(1.5)*0.5*1.3; math.Abs(got-want) > 1e-9 {
		t.Errorf("kept %g t in a year, want %g", got, want)
	}
	p.Layouts, p.Designs = nil, nil
	if row := loadRows(p)[0]; !math.IsNaN(row[11].(float64)) || gradientRows(p) != nil || fillingRows(p) != nil || checkRows(p) != nil || weaknessRows(p) != nil {
		t.Errorf("screened: %v", row)
	}
}

func TestChecksAndWeaknessesAsRows(t *testing.T) {
	p := eroded()
	checks := column(t, checkTable(), checkRows(p), "number")
	if len(checks["D01-01"]) == 0 || len(checks["D01-02"]) == 0 {
		t.Errorf("checks %v", checks)
	}
	for id, margins := range column(t, weaknessTable(), weaknessRows(p), "margin") {
		if len(margins) == 0 || len(margins) > 3 || !slices.IsSorted(margins) {
			t.Errorf("%s: margins %v", id, margins)
		}
	}
}
