package field

import (
	"encoding/csv"
	"fmt"
	"io"
	"strconv"

	"siltstep/cmd/internal/facts"
	"siltstep/geojson"
)

// Tables describes the columns of every list made here. The caller may change what it gets.
func Tables() []geojson.Layer { return []geojson.Layer{SitesTable(), StakeoutTable()} }

// writeTable writes a header and rows as CSV: point as decimal sign, LF, empty for what is not known.
func writeTable(w io.Writer, t geojson.Layer, rows [][]any) error {
	out := csv.NewWriter(w)
	line := make([]string, len(t.Fields))
	for i, f := range t.Fields {
		line[i] = f.Name
	}
	out.Write(line) // errors stay in the writer until Error
	for _, values := range rows {
		if len(values) != len(t.Fields) {
			panic(fmt.Sprintf("field: %d values for %d columns of %s", len(values), len(t.Fields), t.Name))
		}
		for i, f := range t.Fields {
			line[i] = cell(f, values[i])
		}
		out.Write(line)
	}
	out.Flush()
	if err := out.Error(); err != nil {
		return fmt.Errorf("%s: %w", t.Name, err)
	}
	return nil
}

// cell returns a value as its column says; a value of another type panics.
func cell(f geojson.Field, value any) string {
	switch v := value.(type) {
	case facts.Num:
		if f.Type == geojson.Real {
			return string(geojson.AppendReal(nil, float64(v), f.Decimals, ""))
		}
	case int:
		if f.Type == geojson.Int {
			return strconv.Itoa(v)
		}
	case string:
		if f.Type == geojson.Text {
			return v
		}
	case nil:
		return ""
	}
	panic(fmt.Sprintf("field: column %s is %s, value %v is %T", f.Name, f.Type, value, value))
}

// countOrNull returns nil for 0, which stands for none.
func countOrNull(n int) any {
	if n == 0 {
		return nil
	}
	return n
}
