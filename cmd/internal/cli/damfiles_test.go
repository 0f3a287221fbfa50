package cli

import (
	"context"
	"encoding/csv"
	"fmt"
	"math"
	"os"
	"path/filepath"
	"strconv"
	"testing"

	"github.com/paulmach/orb"
	"github.com/paulmach/orb/geojson"

	"siltstep/raster/gdal"
	"siltstep/raster/rastertest"
)

// trenchPlan plans a trench 1.5 m deep with a bed of 3 m and banks 1:1, which falls at 5 % through land that leans towards it, for a
// storm, and returns the folder and the elevation model.
func trenchPlan(t *testing.T) (dir, dem string) {
	t.Helper()
	top := t.TempDir()
	dem = filepath.Join(top, "trench.tif")
	g := rastertest.Surface(301, 201, 0.5, func(col, row int) int32 {
		across := math.Abs(float64(col)-150) / 2
		bank := min(max(across-1.5, 0), 1.5)
		return int32(math.Round(1000 * (1700 + 0.05*float64(200-row)/2 + bank + 0.2*max(across-3, 0))))
	})
	if err := gdal.WriteDEM(context.Background(), dem, g, "EPSG:32613"); err != nil {
		t.Fatal(err)
	}
	for name, text := range map[string]string{
		"rain.csv":      "unit, mm\nduration, 10 yr\n5 min, 9.5\n15 min, 18\n30 min, 23.5\n1 h, 28.5\n2 h, 33\n3 h, 36\n6 h, 42\n12 h, 50\n24 h, 58\n",
		"settings.yaml": "flow:\n  edge: closed\nrain:\n  table: rain.csv\n  hours: 24\nrunoff:\n  coefficient: 0.35\n",
	} {
		if err := os.WriteFile(filepath.Join(top, name), []byte(text), 0o600); err != nil {
			t.Fatal(err)
		}
	}
	dir = filepath.Join(top, "plan")
	if n := len(planned(t, dir, dem, "--settings", filepath.Join(top, "settings.yaml"))); n < 3 {
		t.Fatalf("%d dams: too few to look at", n)
	}
	return dir, dem
}

// The section at a dam shows the very levels and lengths that sites.geojson tells, and the ground that was drawn: land
// 1.5 m above the bed and more, which leans 20 % to the channel.
func TestSectionsOfDams(t *testing.T) {
	dir, _ := trenchPlan(t)
	for _, f := range features(t, dir, "sites") {
		p := f.Properties
		id := p.MustString("id")
		rows := sectionRows(t, filepath.Join(dir, "sections", id+".csv"))
		left, right, sill, top := math.Inf(1), math.Inf(-1), math.Inf(1), math.Inf(-1)
		for _, r := range rows {
			if !math.IsNaN(r[2]) {
				left, right, sill, top = min(left, r[0]), max(right, r[0]), min(sill, r[2]), max(top, r[2])
			}
		}
		for _, r := range rows { // the thalweg lies anywhere on the level bed, the dam in its middle
			if across := math.Abs(r[0] - (left+right)/2); across > 5 {
				if want := p.MustFloat64("bed_m") + 1.5 + 0.2*(across-3); math.Abs(r[1]-want) > 0.05 { // m; cells of 0.5 m
					t.Errorf("%s: ground at %.2f m is %.3f m, want %.3f", id, r[0], r[1], want)
				}
			}
		}
		for name, got := range map[string]float64{"notch_sill_m": sill, "dam_top_m": top, "crest_length_m": right - left} {
			if want := p.MustFloat64(name); math.Abs(got-want) > 0.0111 { // m: lengths are rounded to 0.01 in the one, 0.001 in the other
				t.Errorf("%s: %s is %.3f m in the section, %.3f m in the plan", id, name, got, want)
			}
		}
		if text, err := os.ReadFile(filepath.Join(dir, "sections", id+".svg")); err != nil || len(text) == 0 {
			t.Errorf("%s: no drawing: %v", id, err)
		}
	}
}

// sectionRows reads a table of numbers under a header; an empty cell is NaN.
func sectionRows(t *testing.T, path string) (rows [][3]float64) {
	t.Helper()
	file, err := os.Open(path)
	if err != nil {
		t.Fatal(err)
	}
	defer file.Close()
	cells, err := csv.NewReader(file).ReadAll()
	if err != nil || fmt.Sprint(cells[0]) != "[offset_m ground_m dam_m]" {
		t.Fatalf("%s: %v, header %v", path, err, cells[0])
	}
	for _, line := range cells[1:] {
		row := [3]float64{math.NaN(), math.NaN(), math.NaN()}
		for i, text := range line {
			if text == "" {
				continue
			}
			if row[i], err = strconv.ParseFloat(text, 64); err != nil {
				t.Fatal(err)
			}
		}
		rows = append(rows, row)
	}
	return rows
}

// Every layer of the GeoPackage holds what its GeoJSON file holds, in order: values alike, and places within 1e-6 degree.
func TestGeoPackageAsGeoJSON(t *testing.T) {
	dir, path := trenchPlan(t)
	dem, err := gdal.Open(context.Background(), gdal.Request{Paths: []string{path}})
	if err != nil {
		t.Fatal(err)
	}
	shapes, err := gdal.ReadShapes(filepath.Join(dir, "plan.gpkg"), dem)
	if err != nil {
		t.Fatal(err)
	}
	toLonLat, free := gdal.Projector(dem.WKT(), "EPSG:4326")
	defer free()
	next := 0
	for _, name := range []string{"drainages", "catchments", "headcuts", "depressions", "sites", "reaches", "footprints", "effects"} {
		for _, f := range features(t, dir, name) {
			if next == len(shapes) {
				t.Fatalf("%s: only %d features in all", name, next)
			}
			got := shapes[next]
			next++
			if !sameValues(got.Attributes, f.Properties) {
				t.Errorf("%s: %v, want %v", name, got.Attributes, f.Properties)
			}
			points, err := toLonLat(positions(got.Geometry))
			if err != nil {
				t.Fatal(err)
			}
			want := positions(f.Geometry)
			if len(points) != len(want) {
				t.Errorf("%s: %d positions, want %d", name, len(points), len(want))
				continue
			}
			for i := range want {
				if math.Abs(points[i][0]-want[i][0]) > 1e-6 || math.Abs(points[i][1]-want[i][1]) > 1e-6 {
					t.Errorf("%s: position %v, want %v", name, points[i], want[i])
				}
			}
		}
	}
	if next != len(shapes) || next < 10 {
		t.Errorf("%d features, want %d", len(shapes), next)
	}
}

// sameValues compares properties, null for null.
func sameValues(got map[string]any, want geojson.Properties) bool {
	for name, v := range want {
		if fmt.Sprint(got[name]) != fmt.Sprint(v) {
			return false
		}
	}
	return len(got) == len(want)
}

// positions returns the positions of a geometry in order.
func positions(g orb.Geometry) (all []orb.Point) {
	switch g := g.(type) {
	case orb.Point:
		return []orb.Point{g}
	case orb.LineString:
		return g
	case orb.Polygon:
		for _, r := range g {
			all = append(all, r...)
		}
	case orb.MultiPolygon:
		for _, p := range g {
			all = append(all, positions(p)...)
		}
	}
	return all
}
