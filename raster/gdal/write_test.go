package gdal

import (
	"bytes"
	"context"
	"errors"
	"image/png"
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/airbusgeo/godal"

	"siltstep/raster"
)

func TestModelComesBack(t *testing.T) {
	g := raster.New(700, 600, raster.Transform{OriginX: 500000.5, OriginY: 4000000, CellM: 0.5})
	for i := range g.MM {
		g.MM[i] = int32(i%8_000_000 - 12345)
		if i%17 == 0 {
			g.MM[i] = raster.VoidMM
		}
	}
	path := temp(t, "a.tif")
	ok(t, WriteDEM(context.Background(), path, g, "EPSG:32613"))
	d := open(t, path)
	same(t, read(t, d), g, 0)
	if info := d.Info(); info.CRSName != "WGS 84 / UTM zone 13N" || info.NoData != "the value -9999" || info.BlockCols != 512 || info.BlockRows != 512 {
		t.Errorf("%+v", info)
	}
}

func TestSameInputSameBytes(t *testing.T) {
	sheet := Sheet{Cols: 1100, Rows: 600, Transform: raster.Transform{OriginX: 500000, OriginY: 4000000, CellM: 1}, CRS: "EPSG:32613"}
	var files [2][]byte
	for i := range files {
		path := temp(t, "a.tif")
		ok(t, WriteFloat(context.Background(), path, sheet, math.NaN(), func(row int, buf []float32) {
			for c := range buf {
				buf[c] = float32(math.Sin(float64(row*c)) * 100)
			}
		}))
		var err error
		files[i], err = os.ReadFile(path)
		ok(t, err)
		alone(t, path)
	}
	if !bytes.Equal(files[0], files[1]) {
		t.Error("two runs wrote different bytes")
	}
}

// alone checks that a file is the only one in its folder.
func alone(t *testing.T, path string) {
	t.Helper()
	entries, err := os.ReadDir(filepath.Dir(path))
	ok(t, err)
	if len(entries) != 1 || entries[0].Name() != filepath.Base(path) {
		t.Errorf("in the folder: %v; want only %s", entries, filepath.Base(path))
	}
}

func TestWholeNumbersComeBack(t *testing.T) {
	path := temp(t, "bearing.tif")
	sheet := Sheet{Cols: 30, Rows: 20, Transform: raster.Transform{OriginX: 500000, OriginY: 4000000, CellM: 1}, CRS: "EPSG:32613"}
	ok(t, WriteInt16(context.Background(), path, sheet, -1, func(row int, buf []int16) {
		for c := range buf {
			buf[c] = int16(45 * ((row + c) % 9))
		}
	}))
	ds, err := godal.Open(path)
	ok(t, err)
	defer ds.Close()
	buf := make([]int16, 600)
	ok(t, ds.Read(0, 0, buf, 30, 20))
	for i, v := range buf {
		if v != int16(45*((i/30+i%30)%9)) {
			t.Fatalf("cell %d is %d", i, v)
		}
	}
	if nd, set := ds.Bands()[0].NoData(); !set || nd != -1 || ds.Bands()[0].Structure().DataType != godal.Int16 {
		t.Errorf("nodata %g, %v", nd, set)
	}
}

func TestWritesThatFail(t *testing.T) {
	g := planeGrid(40, 30, slope)
	dir := t.TempDir()
	ok(t, os.WriteFile(filepath.Join(dir, "file"), nil, 0o644))
	cancelled, cancel := context.WithCancel(context.Background())
	cancel()
	tests := []struct {
		name string
		ctx  context.Context
		path string
		crs  string
		want string
	}{
		{"no such folder", context.Background(), filepath.Join(dir, "none", "a.tif"), "EPSG:32613", "cannot be written"},
		{"a file for a folder", context.Background(), filepath.Join(dir, "file", "a.tif"), "EPSG:32613", "cannot be written"},
		{"unknown system", context.Background(), filepath.Join(dir, "a.tif"), "EPSG:999999", "not known"},
		{"cancelled", cancelled, filepath.Join(dir, "a.tif"), "EPSG:32613", "not written"},
	}
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			err := WriteDEM(test.ctx, test.path, g, test.crs)
			if err == nil || !strings.Contains(err.Error(), test.want) {
				t.Errorf("%v; want %q", err, test.want)
			}
			if test.ctx.Err() != nil && !errors.Is(err, context.Canceled) {
				t.Errorf("%v is not the context's", err)
			}
		})
	}
	alone(t, filepath.Join(dir, "file"))
	if err := Hillshade(context.Background(), filepath.Join(dir, "none", "a.png"), g, 10); err == nil {
		t.Error("a picture in no folder was written")
	}
}

func TestHillshade(t *testing.T) {
	// A ridge along the middle row: the side towards the light, north, is brighter.
	g := raster.New(300, 200, raster.Transform{CellM: 1})
	for i := range g.MM {
		col, row := g.ColRow(i)
		g.MM[i] = int32(1000 * (100 - max(row-100, 100-row)))
		if col < 60 {
			g.MM[i] = raster.VoidMM
		}
	}
	tests := []struct{ limit, w, h int }{{1000, 300, 200}, {100, 100, 67}, {150, 150, 100}, {1, 1, 1}}
	for _, test := range tests {
		path := temp(t, "shade.png")
		ok(t, Hillshade(context.Background(), path, g, test.limit))
		alone(t, path)
		first, err := os.ReadFile(path)
		ok(t, err)
		ok(t, Hillshade(context.Background(), path, g, test.limit))
		second, err := os.ReadFile(path)
		ok(t, err)
		if !bytes.Equal(first, second) {
			t.Error("two runs drew different bytes")
		}
		img, err := png.Decode(bytes.NewReader(first))
		ok(t, err)
		if b := img.Bounds(); b.Dx() != test.w || b.Dy() != test.h {
			t.Errorf("%d x %d pixels; want %d x %d", b.Dx(), b.Dy(), test.w, test.h)
		}
		if test.limit == 1 {
			continue
		}
		if _, _, _, a := img.At(test.w/10, test.h/2).RGBA(); a != 0 {
			t.Error("a void is not transparent")
		}
		north, _, _, a := img.At(test.w/2, test.h/4).RGBA()
		south, _, _, _ := img.At(test.w/2, 3*test.h/4).RGBA()
		if a != 0xffff || north <= south {
			t.Errorf("north side %d, south side %d, alpha %d", north, south, a)
		}
	}
}

func TestMeanHeightsKeepTheMean(t *testing.T) {
	g := planeGrid(50, 31, slope)
	total := 0.0
	for _, mm := range g.MM {
		total += float64(mm) / 1000
	}
	sum := 0.0
	for _, z := range meanHeights(g, 20, 13) {
		sum += float64(z)
	}
	// Every pixel stands for the same area, so the means agree to float32.
	if a, b := total/(50*31), sum/(20*13); math.Abs(a-b) > 1e-3 {
		t.Errorf("mean of the picture %g m; of the grid %g", b, a)
	}
}

func TestChecksum(t *testing.T) {
	// FIPS 180-4: SHA-256 of "abc".
	path := temp(t, "a.tif")
	ok(t, os.WriteFile(path, []byte("abc"), 0o644))
	got, err := Checksum(path)
	ok(t, err)
	if want := (FileSum{path, 3, "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad"}); got != want {
		t.Errorf("%+v; want %+v", got, want)
	}
	for _, name := range []string{"a.tfw", "a.tif.aux.xml", "a.prj", "a.txt"} {
		ok(t, os.WriteFile(filepath.Join(filepath.Dir(path), name), []byte("x"), 0o644))
	}
	var names []string
	for _, s := range Sidecars(path) {
		names = append(names, filepath.Base(s))
	}
	if strings.Join(names, " ") != "a.tif.aux.xml a.tfw a.prj" {
		t.Errorf("sidecars %v", names)
	}
	for _, bad := range []string{filepath.Dir(path), path + "none"} {
		if _, err := Checksum(bad); !errors.Is(err, ErrInput) {
			t.Errorf("%s: %v", bad, err)
		}
	}
}
