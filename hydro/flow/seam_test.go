package flow_test

import (
	"fmt"
	"testing"

	"siltstep/hydro/flow"
	"siltstep/raster"
	"siltstep/raster/rastertest"
)

// serpentine is a level corridor one cell wide that runs to and fro between walls over
// the whole grid and ends at a low gap in the last row: the longest way a flat can have.
func serpentine(cols, rows int) *raster.Grid {
	return rastertest.Surface(cols, rows, 1, func(col, row int) int32 {
		turnEast := row%4 == 0
		switch {
		case row == rows-1 && col == 1:
			return 9000
		case row == rows-1 || row == 0 || col == 0 || col == cols-1:
			return 12_000
		case row%2 == 1, turnEast && col == cols-2, !turnEast && col == 1:
			return 10_000
		}
		return 11_000
	})
}

// nest is one bowl inside another, each with its own sill, around the middle of the grid:
// water of the inner ones passes all the outer ones.
func nest(cols, rows int) *raster.Grid {
	g := rastertest.Fractal(8, cols, rows, 400)
	for i := range g.MM {
		col, row := g.ColRow(i)
		ring := max(max(col-cols/2, cols/2-col), max(row-rows/2, rows/2-row))
		if ring%60 < 3 {
			g.MM[i] += 5000 // walls, some of them lower by the noise
		}
	}
	return g
}

// Grids large enough that no part of the work sees all of them at once: the filled surface
// against a plain heap, directions against the slow rules, catchments against their
// recurrence, and one worker against three.
func TestLargeGrids(t *testing.T) {
	if testing.Short() {
		t.Skip("large grids take some seconds")
	}
	tests := []struct {
		name string
		g    *raster.Grid
	}{
		{"random, 3 levels", rastertest.Random(1, 700, 650, 3)},
		{"random, 10 levels", rastertest.Random(2, 650, 700, 10)},
		{"random, 1000 levels", rastertest.Random(3, 700, 650, 1000)},
		{"random, 10 levels, voids", rastertest.Pepper(4, rastertest.Random(4, 700, 650, 10), 40)},
		{"fractal, 50 m", rastertest.Fractal(5, 800, 620, 50_000)},
		{"fractal, 40 mm, many flats", rastertest.Fractal(6, 620, 800, 40)},
		{"fractal with voids", rastertest.Pepper(7, rastertest.Fractal(7, 700, 650, 20_000), 500)},
		{"nested bowls", nest(700, 650)},
		{"wide flat, one gap", rastertest.WalledFlat(640, 300, 10_000)},
		{"level plain", rastertest.Plane(640, 610, 10_000, 0, 0)},
		{"serpentine", serpentine(601, 604)},
		{"pyramid pit", rastertest.PyramidPit(320)},
		{"valley with a bank", rastertest.RaiseRow(rastertest.Valley(301, 900, 90_000, 500, 50), 700, 110_000)},
		{"fractal in voids", rastertest.VoidRing(rastertest.Fractal(9, 600, 610, 30_000), 30)},
		{"one row", rastertest.Random(10, 1500, 1, 1000)},
		{"one column", rastertest.Random(11, 1, 1500, 10)},
		{"two rows", rastertest.Random(12, 1200, 2, 3)},
	}
	for _, side := range []int{255, 256, 257, 258, 511, 512, 513, 514} {
		tests = append(tests, struct {
			name string
			g    *raster.Grid
		}{fmt.Sprintf("random, %d x 300", side), rastertest.Random(uint64(side), side, 300, 10)})
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			f := run(t, tt.g, 1)
			sameCells(t, "filled", tt.g, f.FilledMM, heapFill(tt.g))
			sameCells(t, "down", tt.g, downs(f), slowDown(tt.g, f.FilledMM))
			checkCells(t, tt.g, f)
			sameField(t, "three workers", tt.g, run(t, tt.g, 3), f)
		})
	}
}

// checkCells holds a field to what defines catchments where flow has no loop: each cell
// gathers itself and what its neighbours send it, and the ends gather everything. The
// truncated mark spreads the same way.
func checkCells(t *testing.T, g *raster.Grid, f *flow.Field) {
	t.Helper()
	sameCells(t, "truncated", g, truncations(f), walkedTruncation(f))
	for i := range g.MM {
		want := uint32(0)
		if f.Valid(i) {
			want = 1
		}
		for k := range 8 {
			if j, ok := neighbour(g, i, k); ok && f.Down(j) == i {
				want += f.Cells[j]
			}
		}
		if f.Cells[i] != want {
			t.Fatalf("cell %d gathers %d cells, itself and its neighbours make %d", i, f.Cells[i], want)
		}
	}
	if _, sum := endsSum(f); sum != g.ValidCells() {
		t.Fatalf("ends gather %d cells, %d hold data", sum, g.ValidCells())
	}
}

// Labels on a large grid: each cell has the label of the cell it drains to, unless it is
// itself a point.
func TestLabelsOnLargeGrid(t *testing.T) {
	g := rastertest.Fractal(13, 700, 650, 30_000)
	f := run(t, g, 2)
	var points []int
	own := make([]int32, len(g.MM))
	for i := range own {
		if own[i] = -1; f.Cells[i] > 200 && i%7 == 0 {
			own[i] = int32(len(points))
			points = append(points, i)
		}
	}
	if len(points) < 20 {
		t.Fatalf("only %d points", len(points))
	}
	labels := f.Labels(points)
	for i, l := range labels {
		want := own[i]
		if d := f.Down(i); want < 0 && d >= 0 {
			want = labels[d]
		}
		if l != want {
			t.Fatalf("cell %d has label %d, want %d", i, l, want)
		}
	}
}
