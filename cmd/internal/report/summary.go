package report

import (
	"fmt"
	"io"
	"slices"

	"siltstep/geojson"
	"siltstep/hydro"
)

// allDrainages is the id of the last row of summary.csv.
const allDrainages = "all"

// WriteSummary writes summary.csv: a row for each drainage, then one for all. What dams take and give is rounded dam by dam, so that
// each row is the sum of its dams and the last the sum of the rows, to the last digit. Error: w failed.
func WriteSummary(w io.Writer, p *hydro.Plan) error {
	t := summaryTable()
	var rows [][]any
	for i := range p.Network.Drainages {
		named := map[string]any{"series": seriesOf(p, i), "unbuildable": unbuildableOf(p, i)}
		for k, v := range geojson.DrainageValues(p, i) {
			named[geojson.DrainagesLayer().Fields[k].Name] = v
		}
		if i < len(p.Designs) {
			nameQuantities(named, hydro.QuantitiesOf(p.Designs[i]))
		}
		rows = append(rows, inColumns(t, named))
	}
	if err := writeTable(w, t.Fields, append(rows, allRow(t, p))); err != nil {
		return fmt.Errorf("summary.csv: %w", err)
	}
	return nil
}

// withQuantities adds to columns of drainages those of what dams take and give that are not among them.
func withQuantities(fields []geojson.Field) []geojson.Field {
	for _, f := range quantityFields() {
		if slices.ContainsFunc(fields, func(had geojson.Field) bool { return had.Name == f.Name }) {
			continue
		}
		if f.Null == "" {
			f.Null = noSiting
		} else {
			f.Null = noSiting + "; or " + f.Null
		}
		fields = append(fields, f)
	}
	return fields
}

// nameQuantities sets what dams take and give by column.
func nameQuantities(named map[string]any, q hydro.Quantities) {
	values := quantityValues(q)
	for k, f := range quantityFields() {
		named[f.Name] = values[k]
	}
}

// inColumns returns values in the order of a table; nil where there is none.
func inColumns(t geojson.Layer, named map[string]any) []any {
	row := make([]any, len(t.Fields))
	for i, f := range t.Fields {
		row[i] = named[f.Name]
	}
	return row
}

// allRow sums what can be summed. Catchments nest and slopes do not add, so those stay empty.
func allRow(t geojson.Layer, p *hydro.Plan) []any {
	sums := p.Totals
	named := map[string]any{"id": allDrainages, "length_m": sums.ChannelM, "truncated": sums.Truncated > 0, "headcuts": headcutsOf(p), "treated_definition": geojson.TreatedMeaning}
	if p.Layouts != nil {
		named["eligible_m"], named["treated_m"], named["dams"], named["series"] = sums.EligibleM, sums.TreatedM, sums.Dams, sums.Series
		named["unbuildable"] = len(sumDesigns(p).unbuildable)
	}
	if p.Designs != nil {
		nameQuantities(named, hydro.QuantitiesOf(slices.Concat(p.Designs...)))
	}
	return inColumns(t, named)
}

// unbuildableOf returns the number of dams of a drainage that must not be built as designed, nil where no sites were looked for.
func unbuildableOf(p *hydro.Plan, i int) any {
	if i >= len(p.Layouts) {
		return nil
	}
	n := 0
	for k := range p.Layouts[i].Sites {
		if d, ok := geojson.DesignOf(p, i, k); ok && d.Dam != nil && !d.Dam.Buildable {
			n++
		}
	}
	return n
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
