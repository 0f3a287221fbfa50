package report

import (
	"bytes"
	"fmt"
	"io"
	"math"
	"slices"
	"strings"
	"text/tabwriter"

	"siltstep/cmd/internal/units"
	"siltstep/geojson"
	"siltstep/hydro"
)

// ScenarioTable describes the columns of scenarios.csv and the table of scenarios in plan.json.
func ScenarioTable() geojson.Layer {
	fields := []geojson.Field{
		{Name: "name", Type: geojson.Text, Meaning: "none where nothing is built, else what was sought, as dams.objective has it, or plain-march: dams of one height toe to crest"},
		{Name: "series", Type: geojson.Int, Meaning: "number of series", Null: "nothing is built, or they were not counted"},
		{Name: "eligible_m", Type: geojson.Real, Unit: "m", Decimals: 2, Meaning: "length of all eligible reaches"},
		{Name: "treated_m", Type: geojson.Real, Unit: "m", Decimals: 2, Meaning: geojson.TreatedMeaning, Null: "it was not found"},
		{Name: "uncovered_m", Type: geojson.Real, Unit: "m", Decimals: 2, Meaning: "eligible ground that no dam covers; with dams, the upper end of each reach, too short for one, is not counted", Null: "it was not found"},
	}
	fields = append(fields, quantityFields()...)
	return table("scenarios", "ways to treat the same land, side by side, before any budget", append(fields,
		geojson.Field{Name: "note", Type: geojson.Text, Meaning: "what the numbers do not say", Null: "nothing more is to be said"}))
}

// scenarioRows returns the rows of ScenarioTable.
func scenarioRows(list []hydro.Scenario) (rows [][]any) {
	for _, s := range list {
		row := append([]any{s.Name, countOrNull(s.Series), s.EligibleM, s.TreatedM, s.UncoveredM}, quantityValues(s.Quantities)...)
		rows = append(rows, append(row, orNull(s.Note)))
	}
	return rows
}

// WriteScenarios writes scenarios.csv: a row for each way to treat the land. Error: w failed.
func WriteScenarios(w io.Writer, list []hydro.Scenario) error {
	if err := writeTable(w, ScenarioTable().Fields, scenarioRows(list)); err != nil {
		return fmt.Errorf("scenarios.csv: %w", err)
	}
	return nil
}

// writeScenarios writes scenarios side by side for a person, one a column, in the units of the system; nothing where there are
// none. What is known of none of them has no line; "–" stands where it is not known of one.
func writeScenarios(out *bytes.Buffer, list []hydro.Scenario, currency string, system units.System) {
	if len(list) == 0 {
		return
	}
	out.WriteString("\nScenarios\n")
	rows := tabwriter.NewWriter(out, 0, 0, 2, ' ', tabwriter.AlignRight)
	line := func(label string, text func(s *hydro.Scenario) string) {
		cells := make([]string, len(list))
		for i := range list {
			cells[i] = text(&list[i])
		}
		fmt.Fprintf(rows, "%s\t%s\t\n", label, strings.Join(cells, "\t"))
	}
	number := func(label string, decimals int, value func(s *hydro.Scenario) float64) {
		if !slices.ContainsFunc(list, func(s hydro.Scenario) bool { return s.Dams > 0 && !math.IsNaN(value(&s)) }) {
			return
		}
		line(label, func(s *hydro.Scenario) string {
			if x := value(s); !math.IsNaN(x) {
				return fmt.Sprintf("%.*f", decimals, x)
			}
			return "–"
		})
	}
	length, volume, mass := system.LengthScale(), system.VolumeScale(), system.MassScale()
	line("", func(s *hydro.Scenario) string { return s.Name })
	line("dams", func(s *hydro.Scenario) string { return fmt.Sprint(s.Dams) })
	line("series", func(s *hydro.Scenario) string {
		if s.Series == 0 && s.Dams > 0 {
			return "–"
		}
		return fmt.Sprint(s.Series)
	})
	number("treated "+length.Unit, lengthDecimals, func(s *hydro.Scenario) float64 { return length.Value(s.TreatedM) })
	number("eligible, not covered "+length.Unit, lengthDecimals, func(s *hydro.Scenario) float64 { return length.Value(s.UncoveredM) })
	number("rock to order "+mass.Unit, 1, func(s *hydro.Scenario) float64 { return mass.Value(s.RockT) })
	number("water held "+volume.Unit, 1, func(s *hydro.Scenario) float64 { return volume.Value(s.PondM3) })
	number("silt held "+volume.Unit, 1, func(s *hydro.Scenario) float64 { return volume.Value(s.SedimentM3) })
	number("silt for rock "+volume.Unit+"/"+mass.Unit, 2, func(s *hydro.Scenario) float64 { return volume.Value(s.SedimentM3) / mass.Value(s.RockT) })
	number("person-days", 1, func(s *hydro.Scenario) float64 { return s.PersonDays })
	number(strings.TrimSpace("cost "+currency), 0, func(s *hydro.Scenario) float64 { return s.Cost })
	rows.Flush()
	for i := range list {
		if s := &list[i]; s.Note != "" {
			paragraph(out, "  ", s.Name+": "+s.Note)
		}
	}
}
