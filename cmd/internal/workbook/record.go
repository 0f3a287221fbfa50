package workbook

import (
	"encoding/json"
	"fmt"

	"siltstep/geojson"
)

// A record is a row of a table of the plan by column.
type record map[string]any

// records turns rows of the plan into records by the names that they have in plan.json.
func records[T any](rows []T) ([]record, error) {
	text, err := json.Marshal(rows)
	if err != nil {
		return nil, err
	}
	var list []record
	if err := json.Unmarshal(text, &list); err != nil {
		return nil, err
	}
	return list, nil
}

// known leaves those of the fields that a row of type T has.
func known[T any](fields []geojson.Field) (kept []geojson.Field) {
	var empty [1]T
	list, err := records(empty[:])
	if err != nil {
		panic(fmt.Sprintf("workbook: a row of %T: %v", empty[0], err))
	}
	for _, f := range fields {
		if _, ok := list[0][f.Name]; ok {
			kept = append(kept, f)
		}
	}
	return kept
}

// noneWhenZero lists counts that plan.json leaves null where there is none, and that are read back as 0.
var noneWhenZero = map[string]bool{"series.build_order": true, "scenarios.series": true}

// value returns what a cell holds: nil where the value is not known, else a number, a text or a flag.
func value(table string, f geojson.Field, raw any) any {
	switch v := raw.(type) {
	case float64:
		if f.Type == geojson.Int {
			if v == 0 && noneWhenZero[table+"."+f.Name] {
				return nil
			}
			return int(v)
		}
	case string:
		if v == "" {
			return nil
		}
	}
	return raw
}
