package channel

import (
	"context"
	"slices"
	"testing"

	"siltstep/hydro/flow"
	"siltstep/raster"
	"siltstep/raster/rastertest"
)

// moves are the steps a drawn path may take, in column and row.
var moves = map[rune][2]int{
	'>': {1, 0}, '<': {-1, 0}, '^': {0, -1}, 'v': {0, 1},
	'\\': {1, 1}, '/': {-1, 1}, // running down the page
}

// path returns the cells of a drawn path that begins at a cell.
func path(cols, col, row int, drawn string) []int {
	cells := []int{row*cols + col}
	for _, m := range drawn {
		col, row = col+moves[m][0], row+moves[m][1]
		cells = append(cells, row*cols+col)
	}
	return cells
}

// sketch returns the tree of drawn paths. Each head brings the area named for its cell in
// heads, or 100 cells, and each cell one more of its own.
func sketch(cols int, heads map[int]uint32, paths ...[]int) tree {
	down := map[int]int{}
	for _, p := range paths {
		for k, cell := range p {
			if _, seen := down[cell]; !seen {
				down[cell] = -1
			}
			if k > 0 {
				down[p[k-1]] = cell
			}
		}
	}
	area := map[int]uint32{}
	drained := map[int]bool{}
	for _, d := range down {
		drained[d] = true
	}
	for cell := range down {
		own := uint32(1)
		if !drained[cell] {
			own = 100
			if a, ok := heads[cell]; ok {
				own = a
			}
		}
		for c := cell; c >= 0; c = down[c] {
			area[c] += own
		}
	}
	t := tree{cols: cols}
	for cell := range down {
		t.cell = append(t.cell, cell)
	}
	slices.Sort(t.cell)
	for _, cell := range t.cell {
		t.down = append(t.down, int32(t.place(down[cell])))
		t.area = append(t.area, area[cell])
	}
	return t
}

// run returns the flow over a grid; edges open.
func run(t testing.TB, g *raster.Grid) *flow.Field {
	t.Helper()
	f, err := flow.Run(context.Background(), g, flow.Config{}, nil)
	if err != nil {
		t.Fatal(err)
	}
	return f
}

// country returns rough ground that falls to the south and is lowest along its middle.
func country(seed uint64, cols, rows int) *raster.Grid {
	g := rastertest.Fractal(seed, cols, rows, 3_000)
	for i := range g.MM {
		col, row := g.ColRow(i)
		g.MM[i] += int32(100_000 - 40*row + 15*max(col-cols/2, cols/2-col))
	}
	return g
}
