package report

import (
	"bytes"
	"encoding/json"
	"fmt"
	"io"
	"strings"

	"siltstep/geojson"
)

// schemaDialect is the language of the schema. Source: JSON Schema 2020-12, core, section 8.1.1.
const schemaDialect = "https://json-schema.org/draft/2020-12/schema"

// lastMember is the last table of plan.json; those after it in Tables are files of their own.
const lastMember = "sources"

// planMembers returns the tables that are members of plan.json, in the order of the file.
func planMembers() []geojson.Layer {
	all := Tables()
	for i, t := range all {
		if t.Name == lastMember {
			return all[:i+1]
		}
	}
	panic("report: no table " + lastMember)
}

// single tells whether a member of plan.json is one record and not a list.
func single(table string) bool { return table == "program" || table == "grid" || table == "totals" }

// WritePlanSchema writes plan.schema.json: what plan.json and screen.json hold, as JSON Schema 2020-12, from the data dictionary: each member with its
// fields, their types, null where a value may be unknown, and unit and meaning as description. Error: w failed.
func WritePlanSchema(w io.Writer) error {
	var members schemaObject
	var names []string
	for _, t := range planMembers() {
		record := recordSchema(t)
		if !single(t.Name) {
			record = schemaObject{{"description", t.Meaning}, {"type", "array"}, {"items", record}}
		}
		members = append(members, schemaMember{t.Name, record})
		names = append(names, t.Name)
	}
	text, err := json.MarshalIndent(schemaObject{
		{"$schema", schemaDialect},
		{"title", fmt.Sprintf("%s plan.json and screen.json, format %d", Tool, planFormat)},
		{"description", "A check-dam plan: a planning aid, not an engineered design. SI units, the unit at the end of each name. In screen.json the lists that have to do with dams are empty."},
		{"type", "object"},
		{"properties", members},
		{"required", names},
		{"additionalProperties", false},
	}, "", " ")
	if err == nil {
		_, err = w.Write(append(text, '\n'))
	}
	if err != nil {
		return fmt.Errorf("plan.schema.json: %w", err)
	}
	return nil
}

// recordSchema describes one record of a table.
func recordSchema(t geojson.Layer) schemaObject {
	var fields schemaObject
	names := []string{}
	for _, f := range t.Fields {
		fields = append(fields, schemaMember{f.Name, fieldSchema(f)})
		names = append(names, f.Name)
	}
	return schemaObject{{"description", t.Meaning}, {"type", "object"}, {"properties", fields}, {"required", names}, {"additionalProperties", false}}
}

// schemaTypes tells how types are called in JSON Schema.
var schemaTypes = map[geojson.Type]string{geojson.Real: "number", geojson.Int: "integer", geojson.Text: "string", geojson.Bool: "boolean"}

func fieldSchema(f geojson.Field) schemaObject {
	said := []string{f.Meaning}
	if f.Unit != "" {
		said = append(said, "Unit: "+unitWords(f.Unit))
	}
	var kind any = schemaTypes[f.Type]
	if f.Null != "" {
		kind = []string{schemaTypes[f.Type], "null"}
		said = append(said, "Null: "+f.Null)
	}
	return schemaObject{{"description", strings.Join(said, ". ") + "."}, {"type", kind}}
}

func unitWords(unit string) string {
	if unit == "1" {
		return "none, a ratio or a score"
	}
	return unit
}

// A schemaObject is a JSON object that keeps its order.
type schemaObject []schemaMember

type schemaMember struct {
	name  string
	value any
}

// MarshalJSON writes the members in their order.
func (o schemaObject) MarshalJSON() ([]byte, error) {
	var b bytes.Buffer
	b.WriteByte('{')
	for i, m := range o {
		if i > 0 {
			b.WriteByte(',')
		}
		value, err := json.Marshal(m.value)
		if err != nil {
			return nil, err
		}
		fmt.Fprintf(&b, "%q:%s", m.name, value)
	}
	b.WriteByte('}')
	return b.Bytes(), nil
}
