package report

import (
	"encoding/csv"
	"fmt"
	"io"
	"strconv"

	"siltstep/geojson"
)

// writeTable writes a header and rows as CSV: point as decimal sign, LF, empty for unknown.
func writeTable(w io.Writer, fields []geojson.Field, rows [][]any) error {
	out := csv.NewWriter(w)
	header := make([]string, len(fields))
	for i, f := range fields {
		header[i] = f.Name
	}
	out.Write(header) // errors stay in the writer until Error
	line := make([]string, len(fields))
	for _, values := range rows {
		if len(values) != len(fields) {
			panic(fmt.Sprintf("report: %d values for %d columns", len(values), len(fields)))
		}
		for i, f := range fields {
			line[i] = cell(f, values[i])
		}
		out.Write(line)
	}
	out.Flush()
	return out.Error()
}

// cell returns a value as its column says; "" for nil and NaN. A value of another type
// than its column panics.
func cell(f geojson.Field, value any) string {
	switch v := value.(type) {
	case nil:
		return ""
	case float64:
		if f.Type == geojson.Real {
			return string(geojson.AppendReal(nil, v, f.Decimals, ""))
		}
	case int:
		if f.Type == geojson.Int {
			return strconv.Itoa(v)
		}
	case bool:
		if f.Type == geojson.Bool {
			return strconv.FormatBool(v)
		}
	case string:
		if f.Type == geojson.Text {
			return v
		}
	}
	panic(fmt.Sprintf("report: column %s is %s, value %v is %T", f.Name, f.Type, value, value))
}
