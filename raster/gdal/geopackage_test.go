package gdal

import (
	"bytes"
	"context"
	"errors"
	"math"
	"os"
	"path/filepath"
	"slices"
	"testing"

	"github.com/airbusgeo/godal"
	"github.com/paulmach/orb"
	"github.com/paulmach/orb/encoding/wkb"
)

// drawnLayers is a layer of each geometry, with whole numbers in a column of reals, columns of nulls alone, text that looks like
// a date and text that is empty; and one layer without shapes.
func drawnLayers() []VectorLayer {
	every := []Column{{"id", TextColumn}, {"count", IntColumn}, {"height_m", RealColumn}, {"truncated", BoolColumn}, {"unknown_m", RealColumn}, {"unknown", TextColumn}}
	values := func(id string, count any, heightM float64, truncated bool) map[string]any {
		return map[string]any{"id": id, "count": count, "height_m": heightM, "truncated": truncated, "unknown_m": math.NaN(), "unknown": nil}
	}
	ring := func(x, y, size float64) orb.Ring {
		return orb.Ring{{x, y}, {x + size, y}, {x + size, y + size}, {x, y + size}, {x, y}}
	}
	square := orb.Polygon{ring(500000, 4000000, 10)}
	return []VectorLayer{
		{"sites", "one dam each", "Point", every, []Shape{
			{Geometry: orb.Point{500000.123456789, 4000000.25}, Attributes: values("D01-01", 7, 3, true)},
			{Geometry: orb.Point{500001, 4000001}, Attributes: values("2026-11-25", nil, math.NaN(), false)},
			{Geometry: orb.Point{500002, 4000002}, Attributes: values("", 0, 0, false)},
		}},
		{"drainages", "downstream", "LineString", every, []Shape{
			{Geometry: orb.LineString{{500000, 4000000}, {500010.5, 3999990.125}}, Attributes: values("D01", 1, -2, false)},
		}},
		{"catchments", "nested", "MultiPolygon", every, []Shape{
			{Geometry: square, Attributes: values("D01", 1, 1, false)},
			{Geometry: orb.MultiPolygon{square, {ring(500100, 4000000, 30), orb.Ring{{500110, 4000010}, {500110, 4000020}, {500120, 4000020}, {500120, 4000010}, {500110, 4000010}}}}, Attributes: values("D02", 2, 1, true)},
		}},
		{"footprints", "seen from above", "Polygon", every, []Shape{{Geometry: square, Attributes: values("D01-01", 1, 1, false)}}},
		{"headcuts", "none found", "Point", every, nil},
	}
}

func TestGeoPackageComesBack(t *testing.T) {
	path := temp(t, "plan.gpkg")
	layers := drawnLayers()
	ok(t, WriteGeoPackage(context.Background(), path, "EPSG:32613", layers))
	alone(t, path)
	ds, err := godal.Open(path, godal.VectorOnly())
	ok(t, err)
	defer ds.Close()
	if n := len(ds.Layers()); n != len(layers) {
		t.Fatalf("%d layers, want %d", n, len(layers))
	}
	geometries := map[string]godal.GeometryType{"Point": godal.GTPoint, "LineString": godal.GTLineString, "Polygon": godal.GTPolygon, "MultiPolygon": godal.GTMultiPolygon}
	for i, want := range layers {
		got := ds.Layers()[i]
		if got.Name() != want.Name || got.Type() != geometries[want.Geometry] {
			t.Errorf("layer %d is %s of type %d, want %s of %s", i, got.Name(), got.Type(), want.Name, want.Geometry)
		}
		if code := got.SpatialRef().AuthorityCode(""); code != "32613" {
			t.Errorf("%s: coordinate system %q", want.Name, code)
		}
		for k, shape := range want.Shapes {
			f := got.NextFeature()
			if f == nil {
				t.Fatalf("%s: %d shapes, want %d", want.Name, k, len(want.Shapes))
			}
			sameShape(t, want, shape, f)
			f.Close()
		}
		if got.NextFeature() != nil {
			t.Errorf("%s: more than %d shapes", want.Name, len(want.Shapes))
		}
	}
}

// sameShape compares a feature as it was read with what was written: types, and the place digit by digit.
func sameShape(t *testing.T, layer VectorLayer, want Shape, f *godal.Feature) {
	t.Helper()
	types := map[ColumnType]godal.FieldType{TextColumn: godal.FTString, IntColumn: godal.FTInt64, RealColumn: godal.FTReal, BoolColumn: godal.FTInt}
	fields := f.Fields()
	if len(fields) != len(layer.Columns) {
		t.Errorf("%s: %d columns, want %d", layer.Name, len(fields), len(layer.Columns))
	}
	for _, c := range layer.Columns {
		if got := fields[c.Name].Type(); got != types[c.Type] {
			t.Errorf("%s: column %s is of type %d, want %d", layer.Name, c.Name, got, types[c.Type])
		}
	}
	place := want.Geometry
	if p, polygon := place.(orb.Polygon); polygon && layer.Geometry == "MultiPolygon" {
		place = orb.MultiPolygon{p}
	}
	binary, err := f.Geometry().WKB()
	ok(t, err)
	got, err := wkb.Unmarshal(binary)
	if ok(t, err); !orb.Equal(got, place) {
		t.Errorf("%s: %v, want %v", layer.Name, got, place)
	}
}

// asked returns the column v of what a query of a file finds.
func asked(t *testing.T, ds *godal.Dataset, query string) (v []string) {
	t.Helper()
	rows, err := ds.ExecuteSQL(query)
	ok(t, err)
	for f := rows.NextFeature(); f != nil; f = rows.NextFeature() {
		v = append(v, f.Fields()["v"].String())
		f.Close()
	}
	ok(t, rows.Close())
	return v
}

// Feature ids run from 1, the spatial index is there, booleans are declared as such, and the tables keep the rules of the format's
// own check of its integrity.
func TestGeoPackageTables(t *testing.T) {
	path := temp(t, "plan.gpkg")
	ok(t, WriteGeoPackage(context.Background(), path, "EPSG:32613", drawnLayers()))
	ds, err := godal.Open(path, godal.VectorOnly())
	ok(t, err)
	defer ds.Close()
	for query, want := range map[string][]string{
		"SELECT fid + 0 AS v FROM sites ORDER BY fid":                                                     {"1", "2", "3"},
		"SELECT quote(id) AS v FROM sites ORDER BY fid":                                                   {"'D01-01'", "'2026-11-25'", "''"},
		"SELECT quote(count) AS v FROM sites ORDER BY fid":                                                {"7", "NULL", "0"},
		"SELECT quote(height_m) AS v FROM sites ORDER BY fid":                                             {"3.0", "NULL", "0.0"},
		"SELECT quote(truncated) AS v FROM sites ORDER BY fid":                                            {"1", "0", "0"},
		"SELECT quote(unknown_m) || quote(unknown) AS v FROM sites ORDER BY fid":                          {"NULLNULL", "NULLNULL", "NULLNULL"},
		"SELECT count(*) AS v FROM gpkg_extensions WHERE extension_name = 'gpkg_rtree_index'":             {"5"},
		"SELECT count(*) AS v FROM rtree_sites_geom":                                                      {"3"},
		"SELECT type AS v FROM pragma_table_info('sites') WHERE name NOT IN ('fid', 'geom') ORDER BY cid": {"TEXT", "INTEGER", "REAL", "BOOLEAN", "REAL", "TEXT"},
		"SELECT description AS v FROM gpkg_contents ORDER BY table_name":                                  {"nested", "downstream", "seen from above", "none found", "one dam each"},
		"SELECT DISTINCT last_change || '' AS v FROM gpkg_contents":                                       {pinnedDate},
		"SELECT integrity_check AS v FROM pragma_integrity_check":                                         {"ok"},
		"SELECT count(*) AS v FROM pragma_foreign_key_check":                                              {"0"},
	} {
		if got := asked(t, ds, query); !slices.Equal(got, want) {
			t.Errorf("%s: %q, want %q", query, got, want)
		}
	}
}

// The date of change has milliseconds, so runs one after the other would differ if it were not pinned.
func TestGeoPackageSameBytes(t *testing.T) {
	var files [2][]byte
	for i := range files {
		path := temp(t, "plan.gpkg")
		ok(t, WriteGeoPackage(context.Background(), path, "EPSG:32613", drawnLayers()))
		var err error
		files[i], err = os.ReadFile(path)
		ok(t, err)
	}
	if !bytes.Equal(files[0], files[1]) {
		t.Error("two runs wrote different bytes")
	}
}

func TestGeoPackageRefuses(t *testing.T) {
	cancelled, cancel := context.WithCancel(context.Background())
	cancel()
	path := temp(t, "plan.gpkg")
	if err := WriteGeoPackage(cancelled, path, "EPSG:32613", drawnLayers()); !errors.Is(err, context.Canceled) {
		t.Errorf("cancelled: %v", err)
	}
	if err := WriteGeoPackage(context.Background(), path, "nowhere", drawnLayers()); !errors.Is(err, ErrInput) {
		t.Errorf("no coordinate system: %v", err)
	}
	if err := WriteGeoPackage(context.Background(), filepath.Join(path, "sub", "plan.gpkg"), "EPSG:32613", drawnLayers()); err == nil {
		t.Error("a folder that is not there: no error")
	}
	if entries, err := os.ReadDir(filepath.Dir(path)); err != nil || len(entries) != 0 {
		t.Errorf("something was left behind: %v %v", entries, err)
	}
	layers := drawnLayers()
	layers[0].Shapes[0].Attributes["count"] = "seven"
	defer func() {
		if fault, _ := recover().(string); fault != "gdal: value seven of column count is string" {
			t.Errorf("text in a column of whole numbers: %q", fault)
		}
	}()
	_ = WriteGeoPackage(context.Background(), path, "EPSG:32613", layers)
}
