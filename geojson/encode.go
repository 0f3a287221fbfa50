package geojson

import (
	"bufio"
	"encoding/json"
	"fmt"
	"io"
	"math"
	"strconv"
	"unicode/utf8"

	"github.com/paulmach/orb"
)

// DegreeDecimals is how many decimals a longitude or latitude carries: 1e-7 degrees are
// at most 0.011 m on the ground.
const DegreeDecimals = 7

// Feature is one shape with its property values, in the order of the layer's fields. A
// value is a float64, int, string or bool as its field says, or nil for null.
type Feature struct {
	Geometry orb.Geometry // Point, LineString, Polygon or MultiPolygon in degrees, longitude first
	Values   []any
}

// Collection is the content of a layer.
type Collection struct {
	Layer    Layer
	Features []Feature
}

// Write writes a collection as RFC 7946 GeoJSON: properties in the order of the schema,
// fixed decimals, one feature a line, LF. NaN and infinite values are written as null.
// Outer rings must already run anticlockwise. Errors: a coordinate is not a longitude or
// latitude; a line or ring has too few positions; w failed.
func Write(w io.Writer, c Collection) error {
	out := bufio.NewWriter(w)
	line := append([]byte(`{"type":"FeatureCollection","name":`), appendText(nil, c.Layer.Name)...)
	line = append(line, `,"features":[`...)
	for i, f := range c.Features {
		if i > 0 {
			line = append(line, ',')
		}
		line = append(line, "\n{\"type\":\"Feature\",\"properties\":"...)
		line = AppendProperties(line, c.Layer.Fields, f.Values)
		line = append(line, `,"geometry":`...)
		var err error
		if line, err = appendGeometry(line, f.Geometry); err != nil {
			return fmt.Errorf("layer %s, feature %d: %w", c.Layer.Name, i+1, err)
		}
		line = append(line, '}')
		if _, err := out.Write(line); err != nil {
			return fmt.Errorf("layer %s: %w", c.Layer.Name, err)
		}
		line = line[:0]
	}
	line = append(line, "\n]}\n"...)
	if _, err := out.Write(line); err != nil {
		return fmt.Errorf("layer %s: %w", c.Layer.Name, err)
	}
	return out.Flush()
}

// AppendProperties appends a JSON object of fields and their values, in order. Another
// number of values, or one of another type than its field says, panics.
func AppendProperties(dst []byte, fields []Field, values []any) []byte {
	if len(fields) != len(values) {
		panic(fmt.Sprintf("geojson: %d values for %d fields", len(values), len(fields)))
	}
	dst = append(dst, '{')
	for i, f := range fields {
		if i > 0 {
			dst = append(dst, ',')
		}
		dst = append(appendText(dst, f.Name), ':')
		dst = AppendValue(dst, f, values[i])
	}
	return append(dst, '}')
}

// AppendValue appends one value in JSON as its field says: null for nil, NaN and infinity.
// A value of another type than the field panics.
func AppendValue(dst []byte, f Field, value any) []byte {
	switch v := value.(type) {
	case nil:
		return append(dst, "null"...)
	case float64:
		if f.Type == Real {
			return AppendReal(dst, v, f.Decimals, "null")
		}
	case int:
		if f.Type == Int {
			return strconv.AppendInt(dst, int64(v), 10)
		}
	case bool:
		if f.Type == Bool {
			return strconv.AppendBool(dst, v)
		}
	case string:
		if f.Type == Text {
			return appendText(dst, v)
		}
	}
	panic(fmt.Sprintf("geojson: field %s is %s, value %v is %T", f.Name, f.Type, value, value))
}

// AppendReal appends a number with fixed decimals, at least one, so that it reads back as
// a real. Zero has no sign; NaN and infinity become the word unknown.
func AppendReal(dst []byte, v float64, decimals int, unknown string) []byte {
	if math.IsNaN(v) || math.IsInf(v, 0) {
		return append(dst, unknown...)
	}
	start := len(dst)
	dst = strconv.AppendFloat(dst, v, 'f', max(decimals, 1), 64)
	if dst[start] == '-' && allZero(dst[start+1:]) {
		return append(dst[:start], dst[start+1:]...)
	}
	return dst
}

func allZero(digits []byte) bool {
	for _, d := range digits {
		if d != '0' && d != '.' {
			return false
		}
	}
	return true
}

// appendText appends a JSON string as UTF-8; bytes that are not UTF-8 become U+FFFD.
func appendText(dst []byte, s string) []byte {
	dst = append(dst, '"')
	for _, r := range s { // a bad byte comes out of range as utf8.RuneError
		switch {
		case r == '"' || r == '\\':
			dst = append(dst, '\\', byte(r))
		case r < 0x20 || r == 0x7f || r == '\u2028' || r == '\u2029':
			quoted, _ := json.Marshal(string(r)) // cannot fail: a string
			dst = append(dst, quoted[1:len(quoted)-1]...)
		default:
			dst = utf8.AppendRune(dst, r)
		}
	}
	return append(dst, '"')
}
