package gdal

import (
	"fmt"
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/airbusgeo/godal"
	"github.com/paulmach/orb"
	"github.com/paulmach/orb/planar"

	"errors"
)

// ring is a GeoJSON polygon around the sample's place, corners in longitude and latitude of
// (500010, 3999975) and (500030, 3999995).
func ring(t *testing.T) string {
	t.Helper()
	points, free := Projector("EPSG:32613", lonLat)
	defer free()
	pts, err := points([]orb.Point{{500010, 3999975}, {500030, 3999975}, {500030, 3999995}, {500010, 3999995}, {500010, 3999975}})
	ok(t, err)
	var text []string
	for _, p := range pts {
		text = append(text, fmt.Sprintf("[%.10f,%.10f]", p[0], p[1]))
	}
	return "[" + strings.Join(text, ",") + "]"
}

func feature(geometry string) string {
	return `{"type":"Feature","properties":{"name":"home"},"geometry":` + geometry + `}`
}

func collection(features ...string) string {
	return `{"type":"FeatureCollection","features":[` + strings.Join(features, ",") + `]}`
}

func TestPolygonsArrive(t *testing.T) {
	d := open(t, sample{}.write(t, temp(t, "a.tif")))
	dir := t.TempDir()
	square := `{"type":"Polygon","coordinates":[` + ring(t) + `]}`
	plain := filepath.Join(dir, "plain.geojson")
	ok(t, os.WriteFile(plain, []byte(collection(feature(square))), 0o644))
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
	mixed := filepath.Join(dir, "mixed.geojson")
	high := strings.ReplaceAll(square, "],[", ",7],[")
	high = strings.ReplaceAll(high, "]]]", ",7]]]")
	ok(t, os.WriteFile(mixed, []byte(collection(
		feature(`{"type":"Point","coordinates":[-105,36]}`), feature("null"), feature(high),
		feature(`{"type":"MultiPolygon","coordinates":[[`+ring(t)+`]]}`))), 0o644))
	tests := []struct {
		name, path string
		n          int
	}{
		{"GeoJSON", plain, 1},
		{"GeoPackage", convert("a.gpkg", "-f", "GPKG"), 1},
		{"GeoPackage in survey feet", convert("ft.gpkg", "-f", "GPKG", "-t_srs", "EPSG:2231"), 1},
		{"Shapefile in the grid's system", convert("a.shp", "-f", "ESRI Shapefile", "-t_srs", "EPSG:32613"), 1},
		{"GML, latitude first", convert("a.gml", "-f", "GML", "-dsco", "FORMAT=GML3"), 1},
		{"KML", convert("a.kml", "-f", "KML"), 1},
		{"points, nothing, heights and several", mixed, 2},
	}
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			got, err := ReadPolygons(test.path, d)
			ok(t, err)
			if len(got) != test.n {
				t.Fatalf("%d polygons; want %d", len(got), test.n)
			}
			for _, p := range got {
				// A square of 20 m; 1 cm is what the formats' decimals lose.
				if a := math.Abs(planar.Area(p)); math.Abs(a-400) > 0.5 {
					t.Errorf("%g m²; want 400", a)
				}
				b := p.Bound()
				for _, off := range []float64{b.Min[0] - 500010, b.Min[1] - 3999975, b.Max[0] - 500030, b.Max[1] - 3999995} {
					if math.Abs(off) > 0.01 {
						t.Errorf("bounds %v; want 500010 3999975 to 500030 3999995", b)
					}
				}
			}
		})
	}
}

func TestPolygonsThatAreRefused(t *testing.T) {
	d := open(t, sample{}.write(t, temp(t, "a.tif")))
	dir := t.TempDir()
	put := func(name, text string) string {
		path := filepath.Join(dir, name)
		ok(t, os.WriteFile(path, []byte(text), 0o644))
		return path
	}
	away := `{"type":"Polygon","coordinates":[[[-106,36],[-105.9,36],[-105.9,36.1],[-106,36]]]}`
	source := put("source.geojson", collection(feature(away)))
	ds, err := godal.Open(source, godal.VectorOnly())
	ok(t, err)
	bare := filepath.Join(dir, "bare.shp")
	out, err := ds.VectorTranslate(bare, []string{"-f", "ESRI Shapefile"})
	ok(t, err)
	ok(t, out.Close())
	ok(t, ds.Close())
	ok(t, os.Remove(filepath.Join(dir, "bare.prj")))
	tests := []struct{ name, path, says string }{
		{"missing", filepath.Join(dir, "none.geojson"), "no such file"},
		{"empty", put("empty.geojson", ""), "is empty"},
		{"a raster", sample{}.write(t, filepath.Join(dir, "a.tif")), "not a vector file"},
		{"no features", put("no.geojson", collection()), "holds no polygons"},
		{"only points", put("points.geojson", collection(feature(`{"type":"Point","coordinates":[-105,36]}`))), "holds no polygons"},
		{"elsewhere", source, "does not touch"},
		{"no system", bare, "does not state its coordinate system"},
	}
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			_, err := ReadPolygons(test.path, d)
			if !errors.Is(err, ErrInput) || !strings.Contains(err.Error(), test.says) || !strings.Contains(err.Error(), filepath.Base(test.path)) {
				t.Errorf("%v; want %q", err, test.says)
			}
		})
	}
}
