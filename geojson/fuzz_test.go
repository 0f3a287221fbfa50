package geojson

import (
	"bytes"
	"encoding/json"
	"maps"
	"slices"
	"testing"

	"github.com/paulmach/orb"
	orbjson "github.com/paulmach/orb/geojson"
)

// decoded reads GeoJSON into a collection whose fields are the properties of its first
// feature, sorted. ok is false where there is something the writer has no business with.
func decoded(data []byte) (c Collection, ok bool) {
	fc, err := orbjson.UnmarshalFeatureCollection(data)
	if err != nil {
		return c, false
	}
	for i, f := range fc.Features {
		switch f.Geometry.(type) {
		case orb.Point, orb.LineString, orb.Polygon, orb.MultiPolygon:
		default:
			return c, false
		}
		if i == 0 {
			for _, name := range slices.Sorted(maps.Keys(f.Properties)) {
				field := Field{Name: name, Type: Text}
				switch f.Properties[name].(type) {
				case float64:
					field.Type, field.Decimals = Real, 4
				case bool:
					field.Type = Bool
				}
				c.Layer.Fields = append(c.Layer.Fields, field)
			}
		}
		values := make([]any, len(c.Layer.Fields))
		for i, field := range c.Layer.Fields {
			switch v := f.Properties[field.Name].(type) {
			case float64:
				if field.Type == Real {
					values[i] = v
				}
			case bool:
				if field.Type == Bool {
					values[i] = v
				}
			case string:
				if field.Type == Text {
					values[i] = v
				}
			}
		}
		c.Features = append(c.Features, Feature{f.Geometry, values})
	}
	return c, true
}

// Decode, encode, decode: what was written reads back, and writing that gives the same bytes.
func FuzzWrite(f *testing.F) {
	for _, text := range layers(f, smallPlan(f), degrees) {
		f.Add(text)
	}
	f.Add([]byte(`{"type":"FeatureCollection","features":[{"type":"Feature","properties":{"a":-1e-9,"b":"\u2028\u0000\"","c":null,"d":true},"geometry":{"type":"Point","coordinates":[-180,1e-12]}}]}`))
	f.Fuzz(func(t *testing.T, data []byte) {
		c, ok := decoded(data)
		if !ok {
			return
		}
		var first bytes.Buffer
		if err := Write(&first, c); err != nil {
			return // a coordinate or ring that may not be written
		}
		if !json.Valid(first.Bytes()) {
			t.Fatalf("not JSON: %s", first.Bytes())
		}
		again, ok := decoded(first.Bytes())
		if !ok || len(again.Features) != len(c.Features) {
			t.Fatalf("does not read back: %s", first.Bytes())
		}
		again.Layer.Fields = c.Layer.Fields // nulls do not tell their type
		var second bytes.Buffer
		if err := Write(&second, again); err != nil || !bytes.Equal(first.Bytes(), second.Bytes()) {
			t.Fatalf("error %v; first\n%s\nsecond\n%s", err, first.Bytes(), second.Bytes())
		}
	})
}

func FuzzText(f *testing.F) {
	for _, s := range []string{"", "D07-03", "\"\\/\n\x7f", "\xff\xc3", "5 m³/s\u2029"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, s string) {
		var back string
		if err := json.Unmarshal(appendText(nil, s), &back); err != nil || back != string([]rune(s)) {
			t.Fatalf("%q came back as %q, error %v", s, back, err)
		}
	})
}
