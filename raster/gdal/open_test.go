package gdal

import (
	"context"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/airbusgeo/godal"
)

func TestInspectTellsTheHeader(t *testing.T) {
	s := sample{cols: 64, rows: 48, noData: ptr(-9999), options: []string{"TILED=YES", "BLOCKXSIZE=16", "BLOCKYSIZE=32"}, crs: "EPSG:32613+6360"}
	info, err := Inspect(context.Background(), Request{Paths: []string{s.write(t, temp(t, "a.tif"))}})
	ok(t, err)
	if info.Driver != "GTiff" || info.Cols != 64 || info.Rows != 48 || info.BandType != "Float32" || info.BlockCols != 16 || info.BlockRows != 32 {
		t.Errorf("%+v", info)
	}
	if info.CellX != 1 || info.CellY != 1 || info.MapUnit != "metre" || info.CRSName != "WGS 84 / UTM zone 13N" || info.CRSFrom != "the file" {
		t.Errorf("%+v", info)
	}
	if info.NoData != "the value -9999" || info.HeightUnit != "us-ft" || info.Scale != 1 || info.Offset != 0 {
		t.Errorf("%+v", info)
	}
	// The zone's scale on its central meridian is 0.9996, so a metre of map is
	// 1/0.9996 = 1.0004 m of ground.
	if math.Abs(info.CellEastM-1.0004) > 1e-5 || math.Abs(info.CellNorthM-1.0004) > 1e-5 {
		t.Errorf("ground size %.6f x %.6f m; want 1.0004", info.CellEastM, info.CellNorthM)
	}
	if strings.Contains(open(t, s.write(t, temp(t, "b.tif"))).WKT(), "VERT") {
		t.Error("the grid's system has a vertical part")
	}
}

func TestFlagGivesTheSystem(t *testing.T) {
	bare := sample{crs: "-"}.write(t, temp(t, "a.tif"))
	d, err := Open(context.Background(), Request{Paths: []string{bare}, CRS: "EPSG:32613"})
	ok(t, err)
	if d.Info().CRSName != "WGS 84 / UTM zone 13N" || d.Info().CRSFrom != "--crs" {
		t.Errorf("%+v", d.Info())
	}
	// A flag that says what the file says is welcome.
	named := sample{}.write(t, temp(t, "b.tif"))
	_, err = Open(context.Background(), Request{Paths: []string{named}, CRS: "EPSG:32613"})
	ok(t, err)
}

func TestWrongInput(t *testing.T) {
	dir := t.TempDir()
	put := func(name, text string) string {
		path := filepath.Join(dir, name)
		ok(t, os.WriteFile(path, []byte(text), 0o644))
		return path
	}
	good := sample{cols: 300, rows: 300, options: []string{"TILED=YES", "COMPRESS=DEFLATE"}}.write(t, filepath.Join(dir, "good.tif"))
	plain := sample{cols: 300, rows: 300}.write(t, filepath.Join(dir, "plain.tif"))
	cut := func(name, of string, keep float64) string {
		data, err := os.ReadFile(of)
		ok(t, err)
		return put(name, string(data[:int(keep*float64(len(data)))]))
	}
	grid := translate(t, good, filepath.Join(dir, "grid.asc"), "-of", "AAIGrid")
	lost := sample{}.write(t, filepath.Join(dir, "lost.tif"))
	orphan := translate(t, lost, filepath.Join(dir, "orphan.vrt"), "-of", "VRT")
	ok(t, os.Remove(lost))
	file := func(name string, s sample) string { return s.write(t, filepath.Join(dir, name)) }
	tests := []struct {
		name string
		req  Request
		says []string
	}{
		{"nothing named", Request{}, []string{"no elevation model is named"}},
		{"missing", Request{Paths: []string{filepath.Join(dir, "none.tif")}}, []string{"none.tif", "no such file"}},
		{"empty", Request{Paths: []string{put("empty.tif", "")}}, []string{"empty.tif", "is empty"}},
		{"text", Request{Paths: []string{put("a.txt", "station,height\n1,2\n")}}, []string{"a.txt", "holds text"}},
		{"web page", Request{Paths: []string{put("a.html", "<!DOCTYPE html><html>not found</html>")}}, []string{"web page", "fetch it again"}},
		{"vectors", Request{Paths: []string{put("a.geojson", `{"type":"FeatureCollection","features":[]}`)}}, []string{"vector"}},
		{"folder", Request{Paths: []string{dir}}, []string{"is a folder"}},
		{"other bytes", Request{Paths: []string{put("a.bin", "\x00\x01\x02\x03\x04\x05\x06\x07")}}, []string{"not a raster"}},
		{"TIFF cut in its header", Request{Paths: []string{put("head.tif", "II*\x00\x08\x00\x00\x00")}}, []string{"head.tif", "damaged or cut short"}},
		{"TIFF cut in half", Request{Paths: []string{cut("half.tif", plain, 0.5)}}, []string{"half.tif", "damaged or cut short"}},
		{"compressed TIFF cut", Request{Paths: []string{cut("most.tif", good, 0.7)}}, []string{"most.tif", "damaged or cut short"}},
		{"ASCII grid cut", Request{Paths: []string{cut("cut.asc", grid, 0.5)}, CRS: "EPSG:32613"}, []string{"cut.asc"}},
		{"VRT without its source", Request{Paths: []string{orphan}}, []string{"orphan.vrt", "source of it is missing"}},
		{"three bands", Request{Paths: []string{file("rgb.tif", sample{bands: 3, kind: godal.Byte, z: func(int, int) float64 { return 9 }})}}, []string{"3 bands", "gdal_translate -b 1"}},
		{"8 bits", Request{Paths: []string{file("grey.tif", sample{kind: godal.Byte, z: func(int, int) float64 { return 9 }})}}, []string{"8-bit"}},
		{"complex", Request{Paths: []string{file("complex.tif", sample{kind: godal.CFloat32})}}, []string{"CFloat32"}},
		{"all void", Request{Paths: []string{file("void.tif", sample{noData: ptr(-9999), z: func(int, int) float64 { return -9999 }})}}, []string{"every cell is void"}},
		{"one cell", Request{Paths: []string{file("one.tif", sample{cols: 1, rows: 2})}}, []string{"1 x 2 cells", "at least 3 x 3"}},
		{"two columns", Request{Paths: []string{file("two.tif", sample{cols: 2, rows: 9})}}, []string{"2 x 9 cells"}},
		{"no georeference", Request{Paths: []string{file("nowhere.tif", sample{crs: "-", geo: [6]float64{0, 1, 0, 0, 0, 1}})}}, []string{"nowhere.tif", "no georeference"}},
		{"no system", Request{Paths: []string{file("bare.tif", sample{crs: "-"})}}, []string{"bare.tif", "--crs EPSG:32613"}},
		{"unknown system", Request{Paths: []string{file("bare2.tif", sample{crs: "-"})}, CRS: "EPSG:999999"}, []string{"--crs", "EPSG:999999", "not known"}},
		{"system contradicted", Request{Paths: []string{good}, CRS: "EPSG:32614"}, []string{"contradicts", "UTM zone 13N"}},
		{"local system", Request{Paths: []string{file("local.tif", sample{crs: `LOCAL_CS["the yard",UNIT["metre",1]]`})}}, []string{"the yard", "--crs"}},
		{"a height that is none", Request{Paths: []string{file("high.tif", sample{kind: godal.Float64, z: func(col, row int) float64 { return 3e6 }})}}, []string{"column 0, row 0 holds 3e+06", "-a_nodata"}},
		{"degrees outside the Earth", Request{Paths: []string{file("far.tif", sample{geo: [6]float64{500000, 1, 0, 4000000, 0, -1}, crs: "EPSG:4326"})}}, []string{"far.tif", "are no degrees"}},
		{"near the pole", Request{Paths: []string{file("pole.tif", sample{geo: [6]float64{10, 0.001, 0, 85, 0, -0.001}, crs: "EPSG:4326"})}}, []string{"outside the UTM zones"}},
		{"bad scale", Request{Paths: []string{file("scale.tif", sample{scale: math.NaN()})}}, []string{"scale NaN"}},
	}
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			got := fails(t, test.req)
			for _, text := range test.says {
				if !strings.Contains(got, text) {
					t.Errorf("%q does not say %q", got, text)
				}
			}
			t.Log(got)
		})
	}
}

func TestFilesThatDoNotFit(t *testing.T) {
	dir := t.TempDir()
	a := sample{}.write(t, filepath.Join(dir, "a.tif"))
	beside := [6]float64{500040, 1, 0, 4000000, 0, -1}
	tests := []struct {
		name string
		s    sample
		says string
	}{
		{"overlapping in another system", sample{crs: "EPSG:32612"}, "coordinate systems differ (WGS 84 / UTM zone 13N; WGS 84 / UTM zone 12N)"},
		{"without a system", sample{crs: "-", geo: beside}, "coordinate systems differ (WGS 84 / UTM zone 13N; none)"},
		{"other cells", sample{geo: [6]float64{500040, 2, 0, 4000000, 0, -2}}, "cells differ (1 x 1; 2 x 2)"},
		{"half a cell off", sample{geo: [6]float64{500040.5, 1, 0, 4000000, 0, -1}}, "shifted by 0.50 and 0.00 cells"},
		{"other band type", sample{kind: godal.Int16, geo: beside}, "band types differ (Float32; Int16)"},
		{"other unit", sample{unit: "ft", geo: beside}, "different units (not stated; ft)"},
		{"rotated", sample{geo: [6]float64{500040, 1, 0.1, 4000000, 0.1, -1}}, "b.tif is rotated or south-up"},
	}
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			b := test.s.write(t, filepath.Join(t.TempDir(), "b.tif"))
			got := fails(t, Request{Paths: []string{a, b}})
			if !strings.Contains(got, test.says) || !strings.Contains(got, a) || !strings.Contains(got, b) {
				t.Errorf("%q does not name both and say %q", got, test.says)
			}
		})
	}
}

func TestOverlapsTakeTheFirst(t *testing.T) {
	dir := t.TempDir()
	flat := func(name string, z, hole float64, geo [6]float64) string {
		return sample{noData: ptr(-1), geo: geo, z: func(col, row int) float64 {
			if row == 3 {
				return hole
			}
			return z
		}}.write(t, filepath.Join(dir, name))
	}
	a := flat("a.tif", 10, -1, [6]float64{500000, 1, 0, 4000000, 0, -1})
	b := flat("b.tif", 20, 20, [6]float64{500020, 1, 0, 4000000, 0, -1})
	d := open(t, a, b)
	g := read(t, d)
	// Columns 20 to 39 lie in both; the first counts except where it is void.
	got := []int32{g.At(19, 0), g.At(20, 0), g.At(39, 0), g.At(40, 0), g.At(25, 3)}
	if want := []int32{10000, 10000, 10000, 20000, 20000}; !slices.Equal(got, want) {
		t.Errorf("%v; want %v", got, want)
	}
	mustSay(t, d, "overlap")
	if d.Info().Cols != 60 {
		t.Errorf("%d columns; want 60", d.Info().Cols)
	}
}

// TestNothingLeaksToStderr runs the wrong inputs in a process of its own and looks at its
// error stream.
func TestNothingLeaksToStderr(t *testing.T) {
	cmd := exec.Command(os.Args[0], "-test.run=^(TestWrongInput|TestFilesThatDoNotFit|TestPolygonsThatAreRefused|TestPointsOutside)$")
	var noise strings.Builder
	cmd.Stderr = &noise
	out, err := cmd.Output()
	if err != nil {
		t.Fatalf("%v: %s", err, out)
	}
	if noise.Len() > 0 {
		t.Errorf("on the error stream: %q", noise.String())
	}
}
