package field

import (
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"testing"

	"siltstep/cmd/internal/facts"

	"github.com/paulmach/orb"
	"github.com/paulmach/orb/geojson"
)

// nearDegrees is how far positions read by another program may lie from the plan's: 7 decimals are written.
const nearDegrees = 1e-6

// layersOf reads layers of a file with GDAL's own driver, as points by name.
func layersOf(t *testing.T, path string, layers ...string) map[string]orb.Point {
	t.Helper()
	tool, err := exec.LookPath("ogr2ogr")
	if err != nil {
		t.Skip("ogr2ogr is not installed (package gdal-bin)")
	}
	points := map[string]orb.Point{}
	for _, layer := range layers {
		out := filepath.Join(t.TempDir(), "layer.geojson")
		if said, err := exec.Command(tool, "-f", "GeoJSON", "-lco", "COORDINATE_PRECISION=9", out, path, layer).CombinedOutput(); err != nil {
			t.Fatalf("%s of %s: %v: %s", layer, path, err, said)
		}
		text, err := os.ReadFile(out)
		if err != nil {
			t.Fatal(err)
		}
		read, err := geojson.UnmarshalFeatureCollection(text)
		if err != nil {
			t.Fatal(err)
		}
		for _, one := range read.Features {
			name := one.Properties.MustString("name", one.Properties.MustString("Name", ""))
			if _, twice := points[name]; twice {
				t.Errorf("%s comes twice", name)
			}
			points[name] = one.Geometry.(orb.Point)
		}
	}
	return points
}

// samePlaces compares what was read with the plan.
func samePlaces(t *testing.T, f *facts.Folder, got map[string]orb.Point) {
	t.Helper()
	want := map[string]facts.Place{}
	for _, s := range f.Sites {
		want[s.ID] = s.Place
	}
	for _, h := range f.Headcuts {
		want[h.ID] = h.Place
	}
	delete(want, "D01-03") // it has no position
	if len(got) != len(want) {
		t.Errorf("%d places read, the plan has %d", len(got), len(want))
	}
	for id, p := range want {
		at, ok := got[id]
		if !ok || math.Abs(at[0]-float64(p.Lon)) > nearDegrees || math.Abs(at[1]-float64(p.Lat)) > nearDegrees {
			t.Errorf("%s: read at %v, the plan has %v %v", id, at, p.Lon, p.Lat)
		}
	}
}

func TestGDALReadsFieldFiles(t *testing.T) {
	f := invented()
	for _, row := range []struct {
		file   string
		write  writer
		layers []string
	}{
		{"sites.gpx", WriteGPX, []string{"waypoints"}},
		{"sites.kml", WriteKML, []string{"1. Series D02-S1", "2. Series D01-S1", "Headcuts"}},
	} {
		t.Run(row.file, func(t *testing.T) {
			path := filepath.Join(t.TempDir(), row.file)
			if err := os.WriteFile(path, written(t, row.write, f, Options{}), 0o600); err != nil {
				t.Fatal(err)
			}
			samePlaces(t, f, layersOf(t, path, row.layers...))
		})
	}
}
