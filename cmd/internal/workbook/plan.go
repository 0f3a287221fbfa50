package workbook

import (
	"fmt"

	"siltstep/cmd/internal/facts"
	"siltstep/cmd/internal/report"
	"siltstep/geojson"
)

// tableFields returns the columns of a table of the plan.
func tableFields(name string) []geojson.Field {
	for _, t := range report.Tables() {
		if t.Name == name {
			return t.Fields
		}
	}
	panic("workbook: no table " + name)
}

// sheetOf returns a table of the plan as a sheet, with the columns that are read back.
func sheetOf[T any](name, table string, rows []T) (*sheet, error) {
	s := &sheet{name: name, fields: known[T](tableFields(table))}
	list, err := records(rows)
	if err != nil {
		return nil, fmt.Errorf("table %s: %w", table, err)
	}
	for _, one := range list {
		row := make([]any, len(s.fields))
		for i, f := range s.fields {
			row[i] = value(table, f, one[f.Name])
		}
		s.rows = append(s.rows, row)
	}
	return s, nil
}

// damSheet returns the dams, with what more is known of their designs beside.
func damSheet(f *facts.Folder) (*sheet, error) {
	s, err := sheetOf("Dams", "sites", f.Sites)
	if err != nil {
		return nil, err
	}
	designs, err := sheetOf("Dams", "designs", f.Designs)
	if err != nil {
		return nil, err
	}
	var extra []int // columns of designs that the dams do not have
	taken := map[string]bool{}
	for _, field := range s.fields {
		taken[field.Name] = true
	}
	for i, field := range designs.fields {
		if !taken[field.Name] {
			extra = append(extra, i)
			if field.Null == "" {
				field.Null = "the plan holds no design of the dam"
			}
			s.fields = append(s.fields, field)
		}
	}
	of := map[string][]any{}
	id := designs.column("id") - 1
	for _, row := range designs.rows {
		of[row[id].(string)] = row
	}
	for k, site := range f.Sites {
		row := s.rows[k]
		for _, i := range extra {
			if design := of[site.ID]; design != nil {
				row = append(row, design[i])
			} else {
				row = append(row, nil)
			}
		}
		s.rows[k] = row
	}
	return s, nil
}

// cautionSheet returns what must be read first.
func cautionSheet(f *facts.Folder) *sheet {
	s := &sheet{name: "Cautions", fields: []geojson.Field{
		{Name: "kind", Type: geojson.Text, Meaning: "caution, decision about the data, definition, or where the numbers come from"},
		{Name: "text", Type: geojson.Text, Meaning: "one or two sentences"},
	}}
	add := func(kind, text string) {
		if text != "" {
			s.rows = append(s.rows, []any{kind, text})
		}
	}
	for _, c := range f.Cautions {
		add("caution", c.Text)
	}
	for _, d := range f.Decisions {
		add("decision", d.Text)
	}
	if f.Totals.TreatedDefinition != "" {
		add("definition", "treated_m is "+f.Totals.TreatedDefinition+".")
	}
	if f.Grid.CRS != "" {
		add("definition", "x_m and y_m are in the coordinate system "+f.Grid.CRS+"; lon and lat are degrees, WGS 84.")
	}
	add("source", fmt.Sprintf("Made by %s %s from plan.json of the same folder. Columns are explained in the sheet Fields; an empty cell is not known.", f.Program.Name, f.Program.Version))
	return s
}
