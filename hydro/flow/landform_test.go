package flow_test

import (
	"math"
	"slices"
	"testing"

	"siltstep/hydro/flow"
	"siltstep/raster"
	"siltstep/raster/rastertest"
)

// at is a cell with the count expected there.
type at struct {
	row, col int
	cells    uint32
}

func (a at) check(t *testing.T, g *raster.Grid, f *flow.Field) {
	t.Helper()
	if got := f.Cells[g.Index(a.col, a.row)]; got != a.cells {
		t.Errorf("row %d, column %d gathers %d cells, want %d", a.row, a.col, got, a.cells)
	}
}

// Catchments of landforms, each from the closed form in its comment; lengths in metres,
// cells of 1 m.
func TestLandformCatchments(t *testing.T) {
	valley := func() *raster.Grid { return rastertest.Valley(21, 30, 50_000, 500, 50) }
	banked := func() *raster.Grid {
		return rastertest.RaiseRow(rastertest.Valley(21, 100, 50_000, 500, 50), 60, 48_500)
	}
	gap := func() *raster.Grid {
		g := banked()
		g.MM[g.Index(10, 60)] = 47_000 // the bed there: 50 - 60·0.05
		return g
	}
	tests := []struct {
		name string
		g    *raster.Grid
		want []at
	}{
		// z = 100 - r, 10 rows x 8 columns: straight south, A = r + 1.
		{"plane to the south", rastertest.Plane(8, 10, 100_000, 0, 1000),
			[]at{{0, 3, 1}, {5, 3, 6}, {9, 3, 10}, {9, 0, 10}, {9, 7, 10}}},
		// Sides 0.5, bed 0.05: 0.05 < 0.41421·0.5, so sides drain square to the bed; A = 21(r+1)
		// on the bed, distance from the side wall + 1 on the sides.
		{"V valley, 30 x 21", valley(),
			[]at{{0, 10, 21}, {9, 10, 210}, {29, 10, 630}, {9, 9, 10}, {9, 5, 6}, {9, 0, 1}, {9, 11, 10}}},
		// Bank across row 60 with a gap at the bed. Above it 60·21; in the gap itself and its two
		// neighbours on the crest, 3 more; below it all of 62 rows, 62·21 = 1302.
		{"bank with a gap", gap(), []at{{59, 10, 1260}, {60, 10, 1263}, {61, 10, 1302}}},
		// Crest 53 on row 15 of the valley: the water of rows 0 to 14 turns round and leaves
		// to the north, 15·21 = 315; the rest is 15 rows to the south.
		{"bank that spills upstream", rastertest.RaiseRow(valley(), 15, 53_000), []at{{0, 10, 315}, {29, 10, 315}}},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			f := run(t, tt.g, 2)
			for _, w := range tt.want {
				w.check(t, tt.g, f)
			}
		})
	}
}

// z = 100 - (r + c), 10 x 10: water runs SE, so A = min(r, c) + 1 on all 100 cells. A rule
// that kept water inside the grid would send all of it round to one corner.
func TestDiagonalPlane(t *testing.T) {
	g := rastertest.Plane(10, 10, 100_000, 1000, 1000)
	f := run(t, g, 1)
	for i := range g.MM {
		col, row := g.ColRow(i)
		at{row, col, uint32(min(row, col) + 1)}.check(t, g, f)
	}
}

// On z = -r - q·c water turns from S to SE at q = √2 - 1 = 0.41421: the fall over the
// diagonal is (1 + q)/√2 against 1. Heights 10 000 times as large keep q in whole mm.
func TestPlaneTurnsToDiagonal(t *testing.T) {
	tests := []struct {
		eastMM  int32 // 10 000·q
		bearing int16
	}{{4000, 180}, {4142, 180}, {4143, 135}, {4300, 135}}
	for _, tt := range tests {
		g := rastertest.Plane(12, 9, 0, tt.eastMM, 10_000)
		f := run(t, g, 1)
		for i := range g.MM {
			if got := f.BearingDeg(i); !onRim(g, i) && got != tt.bearing {
				t.Errorf("fall east %d: cell %d bears %d, want %d", tt.eastMM, i, got, tt.bearing)
			}
		}
	}
}

// What the fill adds to pits of known volume, cells of 1 m.
func TestLandformFill(t *testing.T) {
	valley := func(rows int) *raster.Grid { return rastertest.Valley(21, rows, 50_000, 500, 50) }
	spilled := rastertest.RaiseRow(valley(100), 60, 48_500)
	gap := rastertest.RaiseRow(valley(100), 60, 48_500)
	gap.MM[gap.Index(10, 60)] = 47_000
	tests := []struct {
		name    string
		g       *raster.Grid
		mm3     int64 // sum of depths over cells, mm
		cells   int
		deepest int32 // mm
	}{
		{"plane", rastertest.Plane(8, 10, 100_000, 0, 1000), 0, 0, 0},
		{"valley", valley(30), 0, 0, 0},
		// Bed before the bank at 47.05 fills to 48.50: deepest 1.45. A cell k columns out at
		// bed depth d holds d - k/2; d = 1.45, 1.40 … 0.05 over 29 rows: on the bed 29 cells,
		// 21.75; k = 1 twice 19 cells, 9.5; k = 2 twice 9 cells, 2.25. 21.75 + 19 + 4.5 = 45.25.
		{"bank across a valley", spilled, 45_250, 85, 1450},
		{"bank with a gap", gap, 0, 0, 0},
		// The bed spills at row 0, at 50.00; row r is 0.05·r below: 14 rows, 0.05 to 0.70 on the
		// bed, sum 5.25; k = 1 twice rows 11 to 14, 0.05 to 0.20, sum 0.50. 5.25 + 1.00 = 6.25.
		{"bank that spills upstream", rastertest.RaiseRow(valley(30), 15, 53_000), 6250, 22, 700},
		// 5 9 2 6 1 4 3 8 7 0 fills to 5 9 8 8 8 8 8 8 7 0: 6 + 2 + 7 + 4 + 5 = 24.
		{"strip with three pits", rastertest.Strip(20, 5, 9, 2, 6, 1, 4, 3, 8, 7, 0), 24_000, 5, 7000},
		// m + 4m(m²-1)/3 in (2m-1)² cells.
		{"pyramid pit, radius 3", rastertest.PyramidPit(3), 35_000, 25, 3000},
		{"pyramid pit, radius 10", rastertest.PyramidPit(10), 1_330_000, 361, 10_000},
		{"saddle", rastertest.Saddle(5), 0, 0, 0},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			mm, cells, deepest := fillAdded(tt.g, run(t, tt.g, 2))
			if mm != tt.mm3 || cells != tt.cells || deepest != tt.deepest {
				t.Errorf("fill adds %d mm in %d cells, %d deepest; want %d, %d, %d",
					mm, cells, deepest, tt.mm3, tt.cells, tt.deepest)
			}
		})
	}
}

// fillAdded sums the depth of fill over all cells, counts the cells and finds the deepest.
func fillAdded(g *raster.Grid, f *flow.Field) (mm int64, cells int, deepest int32) {
	for i, z := range g.MM {
		if depth := f.FilledMM[i] - z; depth > 0 {
			mm += int64(depth)
			cells++
			deepest = max(deepest, depth)
		}
	}
	return mm, cells, deepest
}

// A bank inside the valley spills over itself or, where its crest is higher than the bed
// at the border, over the border: only the second may be a drainage cut short.
func TestSpillsOverTheBorder(t *testing.T) {
	tests := []struct {
		name  string
		rows  int
		crest int32 // mm, on the row told
		row   int
		want  []int
	}{
		{"no bank", 30, 0, 15, nil},
		{"bank lower than the bed at the border", 100, 48_500, 60, nil},
		{"bank higher than the bed at the border", 30, 53_000, 15, []int{10}}, // row 0, column 10
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			g := rastertest.RaiseRow(rastertest.Valley(21, tt.rows, 50_000, 500, 50), tt.row, tt.crest)
			if got := run(t, g, 1).EdgeSpills; !slices.Equal(got, tt.want) {
				t.Errorf("got %v, want %v", got, tt.want)
			}
		})
	}
}

func TestStripFillsToItsSills(t *testing.T) {
	g := rastertest.Strip(20, 5, 9, 2, 6, 1, 4, 3, 8, 7, 0)
	f := run(t, g, 1)
	for col, wantM := range []int32{5, 9, 8, 8, 8, 8, 8, 8, 7, 0} {
		if got := f.FilledMM[g.Index(col, 1)]; got != wantM*1000 {
			t.Errorf("column %d fills to %d mm, want %d m", col, got, wantM)
		}
	}
}

// A cone pit of radius 20 m and depth 5 m holds π·20²·5/3 = 2094.395 m³. The sum of its
// depths over the cells comes to 2094.207 m³ on cells of 1 m, 2094.378 on 0.5 m and
// 2094.386 on 0.25 m; it is made here too, and on depths rounded to millimetres, which the
// fill must meet exactly.
func TestConePitVolume(t *testing.T) {
	for _, tt := range []struct{ cellM, m3 float64 }{{1, 2094.207}, {0.5, 2094.378}, {0.25, 2094.386}} {
		sum, sumMM, inside := 0.0, int64(0), 0
		for row := -80; row <= 80; row++ {
			for col := -80; col <= 80; col++ {
				if r := tt.cellM * math.Hypot(float64(row), float64(col)); r < 20 {
					depth := 5 * (1 - r/20)
					sum += depth * tt.cellM * tt.cellM
					sumMM += int64(math.Round(1000 * depth))
					inside++
				}
			}
		}
		if math.Abs(sum-tt.m3) > 0.0006 { // the figures above are rounded to 0.001 m³
			t.Errorf("cells of %g m: the sum is %.4f m³, want %.3f", tt.cellM, sum, tt.m3)
		}
		g := rastertest.ConePit(20, 5, tt.cellM)
		mm, cells, deepest := fillAdded(g, run(t, g, 1))
		if mm != sumMM || cells != inside || deepest != 5000 {
			t.Errorf("cells of %g m: fill adds %d mm in %d cells, %d deepest; want %d, %d, 5000",
				tt.cellM, mm, cells, deepest, sumMM, inside)
		}
	}
}

// Saddle z = (r-5)(c-5), 11 x 11: the two low corners and the border beside them are ends,
// ten in all, and share the 121 cells; the corners themselves gather 5 and 6 by the tie order.
func TestSaddleEnds(t *testing.T) {
	g := rastertest.Saddle(5)
	f := run(t, g, 1)
	if ends, sum := endsSum(f); ends != 10 || sum != 121 {
		t.Errorf("%d ends gather %d cells, want 10 and 121", ends, sum)
	}
	at{0, 10, 5}.check(t, g, f)
	at{10, 0, 6}.check(t, g, f)
}

// Level square of 7 x 7 with a gap in its east wall. The table is 2T + max A - A with
// max A = 4 by hand: T steps from the low edge (L, which touches the gap), A steps from
// the wall. Each cell drains to its least neighbour, the first in the order E, S, W, N, SE,
// SW, NW, NE where several are least; L is less than all, and drains into the gap.
func TestFlatDrainsByMask(t *testing.T) {
	const L = -1
	mask := [7][7]int{
		{17, 15, 13, 11, 9, 9, 9},
		{17, 14, 12, 10, 8, 6, 7},
		{17, 14, 11, 9, 7, 6, L},
		{17, 14, 11, 8, 7, 5, L},
		{17, 14, 11, 9, 7, 6, L},
		{17, 14, 12, 10, 8, 6, 7},
		{17, 15, 13, 11, 9, 9, 9},
	}
	g := rastertest.WalledFlat(7, 4, 10_000)
	f := run(t, g, 1)
	for row := range 7 {
		for col := range 7 {
			want, least := g.Index(8, 4), math.MaxInt
			for k := range 8 {
				c, r := col+neighbourCol[k], row+neighbourRow[k]
				if mask[row][col] != L && c >= 0 && c < 7 && r >= 0 && r < 7 && mask[r][c] < least {
					want, least = g.Index(c+1, r+1), mask[r][c]
				}
			}
			if got := f.Down(g.Index(col+1, row+1)); got != want {
				t.Errorf("row %d, column %d of the flat drains to cell %d, want %d", row, col, got, want)
			}
		}
	}
}
