package gdal

import (
	"context"
	"errors"
	"math"
	"slices"
	"strings"
	"testing"

	"github.com/airbusgeo/godal"

	"siltstep/raster"
)

func TestFormatsGiveTheSameHeights(t *testing.T) {
	plain := sample{}.write(t, temp(t, "plain.tif"))
	dir := t.TempDir()
	tests := []struct {
		name string
		path string
	}{
		{"strips", plain},
		{"tiled, compressed", sample{options: []string{"TILED=YES", "BLOCKXSIZE=16", "BLOCKYSIZE=16", "COMPRESS=DEFLATE", "PREDICTOR=3"}}.write(t, temp(t, "tiled.tif"))},
		{"one strip", sample{options: []string{"BLOCKYSIZE=30"}}.write(t, temp(t, "one.tif"))},
		{"virtual", translate(t, plain, dir+"/v.vrt", "-of", "VRT")},
		{"header and raw numbers", translate(t, plain, dir+"/raw.bil", "-of", "EHdr")},
		{"double precision", translate(t, plain, dir+"/double.tif", "-ot", "Float64")},
	}
	want := planeGrid(40, 30, slope)
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			d := open(t, test.path)
			same(t, read(t, d), want, 0)
			if !d.Info().Kept {
				t.Error("the grid was not kept")
			}
		})
	}
	t.Run("ascii grid", func(t *testing.T) {
		// 6 decimals of text: 1 mm is far above what they lose.
		path := translate(t, plain, dir+"/grid.asc", "-of", "AAIGrid", "-co", "DECIMAL_PRECISION=6")
		same(t, read(t, open(t, path)), want, 0)
	})
}

func TestRoundingIsOnceAndAwayFromZero(t *testing.T) {
	// Halves that float64 holds exactly: 1.0625 m is 1062.5 mm.
	z := func(col, _ int) float64 { return []float64{1.0625, -1.0625, 0, -0.4375, 2.1875, -0.125}[col%6] }
	g := read(t, open(t, sample{kind: godal.Float64, z: z}.write(t, temp(t, "a.tif"))))
	want := []int32{1063, -1063, 0, -438, 2188, -125}
	if !slices.Equal(g.MM[:6], want) {
		t.Errorf("%v; want %v", g.MM[:6], want)
	}
}

func TestScaleAndOffsetAreAppliedOnce(t *testing.T) {
	// Raw 5906 at 0.1 with 1000 is 1590.6 m.
	s := sample{kind: godal.Int16, scale: 0.1, offset: 1000, z: func(col, _ int) float64 { return 5906 + float64(col) }}
	d := open(t, s.write(t, temp(t, "a.tif")))
	g := read(t, d)
	for _, row := range []struct {
		col  int
		want int32
	}{{0, 1590600}, {1, 1590700}, {39, 1594500}} {
		if got := g.At(row.col, 3); got != row.want {
			t.Errorf("column %d: %d mm; want %d", row.col, got, row.want)
		}
	}
	mustSay(t, d, "Scale 0.1 and offset 1000")
}

func TestVoids(t *testing.T) {
	hole := func(value float64) func(int, int) float64 {
		return func(col, row int) float64 {
			if col == 5 && row == 7 {
				return value
			}
			return slope(col, row)
		}
	}
	masked := func(col, row int) byte {
		if col == 5 && row == 7 {
			return 0
		}
		return 255
	}
	tests := []struct {
		name string
		s    sample
		says string
	}{
		{"declared -9999", sample{noData: ptr(-9999), z: hole(-9999)}, ""},
		{"declared 0", sample{noData: ptr(0), z: hole(0)}, ""},
		{"declared NaN", sample{noData: ptr(math.NaN()), z: hole(math.NaN())}, ""},
		{"declared -3.4e38", sample{noData: ptr(-math.MaxFloat32), z: hole(-math.MaxFloat32)}, ""},
		{"NaN, nothing declared", sample{z: hole(math.NaN())}, "1 cells hold no number"},
		{"infinity, nothing declared", sample{z: hole(math.Inf(1))}, "1 cells hold no number"},
		{"NaN beside a declared value", sample{noData: ptr(-9999), z: hole(math.NaN())}, "1 cells hold no number"},
		{"-9999, nothing declared", sample{z: hole(-9999)}, "1 cells hold -9999, which the file does not declare"},
		{"-32768, nothing declared", sample{kind: godal.Int16, z: hole(-32768)}, "-32768"},
		{"-3.4e38, nothing declared", sample{z: hole(-math.MaxFloat32)}, "-3.40282"},
		{"another mark beside a declared value", sample{noData: ptr(-9999), z: hole(-32767)}, "-32767"},
		{"internal mask", sample{mask: masked}, ""},
	}
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			d := open(t, test.s.write(t, temp(t, "a.tif")))
			g := read(t, d)
			if g.At(5, 7) != raster.VoidMM || g.ValidCells() != 40*30-1 {
				t.Errorf("cell 5, 7 is %d mm, %d valid cells; want void and %d", g.At(5, 7), g.ValidCells(), 40*30-1)
			}
			if test.says != "" {
				mustSay(t, d, test.says)
			}
		})
	}
}

func TestExternalMask(t *testing.T) {
	path := temp(t, "a.tif")
	start()
	t.Setenv("GDAL_TIFF_INTERNAL_MASK", "NO")
	sample{mask: func(col, row int) byte { return byte(255 * ((col + row) % 2)) }}.write(t, path)
	if got := Sidecars(path); len(got) != 1 || !strings.HasSuffix(got[0], ".msk") {
		t.Fatalf("sidecars %v; want one mask", got)
	}
	if g := read(t, open(t, path)); g.ValidCells() != 600 || g.At(0, 0) != raster.VoidMM {
		t.Errorf("%d valid cells; want 600", g.ValidCells())
	}
}

func TestLowHeightsAreHeights(t *testing.T) {
	// Zero, small negatives and the shore of the Dead Sea are no voids.
	z := func(col, _ int) float64 { return []float64{0, -1, -9.999, -430, -99.99}[col%5] }
	g := read(t, open(t, sample{z: z}.write(t, temp(t, "a.tif"))))
	if g.ValidCells() != 1200 || !slices.Equal(g.MM[:5], []int32{0, -1000, -9999, -430000, -99990}) {
		t.Errorf("%d valid, %v", g.ValidCells(), g.MM[:5])
	}
}

func TestReadersDoNotChangeTheResult(t *testing.T) {
	geographic := [6]float64{-105, 1.0 / 10800, 0, 40, 0, -1.0 / 10800}
	for name, s := range map[string]sample{
		"kept":   {cols: 700, rows: 2100, options: []string{"TILED=YES"}},
		"warped": {cols: 700, rows: 1100, geo: geographic, crs: "EPSG:4326"},
	} {
		t.Run(name, func(t *testing.T) {
			d := open(t, s.write(t, temp(t, "a.tif")))
			two := read(t, d)
			d.handles = 1
			same(t, read(t, d), two, 0)
			d.handles = 5
			same(t, read(t, d), two, 0)
		})
	}
}

func TestSeveralModelsAtOnce(t *testing.T) {
	path := sample{cols: 300, rows: 1200}.write(t, temp(t, "a.tif"))
	want := read(t, open(t, path))
	done := make(chan *raster.Grid)
	for range 4 {
		go func() {
			d, err := Open(context.Background(), Request{Paths: []string{path}})
			if err != nil {
				done <- nil
				return
			}
			g, _ := d.Read(context.Background(), nil)
			done <- g
		}()
	}
	for range 4 {
		g := <-done
		if g == nil {
			t.Fatal("a reader failed")
		}
		same(t, g, want, 0)
	}
}

func TestProgressAndCancel(t *testing.T) {
	d := open(t, sample{cols: 50, rows: 3000}.write(t, temp(t, "a.tif")))
	last, calls := 0, 0
	_, err := d.Read(context.Background(), func(done, total int) {
		if done <= last || total != 3000 {
			t.Errorf("%d of %d after %d", done, total, last)
		}
		last, calls = done, calls+1
	})
	ok(t, err)
	if last != 3000 || calls < 3 {
		t.Errorf("progress ended at %d after %d calls", last, calls)
	}
	ctx, cancel := context.WithCancel(context.Background())
	g, err := d.Read(ctx, func(int, int) { cancel() })
	if !errors.Is(err, context.Canceled) || g != nil {
		t.Errorf("%v, %v; want nothing and a cancelled context", g, err)
	}
}

func mustSay(t *testing.T, d *DEM, text string) {
	t.Helper()
	for _, s := range d.Info().Decisions {
		if strings.Contains(s, text) {
			return
		}
	}
	t.Errorf("no decision says %q: %q", text, d.Info().Decisions)
}
