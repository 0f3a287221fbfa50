package cli

import (
	"context"
	"fmt"
	"os"
	"path/filepath"
	"reflect"
	"strings"
	"testing"

	"github.com/paulmach/orb"
	"github.com/paulmach/orb/planar"

	"siltstep/cmd/internal/settings"
	"siltstep/hydro/siting"
	"siltstep/raster/gdal"
)

func TestDamLayers(t *testing.T) {
	point, line := orb.Point{1, 2}, orb.LineString{{0, 0}, {5, 0}}
	square := orb.Polygon{{{0, 0}, {1, 0}, {1, 1}, {0, 0}}}
	one := func(g orb.Geometry) []gdal.Shape { return []gdal.Shape{{Name: "feature 1", Geometry: g}} }
	all := orb.Collection{point, line, orb.MultiPolygon{square, square}, orb.Collection{orb.MultiPoint{point}}}
	pieces := []orb.Geometry{point, point, line, square, square}
	rows := []struct {
		name   string
		take   func(*siting.Features, string, []gdal.Shape) error
		shapes []gdal.Shape
		says   string // part of the fault; empty for none
		want   siting.Features
	}{
		{"exclusions", takeExclusions, append(one(square), one(orb.MultiPolygon{square, square})...), "", siting.Features{Exclusions: []orb.Polygon{square, square, square}}},
		{"an exclusion drawn as a point", takeExclusions, append(one(square), one(point)...), "f: feature 1: not an area", siting.Features{}},
		{"an exclusion drawn as a line", takeExclusions, one(line), "f: feature 1: not an area", siting.Features{}},
		{"no exclusions", takeExclusions, nil, "f: holds no polygons: dams.exclusions wants", siting.Features{}},
		{"buildings of all shapes", takeBuildings, one(all), "", siting.Features{Buildings: pieces}},
		{"buildings without shapes", takeBuildings, one(nil), "f: holds no shapes: dams.buildings wants", siting.Features{}},
		{"streams", takeLiveStreams, append(one(line), one(square)...), "", siting.Features{Streams: []orb.Geometry{line, square}}},
		{"a stream as a point", takeLiveStreams, one(all), "f: feature 1: a point", siting.Features{}},
		{"no streams", takeLiveStreams, one(nil), "f: holds no lines or polygons: dams.live_streams wants", siting.Features{}},
		{"bedrock", takeBaseLevels, one(all), "", siting.Features{BaseLevels: pieces}},
		{"no bedrock", takeBaseLevels, nil, "f: holds no shapes: dams.base_level wants", siting.Features{}},
	}
	for _, r := range rows {
		t.Run(r.name, func(t *testing.T) {
			var got siting.Features
			err := r.take(&got, "f", r.shapes)
			if r.says != "" {
				if err == nil || !strings.Contains(err.Error(), r.says) {
					t.Errorf("error %v, want %q", err, r.says)
				}
				return
			}
			if err != nil || !reflect.DeepEqual(got, r.want) {
				t.Errorf("got %+v, %v\nwant %+v", got, err, r.want)
			}
		})
	}
}

// Layers are read in the coordinates of the grid, roads go along, and a layer of another place is a fault.
func TestHeededLayers(t *testing.T) {
	dir := t.TempDir()
	elevation := filepath.Join(dir, "valley.tif")
	if err := elevations["valley"](elevation); err != nil {
		t.Fatal(err)
	}
	dem, err := gdal.Open(context.Background(), gdal.Request{Paths: []string{elevation}})
	if err != nil {
		t.Fatal(err)
	}
	project, free := dem.ToLonLat()
	defer free()
	middle := orb.Point{dem.Transform().OriginX + 20, dem.Transform().OriginY - 200}
	lonLat, err := project([]orb.Point{middle})
	if err != nil {
		t.Fatal(err)
	}
	layer := func(name string, p orb.Point) string {
		text := fmt.Sprintf(`{"type":"FeatureCollection","features":[{"type":"Feature","properties":{},"geometry":{"type":"Point","coordinates":[%.9f,%.9f]}}]}`, p[0], p[1])
		if err := os.WriteFile(filepath.Join(dir, name), []byte(text), 0o600); err != nil {
			t.Fatal(err)
		}
		return name
	}
	roads := []orb.LineString{{{0, 0}, {1, 1}}}
	d := declared{files: settings.Files{Folder: dir, Buildings: layer("here.geojson", lonLat[0])}}
	got, err := d.heeded(dem, roads)
	if err != nil || len(got.Buildings) != 1 || !reflect.DeepEqual(got.Roads, roads) || got.Exclusions != nil || got.Streams != nil || got.BaseLevels != nil {
		t.Fatalf("got %+v, %v", got, err)
	}
	if at := got.Buildings[0].(orb.Point); planar.Distance(at, middle) > 0.01 { // m; there and back
		t.Errorf("the building stands at %v, want %v", at, middle)
	}
	if inputs, err := d.inputs(); err != nil || len(inputs) != 1 || inputs[0].Role != "buildings" || len(inputs[0].SHA256) != 64 {
		t.Errorf("inputs %+v, %v", inputs, err)
	}
	d.files.BaseLevel = layer("far.geojson", orb.Point{10, 10})
	if _, err := d.heeded(dem, nil); err == nil || !strings.Contains(err.Error(), "far.geojson: does not touch the elevation model") {
		t.Errorf("got %v", err)
	}
	d.files.BaseLevel = "absent.geojson"
	if _, err := d.heeded(dem, nil); err == nil || !strings.Contains(err.Error(), "absent.geojson") {
		t.Errorf("got %v", err)
	}
}
