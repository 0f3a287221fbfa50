package geojson

import (
	"bytes"
	"encoding/csv"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
)

// outside runs a program of GDAL on a file; without GDAL the test is skipped and says so.
func outside(t *testing.T, name string, args ...string) string {
	t.Helper()
	path, err := exec.LookPath(name)
	if err != nil {
		t.Skipf("SKIPPED: %s is not installed (apt-get install gdal-bin), so the files were not read by GDAL", name)
	}
	var stderr bytes.Buffer
	cmd := exec.Command(path, args...)
	cmd.Stderr = &stderr
	out, err := cmd.Output()
	if err != nil || stderr.Len() > 0 {
		t.Fatalf("%s: %v, stderr %q", name, err, stderr.String())
	}
	return string(out)
}

// GDAL's own reader opens every layer without a warning and finds the types of the schema.
func TestGDALReadsLayers(t *testing.T) {
	dir := t.TempDir()
	for name, text := range layers(t, smallPlan(t), degrees) {
		path := filepath.Join(dir, name+".geojson")
		if err := os.WriteFile(path, text, 0o600); err != nil {
			t.Fatal(err)
		}
		info := outside(t, "ogrinfo", "-al", "-so", path)
		for _, want := range []string{"Layer name: " + name + "\n", "WGS 84", map[string]string{
			"sites": "Geometry: Point\nFeature Count: 2\nExtent: (-104.999955, 35.999905) - (-104.999955, 35.999945)",
			// The valley is 9 m wide and 12 m long; cell centres lie 0.5 m inside.
			"drainages":  "Geometry: Line String\nFeature Count: 3\nExtent: (-104.999995, 35.999885) - (-104.999915, 35.999995)",
			"reaches":    "Geometry: Line String\nFeature Count: 4\n",
			"headcuts":   "Geometry: Point\nFeature Count: 2\n",
			"catchments": "Geometry: Polygon\nFeature Count: 4\nExtent: (-105.000000, 35.999880) - (-104.999910, 36.000000)",
		}[name]} {
			if !strings.Contains(info, want) {
				t.Errorf("%s: ogrinfo does not say %q:\n%s", name, want, info)
			}
		}
		checkTypes(t, name, info, string(text))
	}
}

// checkTypes compares the types that GDAL guessed with the schema, for each field that
// holds a value; a column of nulls has no type in GeoJSON.
func checkTypes(t *testing.T, layer, info, text string) {
	t.Helper()
	kinds := map[Type]string{Real: "Real", Int: "Integer", Text: "String", Bool: "Integer(Boolean)"}
	for _, l := range Schema() {
		for _, f := range l.Fields {
			empty := strings.Count(text, `"`+f.Name+`":`) == strings.Count(text, `"`+f.Name+`":null`)
			if l.Name == layer && !empty && !strings.Contains(info, "\n"+f.Name+": "+kinds[f.Type]+" (") {
				t.Errorf("%s.%s: GDAL does not read it as %s:\n%s", layer, f.Name, kinds[f.Type], info)
			}
		}
	}
}

// Longitude before latitude, and values come through.
func TestGDALReadsValues(t *testing.T) {
	path := filepath.Join(t.TempDir(), "sites.geojson")
	if err := os.WriteFile(path, layers(t, smallPlan(t), degrees)["sites"], 0o600); err != nil {
		t.Fatal(err)
	}
	out := outside(t, "ogr2ogr", "-f", "CSV", "/vsistdout/", path, "-lco", "GEOMETRY=AS_XY", "-select", "id,number,notch_sill_m,peak_m3s,cautions")
	rows, err := csv.NewReader(strings.NewReader(out)).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	want := []string{"-104.999955", "35.999945", "D01-02", "2", "9.9", "0.02", `a "confluence" is 1.0 m below; steep bed`}
	if len(rows) != 3 || strings.Join(rows[2], "|") != strings.Join(want, "|") {
		t.Errorf("got %q, want the last row %q", rows, want)
	}
}
