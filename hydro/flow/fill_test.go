package flow_test

import (
	"cmp"
	"container/heap"
	"math"
	"slices"
	"testing"

	"pgregory.net/rapid"

	"siltstep/raster"
)

// The eight neighbours in the order that settles ties: E, S, W, N, SE, SW, NW, NE.
var (
	neighbourCol = [8]int{1, 0, -1, 0, 1, -1, -1, 1}
	neighbourRow = [8]int{0, 1, 0, -1, 1, 1, -1, -1}
)

// neighbour returns the index of the neighbour of cell i on side k; ok is false where it
// is void or outside the grid.
func neighbour(g *raster.Grid, i, k int) (j int, ok bool) {
	col, row := g.ColRow(i)
	col, row = col+neighbourCol[k], row+neighbourRow[k]
	if g.At(col, row) == raster.VoidMM {
		return -1, false
	}
	return g.Index(col, row), true
}

// onRim reports whether a cell with data lies on the border of the grid or touches a void.
func onRim(g *raster.Grid, i int) bool {
	for k := range 8 {
		if _, ok := neighbour(g, i, k); !ok {
			return true
		}
	}
	return false
}

// fixpointFill is the filled surface by its definition: the rim keeps its elevation, every
// other cell starts at +∞ and sinks to max(z, lowest neighbour) until nothing changes.
func fixpointFill(g *raster.Grid) []int32 {
	f := make([]int32, len(g.MM))
	for i, z := range g.MM {
		if f[i] = math.MaxInt32; z == raster.VoidMM || onRim(g, i) {
			f[i] = z
		}
	}
	for changed := true; changed; {
		changed = false
		for i, z := range g.MM {
			if z == raster.VoidMM {
				continue
			}
			for k := range 8 {
				if j, ok := neighbour(g, i, k); ok && max(z, f[j]) < f[i] {
					f[i], changed = max(z, f[j]), true
				}
			}
		}
	}
	return f
}

// treeFill is the filled surface by a minimum spanning tree: water can go from cell to
// cell at the height of the higher one and from the rim to the outside at the rim's
// height; a cell fills to the highest edge on its way out in the tree. Edges join sets of
// cells from the lowest up, so that is the edge that joins a cell's set to the outside.
func treeFill(g *raster.Grid) []int32 {
	type edge struct {
		a, b int
		mm   int32
	}
	outside := len(g.MM)
	var edges []edge
	for i, z := range g.MM {
		if z == raster.VoidMM {
			continue
		}
		if onRim(g, i) {
			edges = append(edges, edge{i, outside, z})
		}
		for k := range 8 {
			if j, ok := neighbour(g, i, k); ok && j > i {
				edges = append(edges, edge{i, j, max(z, g.MM[j])})
			}
		}
	}
	slices.SortFunc(edges, func(x, y edge) int { return cmp.Compare(x.mm, y.mm) })

	set := make([]int, outside+1) // name of the set of each cell
	members := make([][]int, outside+1)
	for i := range set {
		set[i], members[i] = i, []int{i}
	}
	f := slices.Clone(g.MM)
	for _, e := range edges {
		into, from := set[e.a], set[e.b]
		if into == from {
			continue
		}
		if from == set[outside] {
			into, from = from, into
		}
		for _, i := range members[from] {
			if into == set[outside] {
				f[i] = e.mm
			}
			set[i] = into
		}
		members[into] = append(members[into], members[from]...)
		members[from] = nil
	}
	return f
}

// front is a heap of cells by filled height.
type front struct {
	cell []int
	f    []int32
}

func (q *front) Len() int           { return len(q.cell) }
func (q *front) Less(a, b int) bool { return q.f[q.cell[a]] < q.f[q.cell[b]] }
func (q *front) Swap(a, b int)      { q.cell[a], q.cell[b] = q.cell[b], q.cell[a] }
func (q *front) Push(x any)         { q.cell = append(q.cell, x.(int)) }
func (q *front) Pop() any {
	last := q.cell[len(q.cell)-1]
	q.cell = q.cell[:len(q.cell)-1]
	return last
}

// heapFill is the filled surface by the smallest highest point on any way out, found from
// the rim inwards as shortest ways are (Dijkstra 1959, with max in place of the sum). It is
// the fastest of the three and serves large grids.
func heapFill(g *raster.Grid) []int32 {
	f := slices.Clone(g.MM)
	seen := make([]bool, len(f))
	q := &front{f: f}
	for i, z := range g.MM {
		if z != raster.VoidMM && onRim(g, i) {
			seen[i] = true
			heap.Push(q, i)
		}
	}
	for q.Len() > 0 {
		i := heap.Pop(q).(int)
		for k := range 8 {
			if j, ok := neighbour(g, i, k); ok && !seen[j] {
				seen[j] = true
				f[j] = max(g.MM[j], f[i])
				heap.Push(q, j)
			}
		}
	}
	return f
}

// drawGrid draws a grid of up to 24 x 24 cells with 3, 10 or 1000 levels, a third of them
// with voids strewn in, at least one cell with data.
func drawGrid(t *rapid.T) *raster.Grid {
	cols, rows := rapid.IntRange(1, 24).Draw(t, "cols"), rapid.IntRange(1, 24).Draw(t, "rows")
	levels := rapid.SampledFrom([]int32{3, 10, 1000}).Draw(t, "levels")
	voids := rapid.SampledFrom([]bool{false, false, true}).Draw(t, "voids")
	g := raster.New(cols, rows, raster.Transform{CellM: 1})
	height := rapid.Int32Range(0, levels-1)
	if voids {
		height = rapid.Int32Range(-levels/4-1, levels-1) // below zero stands for void
	}
	copy(g.MM, rapid.SliceOfN(height, len(g.MM), len(g.MM)).Draw(t, "mm"))
	for i, z := range g.MM {
		if z < 0 {
			g.MM[i] = raster.VoidMM
		}
	}
	if g.ValidCells() == 0 {
		g.MM[0] = 0
	}
	return g
}

// sameCells fails at the first cell where two rasters differ.
func sameCells[T comparable](t fataler, what string, g *raster.Grid, got, want []T) {
	t.Helper()
	if len(got) != len(want) {
		t.Fatalf("%s: %d cells, want %d", what, len(got), len(want))
	}
	for i := range want {
		if got[i] != want[i] {
			col, row := g.ColRow(i)
			t.Fatalf("%s at column %d, row %d of %d x %d: got %v, want %v", what, col, row, g.Cols, g.Rows, got[i], want[i])
		}
	}
}

// fataler is what *testing.T and *rapid.T share here.
type fataler interface {
	Helper()
	Fatalf(format string, args ...any)
}

// The filled surface is unique, so all ways to find it agree on every cell.
func TestFillEqualsOracles(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		g := drawGrid(t)
		f := run(t, g, 1)
		sameCells(t, "filled against fixpoint", g, f.FilledMM, fixpointFill(g))
		sameCells(t, "filled against spanning tree", g, f.FilledMM, treeFill(g))
		sameCells(t, "filled against heap", g, f.FilledMM, heapFill(g))
	})
}

// A filled surface lies nowhere below the ground and stays as it is when filled again.
func TestFillRaisesAndRests(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		g := drawGrid(t)
		f := run(t, g, 1)
		again := *g
		again.MM = f.FilledMM
		for i, z := range g.MM {
			if f.FilledMM[i] < z {
				t.Fatalf("cell %d: filled %d below the ground %d", i, f.FilledMM[i], z)
			}
		}
		sameCells(t, "filled twice", g, run(t, &again, 1).FilledMM, f.FilledMM)
	})
}
