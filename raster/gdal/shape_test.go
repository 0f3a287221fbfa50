package gdal

import (
	"fmt"
	"math"
	"os"
	"path/filepath"
	"testing"

	"github.com/airbusgeo/godal"
	"github.com/paulmach/orb"
)

// degreesOf returns a place of the sample's grid as a GeoJSON position.
func degreesOf(t *testing.T, x, y float64) string {
	t.Helper()
	points, free := Projector("EPSG:32613", lonLat)
	defer free()
	at, err := points([]orb.Point{{x, y}})
	ok(t, err)
	return fmt.Sprintf("[%.10f,%.10f]", at[0][0], at[0][1])
}

func TestShapesArriveWithAttributes(t *testing.T) {
	d := open(t, sample{}.write(t, temp(t, "a.tif")))
	dir := t.TempDir()
	a, b := degreesOf(t, 500010, 3999975), degreesOf(t, 500040, 4000015) // 50 m apart, by 30 and 40
	with := func(properties, geometry string) string {
		return `{"type":"Feature","properties":` + properties + `,"geometry":` + geometry + `}`
	}
	plain := filepath.Join(dir, "plain.geojson")
	ok(t, os.WriteFile(plain, []byte(collection(
		with(`{"ha":12.5,"ends_flow":true,"name":"x"}`, `{"type":"LineString","coordinates":[`+a+`,`+b+`]}`),
		with(`{"ha":0,"ends_flow":false,"name":null}`, `{"type":"LineString","coordinates":[`+b+`,`+a+`]}`),
		with(`{"ha":null,"ends_flow":null,"name":"y"}`, `{"type":"LineString","coordinates":[`+a+`,`+b+`]}`),
	)), 0o644))
	convert := func(name string, switches ...string) string {
		path := filepath.Join(dir, name)
		ds, err := godal.Open(plain, godal.VectorOnly())
		ok(t, err)
		out, err := ds.VectorTranslate(path, switches)
		ok(t, err)
		ok(t, out.Close())
		ok(t, ds.Close())
		return path
	}
	for name, path := range map[string]string{
		"GeoJSON":                   plain,
		"GeoPackage in survey feet": convert("ft.gpkg", "-f", "GPKG", "-t_srs", "EPSG:2231"),
	} {
		t.Run(name, func(t *testing.T) {
			got, err := ReadShapes(path, d)
			ok(t, err)
			if len(got) != 3 {
				t.Fatalf("%d shapes, want 3", len(got))
			}
			line, is := got[0].Geometry.(orb.LineString)
			if !is || len(line) != 2 || math.Hypot(line[0][0]-500010, line[0][1]-3999975) > 0.01 || math.Hypot(line[1][0]-500040, line[1][1]-4000015) > 0.01 {
				t.Errorf("first shape %v, want a line from 500010 3999975 to 500040 4000015", got[0].Geometry)
			}
			want := []map[string]any{
				{"ha": 12.5, "ends_flow": true, "name": "x"}, {"ha": 0.0, "ends_flow": false, "name": nil}, {"ha": nil, "ends_flow": nil, "name": "y"},
			}
			for i, s := range got {
				if s.Name != fmt.Sprintf("feature %d", i+1) {
					t.Errorf("shape %d is called %q", i+1, s.Name)
				}
				for key, value := range want[i] {
					if s.Attributes[key] != value {
						t.Errorf("shape %d: %s is %v, want %v", i+1, key, s.Attributes[key], value)
					}
				}
			}
		})
	}
}

func TestShapesOfSeveralKindsAndLayers(t *testing.T) {
	d := open(t, sample{}.write(t, temp(t, "a.tif")))
	dir := t.TempDir()
	a, b := degreesOf(t, 500010, 3999975), degreesOf(t, 500040, 4000015)
	put := func(name, geometry string) string {
		path := filepath.Join(dir, name)
		ok(t, os.WriteFile(path, []byte(collection(feature(geometry))), 0o644))
		return path
	}
	points, lines := put("points.geojson", `{"type":"MultiPoint","coordinates":[`+a+`,`+b+`]}`), put("lines.geojson", `{"type":"LineString","coordinates":[`+a+`,`+b+`]}`)
	both := filepath.Join(dir, "both.gpkg")
	for i, source := range []string{points, lines} {
		ds, err := godal.Open(source, godal.VectorOnly())
		ok(t, err)
		switches := []string{"-f", "GPKG", "-nln", []string{"wells", "roads"}[i]}
		if i > 0 {
			switches = append(switches, "-update")
		}
		out, err := ds.VectorTranslate(both, switches)
		ok(t, err)
		ok(t, out.Close())
		ok(t, ds.Close())
	}
	got, err := ReadShapes(both, d)
	ok(t, err)
	if len(got) != 2 || got[0].Name != "feature 1" || got[1].Name != `feature 1 of layer "roads"` {
		t.Fatalf("shapes %+v, want one of each layer, the second named with its layer", got)
	}
	if _, is := got[0].Geometry.(orb.MultiPoint); !is {
		t.Errorf("first shape %v, want two points", got[0].Geometry)
	}
	if !d.Touches(got[1].Geometry) || d.Touches(orb.Point{0, 0}) || d.Touches(nil) {
		t.Error("a line on the grid must touch it; a far point and nothing must not")
	}
}

func TestPolygonsOfCollections(t *testing.T) {
	square := orb.Polygon{{{0, 0}, {1, 0}, {1, 1}, {0, 0}}}
	for name, test := range map[string]struct {
		g    orb.Geometry
		want int
	}{
		"nothing":    {nil, 0},
		"point":      {orb.Point{1, 1}, 0},
		"two points": {orb.Polygon{{{0, 0}, {1, 0}, {0, 0}}}, 0},
		"polygon":    {square, 1},
		"collection": {orb.Collection{square, orb.Point{0, 0}, orb.MultiPolygon{square, square}}, 3},
	} {
		if got := len(Polygons(test.g)); got != test.want {
			t.Errorf("%s: %d polygons, want %d", name, got, test.want)
		}
	}
}
