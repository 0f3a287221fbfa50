package cli

import (
	"bytes"
	"context"
	"encoding/json"
	"fmt"
	"io"
	"math"
	"os"
	"path/filepath"
	"slices"
	"testing"

	"github.com/paulmach/orb"
	"github.com/paulmach/orb/geojson"
	"github.com/paulmach/orb/planar"

	"siltstep/cmd/internal/demo"
	"siltstep/raster"
	"siltstep/raster/gdal"
)

// The same land must give the same dams in whatever units, coordinate system and number of
// files it comes. The land is a piece of the demo ranch, 700 x 700 cells of 1 m.
func TestSameLandSameDams(t *testing.T) {
	if testing.Short() {
		t.Skip("makes a ranch of 3 million cells")
	}
	ranch, err := demo.Generate(demo.DefaultSize, demo.DefaultSeed)
	if err != nil {
		t.Fatal(err)
	}
	land := piece(ranch.Grid, 650, 400, 1350, 1100)
	top := t.TempDir()
	place := func(name string) string { return filepath.Join(top, name) }
	write := func(name string, g *raster.Grid, crs string, unitM float64) string {
		t.Helper()
		err := gdal.WriteFloat(context.Background(), place(name), gdal.SheetOf(g, crs), -9999, func(row int, buf []float32) {
			for col := range buf {
				buf[col] = float32(float64(g.At(col, row)) / 1000 / unitM)
			}
		})
		if err != nil {
			t.Fatal(err)
		}
		return place(name)
	}
	metres := planned(t, place("plan-m"), write("m.tif", land, demo.CRS, 1))
	if len(metres) < 20 {
		t.Fatalf("only %d dams on the piece of land: too few to compare", len(metres))
	}
	t.Run("four tiles", func(t *testing.T) {
		var files []string
		for k, tile := range quarters(land) {
			files = append(files, write(fmt.Sprintf("tile%d.tif", k), tile, demo.CRS, 1))
		}
		planned(t, place("plan-tiles"), files...)
		for _, name := range []string{"sites.geojson", "drainages.geojson", "reaches.geojson", "catchments.geojson", "summary.csv", "hillshade.png"} {
			one, errOne := os.ReadFile(place("plan-m/" + name))
			four, errFour := os.ReadFile(place("plan-tiles/" + name))
			if errOne != nil || errFour != nil || !bytes.Equal(one, four) {
				t.Errorf("%s is not the same from four tiles (%v, %v)", name, errOne, errFour)
			}
		}
	})
	for _, feet := range []struct {
		unit  string
		unitM float64
	}{{"ft", 0.3048}, {"us-ft", 1200.0 / 3937}} {
		t.Run("heights in "+feet.unit, func(t *testing.T) {
			file := write(feet.unit+".tif", land, demo.CRS, feet.unitM)
			// A float32 of 5,600 ft is true to 0.15 mm, which can turn the millimetre.
			alike(t, metres, planned(t, place("plan-"+feet.unit), file, "--elevation-unit", feet.unit), 0.1, 0.002)
		})
	}
	t.Run("longitude and latitude", func(t *testing.T) {
		planned(t, place("plan-degrees"), inDegrees(t, land, place("degrees.tif")))
		near(t, metres, place("plan-degrees"), 2)
	})
}

// planned plans some files and returns the dams.
func planned(t *testing.T, dir string, words ...string) []*geojson.Feature {
	t.Helper()
	var stderr bytes.Buffer
	args := append([]string{"siltstep", "--quiet", "plan", "--out", dir}, words...)
	if code := Run(context.Background(), args, nil, io.Discard, &stderr); code != ExitDone {
		t.Fatalf("exit code %d: %s", code, stderr.String())
	}
	return features(t, dir, "sites")
}

// features reads a layer of a plan.
func features(t *testing.T, dir, name string) []*geojson.Feature {
	t.Helper()
	text, err := os.ReadFile(filepath.Join(dir, name+".geojson"))
	if err != nil {
		t.Fatal(err)
	}
	var layer geojson.FeatureCollection
	if err := json.Unmarshal(text, &layer); err != nil {
		t.Fatal(err)
	}
	return layer.Features
}

// alike checks that two plans hold the same dams within some metres of station and height.
func alike(t *testing.T, a, b []*geojson.Feature, stationM, heightM float64) {
	t.Helper()
	if len(a) != len(b) {
		t.Fatalf("%d dams, want %d", len(b), len(a))
	}
	for i := range a {
		one, two := a[i].Properties, b[i].Properties
		if one["id"] != two["id"] || one["series"] != two["series"] {
			t.Errorf("dam %v of series %v, want %v of %v", two["id"], two["series"], one["id"], one["series"])
		}
		for name, within := range map[string]float64{"station_m": stationM, "bed_m": heightM, "notch_sill_m": heightM} {
			if d := math.Abs(one.MustFloat64(name) - two.MustFloat64(name)); d > within+1e-9 {
				t.Errorf("dam %v: %s differs by %.4f m, want at most %g", one["id"], name, d, within)
			}
		}
	}
}

// near checks that a plan on resampled land has as many dams, within a tenth, and that its
// eligible reaches run where the dams of each series of four or more stand: the middle one
// of their distances is within some metres. Along the channel a series may begin some metres
// elsewhere, because resampling moves confluences; one of two or three dams hangs on a
// reach that just qualifies and may be gone.
func near(t *testing.T, want []*geojson.Feature, dir string, withinM float64) {
	t.Helper()
	if got := features(t, dir, "sites"); math.Abs(float64(len(got)-len(want))) > 0.1*float64(len(want)) {
		t.Errorf("%d dams, want %d within a tenth", len(got), len(want))
	}
	var reaches []orb.LineString
	for _, f := range features(t, dir, "reaches") {
		if f.Properties["verdict"] == "eligible" {
			reaches = append(reaches, onGround(f.Geometry.(orb.LineString)...))
		}
	}
	distances := map[string][]float64{} // by drainage and series
	for _, f := range want {
		least := math.Inf(1)
		for _, line := range reaches {
			least = min(least, planar.DistanceFrom(line, onGround(f.Point())[0]))
		}
		series := fmt.Sprint(f.Properties["drainage"], ", series ", f.Properties["series"])
		distances[series] = append(distances[series], least)
	}
	for series, d := range distances {
		slices.Sort(d)
		if middle := d[len(d)/2]; len(d) >= 4 && middle > withinM {
			t.Errorf("%s of %d dams: %.1f m from an eligible reach of the other plan, want at most %g", series, len(d), middle, withinM)
		}
	}
}

// onGround turns near positions in degrees into metres: 111,320 m a degree of longitude
// at the equator and 110,980 m a degree of latitude at 37° (WGS 84), true to 0.1 %.
func onGround(degrees ...orb.Point) orb.LineString {
	line := make(orb.LineString, len(degrees))
	for i, p := range degrees {
		line[i] = orb.Point{p[0] * 111320 * math.Cos(37.27*math.Pi/180), p[1] * 110980}
	}
	return line
}

// inDegrees writes the land on cells of longitude and latitude of about its own size, each
// height bilinear at the cell's centre.
func inDegrees(t *testing.T, land *raster.Grid, path string) string {
	t.Helper()
	toLonLat, free := gdal.Projector(demo.CRS, "EPSG:4326")
	defer free()
	fromLonLat, freeToo := gdal.Projector("EPSG:4326", demo.CRS)
	defer freeToo()
	o, side := land.Transform, float64(land.Cols)
	corners, err := toLonLat([]orb.Point{{o.OriginX, o.OriginY}, {o.OriginX + side, o.OriginY - side}})
	if err != nil {
		t.Fatal(err)
	}
	// Square cells in degrees are narrower than high on the ground, here 0.89 m by 1.11 m, so
	// that their mean is the 1 m of the land.
	step := (corners[0][1] - corners[1][1]) / side * 1.11
	cols, rows := int((corners[1][0]-corners[0][0])/step), int((corners[0][1]-corners[1][1])/step)
	sheet := gdal.Sheet{Cols: cols, Rows: rows, CRS: "EPSG:4326", Transform: raster.Transform{OriginX: corners[0][0], OriginY: corners[0][1], CellM: step}}
	err = gdal.WriteFloat(context.Background(), path, sheet, -9999, func(row int, buf []float32) {
		at := make([]orb.Point, len(buf))
		for col := range at {
			at[col][0], at[col][1] = sheet.Transform.Center(col, row)
		}
		if at, err = fromLonLat(at); err != nil {
			t.Error(err)
			return
		}
		for col := range buf {
			buf[col] = -9999
			if z, ok := land.Sample(at[col][0], at[col][1]); ok {
				buf[col] = float32(z)
			}
		}
	})
	if err != nil {
		t.Fatal(err)
	}
	return path
}
