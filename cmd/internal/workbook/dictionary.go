package workbook

import "siltstep/geojson"

// dictionarySheet explains every column of every sheet, its own too.
func dictionarySheet(sheets []*sheet) *sheet {
	s := &sheet{name: "Fields", fields: []geojson.Field{
		{Name: "sheet", Type: geojson.Text, Meaning: "sheet of this workbook"},
		{Name: "column", Type: geojson.Text, Meaning: "name in the first row of that sheet"},
		{Name: "unit", Type: geojson.Text, Meaning: "unit of its numbers; 1 for a ratio or a score", Null: "texts, counts and flags have none"},
		{Name: "meaning", Type: geojson.Text, Meaning: "what it holds"},
		{Name: "empty_means", Type: geojson.Text, Meaning: "what an empty cell says", Null: "it always has a value, or an empty text is one"},
	}}
	for _, one := range append(sheets, s) {
		for _, f := range one.fields {
			s.rows = append(s.rows, []any{one.name, f.Name, textOrNil(f.Unit), f.Meaning, textOrNil(f.Null)})
		}
	}
	return s
}

func textOrNil(s string) any {
	if s == "" {
		return nil
	}
	return s
}
