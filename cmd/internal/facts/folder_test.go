package facts

import (
	"reflect"
	"slices"
	"strings"
	"testing"

	"siltstep/cmd/internal/report"
	"siltstep/geojson"
)

// Every member that is read is one that plan.json holds: a name that is not there would read 0.
func TestEveryNameIsInThePlan(t *testing.T) {
	tables := map[string]geojson.Layer{}
	for _, table := range report.Tables() {
		if _, twice := tables[table.Name]; !twice {
			tables[table.Name] = table
		}
	}
	plan := reflect.TypeFor[Plan]()
	for i := range plan.NumField() {
		member := plan.Field(i)
		name := member.Tag.Get("json")
		table, ok := tables[name]
		if !ok {
			t.Errorf("plan.json has no member %q", name)
			continue
		}
		row := member.Type
		if row.Kind() == reflect.Slice {
			row = row.Elem()
		}
		for _, column := range columns(row) {
			if !slices.ContainsFunc(table.Fields, func(f geojson.Field) bool { return f.Name == column }) {
				t.Errorf("%s: no column %q", name, column)
			}
		}
	}
}

// columns lists the names in JSON of a struct and those it embeds.
func columns(of reflect.Type) (names []string) {
	for i := range of.NumField() {
		f := of.Field(i)
		if f.Anonymous {
			names = append(names, columns(f.Type)...)
			continue
		}
		name, _, _ := strings.Cut(f.Tag.Get("json"), ",")
		names = append(names, name)
	}
	return names
}

func TestNoPlanInAFolder(t *testing.T) {
	if _, err := Read(t.TempDir()); err == nil || !strings.Contains(err.Error(), "holds no plan.json: name the folder that siltstep plan wrote") {
		t.Errorf("%v", err)
	}
}
