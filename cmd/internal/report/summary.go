package report

import (
	"fmt"
	"io"

	"siltstep/geojson"
	"siltstep/hydro"
)

// allDrainages is the id of the last row of summary.csv.
const allDrainages = "all"

// WriteSummary writes summary.csv: a row for each drainage, then one for all, whose sums
// are those of the plan. Error: w failed.
func WriteSummary(w io.Writer, p *hydro.Plan) error {
	var rows [][]any
	for i := range p.Network.Drainages {
		rows = append(rows, append(geojson.DrainageValues(p, i), seriesOf(p, i), nil))
	}
	t := summaryTable()
	if err := writeTable(w, t.Fields, append(rows, allRow(t, p))); err != nil {
		return fmt.Errorf("summary.csv: %w", err)
	}
	return nil
}

// allRow sums what can be summed. Catchments nest and slopes do not add, so those stay empty.
func allRow(t geojson.Layer, p *hydro.Plan) []any {
	row := make([]any, len(t.Fields))
	for i, f := range t.Fields {
		switch f.Name {
		case "id":
			row[i] = allDrainages
		case "length_m":
			row[i] = p.Totals.ChannelM
		case "truncated":
			row[i] = p.Totals.Truncated > 0
		case "headcuts":
			row[i] = headcutsOf(p)
		case "treated_definition":
			row[i] = geojson.TreatedMeaning
		}
		if len(p.Layouts) == 0 {
			continue
		}
		switch f.Name {
		case "eligible_m":
			row[i] = p.Totals.EligibleM
		case "treated_m":
			row[i] = p.Totals.TreatedM
		case "dams":
			row[i] = p.Totals.Dams
		case "series":
			row[i] = p.Totals.Series
		}
		if p.Designs == nil {
			continue
		}
		switch f.Name {
		case "rock_t":
			row[i] = p.Totals.RockT
		case "pond_m3":
			row[i] = p.Totals.PondM3
		case "sediment_m3":
			row[i] = p.Totals.SedimentM3
		case "cost":
			row[i] = p.Totals.Cost
		}
	}
	return row
}

// headcutsOf returns the number of all headcuts, nil where erosion was not judged.
func headcutsOf(p *hydro.Plan) any {
	if len(p.Erosion) == 0 {
		return nil
	}
	n := 0
	for _, j := range p.Erosion {
		n += geojson.CountHeadcuts(j.Headcuts)
	}
	return n
}
