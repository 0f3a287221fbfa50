package gdal

import (
	"context"
	"fmt"
	"math"
	"path/filepath"
	"testing"

	"github.com/airbusgeo/godal"
	"github.com/paulmach/orb"

	"siltstep/raster"
)

// thirdArcsecond is the cell of 1/3 arc-second data, degrees.
const thirdArcsecond = 1.0 / 10800

// degrees is a model in longitude and latitude whose north-west corner is at 105° W, 40° N.
func degrees(cols, rows int) sample {
	return sample{cols: cols, rows: rows, crs: "EPSG:4326", geo: [6]float64{-105, thirdArcsecond, 0, 40, 0, -thirdArcsecond}}
}

func TestGroundSizeOfDegrees(t *testing.T) {
	// Closed forms of the ellipsoid (a = 6378137 m, 1/f = 298.257223563) at 40° N: one
	// third of an arc-second is N cos(40°) x pi/1944000 = 7.907 m east and M x pi/1944000
	// = 10.281 m north (N = 6386976.2 m, M = 6361815.8 m); their mean rounds to 9.1 m.
	path := degrees(30, 30).write(t, temp(t, "a.tif"))
	s := degrees(30, 30)
	s.geo[3] += 15 * thirdArcsecond // so that the centre lies at 40° N
	path = s.write(t, path)
	info, err := Inspect(context.Background(), Request{Paths: []string{path}})
	ok(t, err)
	if math.Abs(info.CellEastM-7.907) > 0.0006 || math.Abs(info.CellNorthM-10.281) > 0.0006 {
		t.Errorf("cell of %.4f x %.4f m; want 7.907 x 10.281", info.CellEastM, info.CellNorthM)
	}
	if info.GridCellM != 9.1 || info.GridCRSName != "WGS 84 / UTM zone 13N" || info.Kept {
		t.Errorf("grid of %g m in %q, kept %v", info.GridCellM, info.GridCRSName, info.Kept)
	}
}

func TestCellRounding(t *testing.T) {
	for _, row := range []struct{ in, want float64 }{
		{9.094, 9.1}, {0.9144, 0.91}, {0.3048, 0.3}, {1.04, 1}, {0.999, 1}, {0.001, 0.01}, {30.96, 31},
	} {
		if got := roundCell(row.in); got != row.want {
			t.Errorf("%g m rounds to %g; want %g", row.in, got, row.want)
		}
	}
}

// bilinear is the slow obvious twin: the exact position of each target cell in the source,
// and the mean of the four cells around it, weighted by nearness, over those with data.
func bilinear(t *testing.T, s sample, d *DEM, void func(col, row int) bool) *raster.Grid {
	t.Helper()
	p, err := newProjector(d.target.wkt, s.crs)
	ok(t, err)
	defer p.close()
	g := raster.New(d.target.cols, d.target.rows, d.target.transform)
	for i := range g.MM {
		x, y := g.CenterOf(i)
		at, err := p.points([]orb.Point{{x, y}})
		ok(t, err)
		col := (at[0][0]-s.geo[0])/s.geo[1] - 0.5
		row := (at[0][1]-s.geo[3])/s.geo[5] - 0.5
		g.MM[i] = raster.VoidMM
		if col < -0.5 || row < -0.5 || col >= float64(s.cols)-0.5 || row >= float64(s.rows)-0.5 {
			continue
		}
		c0, r0 := math.Floor(col), math.Floor(row)
		sum, weight := 0.0, 0.0
		for _, k := range [][2]float64{{0, 0}, {1, 0}, {0, 1}, {1, 1}} {
			c, r := int(c0+k[0]), int(r0+k[1])
			if c < 0 || r < 0 || c >= s.cols || r >= s.rows || void(c, r) {
				continue
			}
			w := (1 - math.Abs(col-float64(c))) * (1 - math.Abs(row-float64(r)))
			sum, weight = sum+w*float64(float32(s.z(c, r))), weight+w
		}
		if weight > 1e-9 {
			g.MM[i] = mm(sum / weight)
		}
	}
	return g
}

func TestWarpIsBilinearAtTheExactPlace(t *testing.T) {
	s := degrees(60, 50)
	s.z = slope
	d := open(t, s.write(t, temp(t, "a.tif")))
	// float32 millimetres near 1.6e6 step by 0.125 mm, in the source and in the result.
	same(t, read(t, d), bilinear(t, s, d, func(int, int) bool { return false }), 1)
}

func TestWarpLeavesVoidsOutOfTheMean(t *testing.T) {
	void := func(col, row int) bool { return col > 20 && col < 26 && row > 10 && row < 19 }
	s := degrees(60, 50)
	s.z = func(col, row int) float64 {
		if void(col, row) {
			return -9999
		}
		return slope(col, row)
	}
	d := open(t, s.write(t, temp(t, "a.tif")))
	g := read(t, d)
	lo, hi, _ := g.RangeMM()
	// The plane runs from 1600 - 12.25 to 1600 + 7.375 + 0.06 m.
	if lo < 1587000 || hi > 1608000 {
		t.Errorf("heights from %d to %d mm: a void was mixed in", lo, hi)
	}
	mustSay(t, d, "-9999")
	// Around a void the library decides by the nearest cell whether there is a height.
	want := bilinear(t, s, d, void)
	for i := range g.MM {
		if a, b := g.MM[i], want.MM[i]; a != raster.VoidMM && b != raster.VoidMM && (a-b > 1 || b-a > 1) {
			t.Fatalf("cell %d: %d mm; want %d", i, a, b)
		}
	}
	if n := want.ValidCells() - g.ValidCells(); n < 0 || n > 60 {
		t.Errorf("%d valid cells; the twin has %d", g.ValidCells(), want.ValidCells())
	}
}

func TestStripsEqualAPlainWarp(t *testing.T) {
	// The same file, warped at once by the library into one raster with the same switches,
	// higher than one strip and wider than one block of a virtual raster.
	s := degrees(700, 1300)
	void := -9999.0
	s.noData = &void
	s.z = func(col, row int) float64 {
		if (col-300)*(col-300)+(row-600)*(row-600) < 900 {
			return void
		}
		return slope(col, row)
	}
	path := s.write(t, temp(t, "a.tif"))
	d := open(t, path)
	got := read(t, d)
	t1 := d.Transform()
	src, err := godal.Open(path)
	ok(t, err)
	defer src.Close()
	num := func(v float64) string { return fmt.Sprintf("%.17g", v) }
	out, err := src.Warp("", []string{"-of", "MEM", "-t_srs", d.WKT(), "-r", "bilinear", "-et", "0", "-novshift",
		"-te", num(t1.OriginX), num(t1.OriginY - float64(got.Rows)*t1.CellM), num(t1.OriginX + float64(got.Cols)*t1.CellM), num(t1.OriginY),
		"-tr", num(t1.CellM), num(t1.CellM), "-srcnodata", "-9999", "-dstnodata", "-9999", "-ot", "Float64", "-wt", "Float64",
		"-wo", "XSCALE=1", "-wo", "YSCALE=1"})
	ok(t, err)
	defer out.Close()
	buf := make([]float64, got.Cols*got.Rows)
	ok(t, out.Read(0, 0, buf, got.Cols, got.Rows))
	want := raster.New(got.Cols, got.Rows, t1)
	for i, v := range buf {
		want.MM[i] = raster.VoidMM
		if v != void {
			want.MM[i] = mm(v)
		}
	}
	same(t, got, want, 1) // float32 against float64 on the way: 0.125 mm
	if got.ValidCells() != want.ValidCells() {
		t.Errorf("%d valid cells; want %d", got.ValidCells(), want.ValidCells())
	}
}

func TestTilesGiveTheSameCells(t *testing.T) {
	for name, whole := range map[string]sample{
		"kept":   {cols: 61, rows: 47, crs: "EPSG:32613", geo: [6]float64{500000, 1, 0, 4000000, 0, -1}},
		"warped": degrees(61, 47),
	} {
		t.Run(name, func(t *testing.T) {
			dir := t.TempDir()
			whole.z = slope
			one := read(t, open(t, whole.write(t, filepath.Join(dir, "whole.tif"))))
			var paths []string
			for k, part := range [][4]int{{0, 0, 30, 20}, {30, 0, 31, 20}, {0, 20, 30, 27}, {30, 20, 31, 27}} {
				s := whole
				s.cols, s.rows = part[2], part[3]
				s.geo[0] += float64(part[0]) * s.geo[1]
				s.geo[3] += float64(part[1]) * s.geo[5]
				s.z = func(col, row int) float64 { return slope(col+part[0], row+part[1]) }
				paths = append(paths, s.write(t, filepath.Join(dir, fmt.Sprintf("tile%d.tif", k))))
			}
			same(t, read(t, open(t, paths...)), one, 0)
			same(t, read(t, open(t, paths[3], paths[1], paths[0], paths[2])), one, 0)
			d := open(t, paths[0], paths[3])
			mustSay(t, d, "do not cover")
			if g := read(t, d); g.ValidCells() == 0 || g.At(g.Cols-2, 2) != raster.VoidMM {
				t.Error("a gap between files is not void")
			}
		})
	}
}

func TestTurnedGridsAreWarped(t *testing.T) {
	// The height is that of the place, 1000 m + metres north of 4000000, so every cell of
	// a grid that came out right holds its own northing.
	tests := []struct {
		name string
		geo  [6]float64
		why  string
	}{
		{"rotated by 30°", [6]float64{500000, 2 * 0.8660254037844386, 2 * 0.5, 4000000, 2 * 0.5, -2 * 0.8660254037844386}, "rotated"},
		{"south-up", [6]float64{500000, 2, 0, 4000000, 0, 2}, "south to north"},
		{"not square", [6]float64{500000, 2, 0, 4000000, 0, -3}, "not square"},
		{"east to west", [6]float64{500000, -2, 0, 4000000, 0, -2}, "east to west"},
	}
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			s := sample{cols: 40, rows: 40, geo: test.geo, kind: godal.Float64}
			s.z = func(col, row int) float64 {
				return 1000 + mapPoint(test.geo, float64(col)+0.5, float64(row)+0.5)[1] - 4000000
			}
			d := open(t, s.write(t, temp(t, "a.tif")))
			g := read(t, d)
			mustSay(t, d, test.why)
			n := 0
			for i, z := range g.MM {
				col, row := g.ColRow(i)
				if z == raster.VoidMM || onEdge(g, col, row) {
					continue
				}
				_, y := g.CenterOf(i)
				if want := mm(1000 + y - 4000000); z-want > 1 || want-z > 1 {
					t.Fatalf("cell %d, %d: %d mm; want %d", col, row, z, want)
				}
				n++
			}
			if n < 900 {
				t.Errorf("%d cells were checked; want at least 900", n)
			}
		})
	}
}

// onEdge reports whether a cell or one of its neighbours, two cells out, has no data: there
// the mean is taken over fewer than four cells.
func onEdge(g *raster.Grid, col, row int) bool {
	for dr := -2; dr <= 2; dr++ {
		for dc := -2; dc <= 2; dc++ {
			if g.At(col+dc, row+dr) == raster.VoidMM {
				return true
			}
		}
	}
	return false
}

func TestWhichGridsAreKept(t *testing.T) {
	tests := []struct {
		name, crs string
		geo       [6]float64
		kept      bool
		grid      string
	}{
		{"UTM at home", "EPSG:32613", [6]float64{500000, 1, 0, 4000000, 0, -1}, true, "WGS 84 / UTM zone 13N"},
		{"national grid", "EPSG:3067", [6]float64{403500, 20, 0, 7530500, 0, -20}, true, "ETRS89 / TM35FIN(E,N)"},
		{"UTM 12° off", "EPSG:32613", [6]float64{1500000, 10, 0, 4000000, 0, -10}, false, "WGS 84 / UTM zone 15N"},
		{"web map", "EPSG:3857", [6]float64{-11700000, 10, 0, 4800000, 0, -10}, false, "WGS 84 / UTM zone 13N"},
		{"survey feet", "EPSG:2231", [6]float64{3000000, 3, 0, 1500000, 0, -3}, false, "NAD83 / UTM zone 13N"},
		{"degrees, south", "EPSG:4326", [6]float64{147, thirdArcsecond, 0, -35, 0, -thirdArcsecond}, false, "WGS 84 / UTM zone 55S"},
		{"degrees, other datum", "EPSG:4283", [6]float64{147, thirdArcsecond, 0, -35, 0, -thirdArcsecond}, false, "GDA94 / UTM zone 55S"},
		{"degrees, European datum", "EPSG:4258", [6]float64{24.8, thirdArcsecond, 0, 67.8, 0, -thirdArcsecond}, false, "ETRS89 / UTM zone 35N"},
		{"degrees, old datum", "EPSG:4267", [6]float64{-105, thirdArcsecond, 0, 40, 0, -thirdArcsecond}, false, "NAD27 / UTM zone 13N"},
	}
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			d, err := Open(context.Background(), Request{Paths: []string{sample{crs: test.crs, geo: test.geo}.write(t, temp(t, "a.tif"))}, ElevationUnit: "m"})
			ok(t, err)
			info := d.Info()
			if info.Kept != test.kept || info.GridCRSName != test.grid {
				t.Errorf("kept %v in %q; want %v in %q", info.Kept, info.GridCRSName, test.kept, test.grid)
			}
			if test.kept && (info.GridCellM != test.geo[1] || d.Transform().OriginX != test.geo[0] || d.Transform().OriginY != test.geo[3]) {
				t.Errorf("the kept grid was moved: %+v", d.Transform())
			}
			if g := read(t, d); !test.kept && g.ValidCells() < 600 {
				t.Errorf("%d valid cells", g.ValidCells())
			}
		})
	}
}
