package report

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"maps"
	"slices"
	"strings"
	"testing"
)

// schemaFaults checks a value against the words of JSON Schema that plan.schema.json uses: type, properties, required,
// additionalProperties and items. Any other word but an annotation is a fault of its own.
func schemaFaults(schema map[string]any, value any, at string) (faults []string) {
	for word := range schema {
		if !slices.Contains([]string{"$schema", "title", "description", "type", "properties", "required", "additionalProperties", "items"}, word) {
			faults = append(faults, fmt.Sprintf("%s: the check does not know %s", at, word))
		}
	}
	if !ofSchemaType(schema["type"], value) {
		return append(faults, fmt.Sprintf("%s: %v is not %v", at, value, schema["type"]))
	}
	if object, ok := value.(map[string]any); ok {
		known, _ := schema["properties"].(map[string]any)
		for _, name := range schema["required"].([]any) {
			if _, there := object[name.(string)]; !there {
				faults = append(faults, at+": no "+name.(string))
			}
		}
		for _, name := range slices.Sorted(maps.Keys(object)) {
			if inner, ok := known[name].(map[string]any); ok {
				faults = append(faults, schemaFaults(inner, object[name], at+"."+name)...)
			} else if schema["additionalProperties"] == false {
				faults = append(faults, at+": unknown "+name)
			}
		}
	}
	if list, ok := value.([]any); ok {
		for i, one := range list {
			faults = append(faults, schemaFaults(schema["items"].(map[string]any), one, fmt.Sprintf("%s[%d]", at, i))...)
		}
	}
	return faults
}

// ofSchemaType tells whether a value is of a type, or of one of several.
func ofSchemaType(kind, value any) bool {
	if many, ok := kind.([]any); ok {
		return slices.ContainsFunc(many, func(one any) bool { return ofSchemaType(one, value) })
	}
	switch v := value.(type) {
	case nil:
		return kind == "null"
	case bool:
		return kind == "boolean"
	case string:
		return kind == "string"
	case float64:
		return kind == "number" || kind == "integer" && v == float64(int64(v))
	case []any:
		return kind == "array"
	case map[string]any:
		return kind == "object"
	}
	return false
}

func planSchema(t *testing.T) map[string]any {
	t.Helper()
	var b bytes.Buffer
	if err := WritePlanSchema(&b); err != nil {
		t.Fatal(err)
	}
	var schema map[string]any
	if err := json.Unmarshal(b.Bytes(), &schema); err != nil {
		t.Fatal(err)
	}
	return schema
}

func TestPlanFollowsItsSchema(t *testing.T) {
	schema := planSchema(t)
	for _, r := range []Record{record(), screened()} {
		var b bytes.Buffer
		if err := WritePlan(&b, r); err != nil {
			t.Fatal(err)
		}
		var plan any
		if err := json.Unmarshal(b.Bytes(), &plan); err != nil {
			t.Fatal(err)
		}
		for _, fault := range schemaFaults(schema, plan, r.File()) {
			t.Error(fault)
		}
	}
}

func TestBrokenPlansBreakTheSchema(t *testing.T) {
	schema := planSchema(t)
	var b bytes.Buffer
	if err := WritePlan(&b, record()); err != nil {
		t.Fatal(err)
	}
	type object = map[string]any
	first := func(plan object, table string) object { return plan[table].([]any)[0].(object) }
	for _, row := range []struct {
		name   string
		change func(plan object)
		want   string
	}{
		{"a table is missing", func(p object) { delete(p, "sites") }, "no sites"},
		{"a table too many", func(p object) { p["rocks"] = []any{} }, "unknown rocks"},
		{"a list is a record", func(p object) { p["sites"] = object{} }, "is not array"},
		{"a field is missing", func(p object) { delete(first(p, "sites"), "bed_m") }, "sites[0]: no bed_m"},
		{"a field too many", func(p object) { first(p, "drainages")["length_ft"] = 3.0 }, "unknown length_ft"},
		{"a number as text", func(p object) { first(p, "sites")["bed_m"] = "100.5" }, "sites[0].bed_m"},
		{"unknown where it must be known", func(p object) { first(p, "sites")["bed_m"] = nil }, "sites[0].bed_m"},
		{"half a dam", func(p object) { p["totals"].(object)["dams"] = 1.5 }, "totals.dams"},
		{"a flag as number", func(p object) { first(p, "drainages")["truncated"] = 1.0 }, "drainages[0].truncated"},
	} {
		t.Run(row.name, func(t *testing.T) {
			var plan object
			if err := json.Unmarshal(b.Bytes(), &plan); err != nil {
				t.Fatal(err)
			}
			row.change(plan)
			faults := schemaFaults(schema, plan, "plan.json")
			if len(faults) != 1 || !strings.Contains(faults[0], row.want) {
				t.Errorf("faults %q, want one with %q", faults, row.want)
			}
		})
	}
}

// Each field of the schema says its unit and its meaning.
func TestSchemaSaysUnitsAndMeanings(t *testing.T) {
	members := planSchema(t)["properties"].(map[string]any)
	for _, l := range planMembers() {
		record := members[l.Name].(map[string]any)
		if items, ok := record["items"].(map[string]any); ok {
			record = items
		}
		for _, f := range l.Fields {
			said := record["properties"].(map[string]any)[f.Name].(map[string]any)["description"].(string)
			if !strings.Contains(said, f.Meaning) || f.Null != "" && !strings.Contains(said, f.Null) || f.Unit != "" && !strings.Contains(said, "Unit: ") {
				t.Errorf("%s.%s: %q", l.Name, f.Name, said)
			}
		}
	}
	failed := errors.New("disk full")
	if err := WritePlanSchema(full{failed}); !errors.Is(err, failed) {
		t.Errorf("a full disk: %v", err)
	}
}
