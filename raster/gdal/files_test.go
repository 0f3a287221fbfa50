package gdal

import (
	"context"
	"errors"
	"math"
	"os"
	"path/filepath"
	"testing"

	"github.com/airbusgeo/godal"

	"siltstep/raster"
)

// sample describes a file for a test; zero fields take the usual value.
type sample struct {
	driver     godal.DriverName // GTiff
	kind       godal.DataType   // Float32
	cols, rows int              // 40 x 30
	bands      int              // 1
	geo        [6]float64       // 1 m cells at 500000, 4000000
	crs        string           // "EPSG:32613"; "-" for none
	unit       string           // band unit
	noData     *float64
	scale      float64
	offset     float64
	options    []string
	z          func(col, row int) float64 // slope
	mask       func(col, row int) byte
}

// slope is the surface of most samples: a tilted plane with a bend, in file units.
func slope(col, row int) float64 {
	return 1600 + 0.125*float64(col) - 0.25*float64(row) + 0.01*float64(col*row%7)
}

func (s sample) write(t *testing.T, path string) string {
	t.Helper()
	start()
	if s.driver == "" {
		s.driver = godal.GTiff
	}
	if s.kind == 0 {
		s.kind = godal.Float32
	}
	s.cols, s.rows, s.bands = max(s.cols, 1), max(s.rows, 1), max(s.bands, 1)
	if s.cols == 1 && s.rows == 1 {
		s.cols, s.rows = 40, 30
	}
	if s.geo == [6]float64{} {
		s.geo = [6]float64{500000, 1, 0, 4000000, 0, -1}
	}
	if s.z == nil {
		s.z = slope
	}
	ds, err := godal.Create(s.driver, path, s.bands, s.kind, s.cols, s.rows, godal.CreationOption(s.options...))
	ok(t, err)
	if s.geo != [6]float64{0, 1, 0, 0, 0, 1} {
		ok(t, ds.SetGeoTransform(s.geo))
	}
	if s.crs == "" {
		s.crs = "EPSG:32613"
	}
	if s.crs != "-" {
		ok(t, ds.SetProjection(s.crs))
	}
	band := ds.Bands()[0]
	if s.noData != nil {
		ok(t, band.SetNoData(*s.noData))
	}
	if s.scale != 0 {
		ok(t, band.SetScaleOffset(s.scale, s.offset))
	}
	buf := make([]float64, s.cols*s.rows)
	for i := range buf {
		buf[i] = s.z(i%s.cols, i/s.cols)
	}
	for _, b := range ds.Bands() {
		ok(t, b.Write(0, 0, buf, s.cols, s.rows))
	}
	if s.mask != nil {
		m, err := ds.CreateMaskBand(maskPerDataset)
		ok(t, err)
		bytes := make([]byte, s.cols*s.rows)
		for i := range bytes {
			bytes[i] = s.mask(i%s.cols, i/s.cols)
		}
		ok(t, m.Write(0, 0, bytes, s.cols, s.rows))
	}
	ok(t, ds.Close())
	if s.unit != "" {
		setUnit(t, path, s.unit)
	}
	return path
}

// setUnit states a band unit in the file beside the raster, as programs do that cannot
// write it inside.
func setUnit(t *testing.T, path, unit string) {
	t.Helper()
	ok(t, os.WriteFile(path+".aux.xml", []byte(
		`<PAMDataset><PAMRasterBand band="1"><UnitType>`+unit+`</UnitType></PAMRasterBand></PAMDataset>`), 0o644))
}

func ok(t *testing.T, err error) {
	t.Helper()
	if err != nil {
		t.Fatal(err)
	}
}

func temp(t *testing.T, name string) string { return filepath.Join(t.TempDir(), name) }

func open(t *testing.T, paths ...string) *DEM {
	t.Helper()
	d, err := Open(context.Background(), Request{Paths: paths})
	ok(t, err)
	return d
}

func read(t *testing.T, d *DEM) *raster.Grid {
	t.Helper()
	g, err := d.Read(context.Background(), nil)
	ok(t, err)
	return g
}

// fails opens and reads and returns the error, which must be the input's.
func fails(t *testing.T, req Request) string {
	t.Helper()
	d, err := Open(context.Background(), req)
	if err == nil {
		_, err = d.Read(context.Background(), nil)
	}
	if err == nil {
		t.Fatal("no error")
	}
	if !errors.Is(err, ErrInput) {
		t.Errorf("%v: is not an ErrInput", err)
	}
	return err.Error()
}

// translate runs the library's own converter on a file.
func translate(t *testing.T, from, to string, switches ...string) string {
	t.Helper()
	ds, err := godal.Open(from, godal.SiblingFiles())
	ok(t, err)
	out, err := ds.Translate(to, switches)
	ok(t, err)
	ok(t, out.Close())
	ok(t, ds.Close())
	return to
}

// mm is the millimetre value of a height in metres, rounded half away from zero.
func mm(m float64) int32 { return int32(math.Round(m * 1000)) }

// same compares grids cell by cell within a tolerance in millimetres.
func same(t *testing.T, got, want *raster.Grid, toleranceMM int32) {
	t.Helper()
	if got.Cols != want.Cols || got.Rows != want.Rows || got.Transform != want.Transform {
		t.Fatalf("grid %d x %d %+v; want %d x %d %+v", got.Cols, got.Rows, got.Transform, want.Cols, want.Rows, want.Transform)
	}
	bad := 0
	for i := range got.MM {
		a, b := got.MM[i], want.MM[i]
		if a == b {
			continue
		}
		if a == raster.VoidMM || b == raster.VoidMM || max(a, b)-min(a, b) > toleranceMM {
			if bad++; bad < 4 {
				col, row := got.ColRow(i)
				t.Errorf("cell %d, %d: %d mm; want %d", col, row, a, b)
			}
		}
	}
	if bad > 3 {
		t.Errorf("%d cells differ", bad)
	}
}

// planeGrid is what a sample on the usual grid must become.
func planeGrid(cols, rows int, z func(col, row int) float64) *raster.Grid {
	g := raster.New(cols, rows, raster.Transform{OriginX: 500000, OriginY: 4000000, CellM: 1})
	for i := range g.MM {
		z := float64(float32(z(i%cols, i/cols)))
		g.MM[i] = mm(z)
	}
	return g
}

func ptr(v float64) *float64 { return &v }
