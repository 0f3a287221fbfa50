package raster

import (
	"fmt"
	"math"
)

// VoidMM marks a cell without data.
const VoidMM int32 = math.MinInt32

// MaxCells is the largest grid, in cells: cell indexes are kept in 32 bits.
const MaxCells = math.MaxInt32

// Grid is an elevation model: Rows × Cols cells in row-major order from the north-west.
type Grid struct {
	Cols, Rows int
	Transform  Transform
	MM         []int32 // elevation of each cell in millimetres, or VoidMM
}

// New returns a grid of the given size with every elevation at zero. It panics where
// the size is not positive or over MaxCells, which is a programmer's mistake.
func New(cols, rows int, t Transform) *Grid {
	if cols <= 0 || rows <= 0 || cols > MaxCells/rows {
		panic(fmt.Sprintf("raster: bad size %d x %d", cols, rows))
	}
	return &Grid{Cols: cols, Rows: rows, Transform: t, MM: make([]int32, cols*rows)}
}

// Index returns the place of a cell in MM. The cell must lie inside the grid.
func (g *Grid) Index(col, row int) int { return row*g.Cols + col }

// ColRow returns the column and row of the cell at index i.
func (g *Grid) ColRow(i int) (col, row int) { return i % g.Cols, i / g.Cols }

// Inside reports whether a column and row lie on the grid.
func (g *Grid) Inside(col, row int) bool {
	return col >= 0 && row >= 0 && col < g.Cols && row < g.Rows
}

// At returns the elevation of a cell in millimetres, VoidMM outside the grid.
func (g *Grid) At(col, row int) int32 {
	if !g.Inside(col, row) {
		return VoidMM
	}
	return g.MM[g.Index(col, row)]
}

// CenterOf returns the map coordinates of the centre of the cell at index i, in metres.
func (g *Grid) CenterOf(i int) (x, y float64) {
	col, row := g.ColRow(i)
	return g.Transform.Center(col, row)
}

// ValidCells returns how many cells hold data.
func (g *Grid) ValidCells() int {
	n := 0
	for _, z := range g.MM {
		if z != VoidMM {
			n++
		}
	}
	return n
}

// RangeMM returns the lowest and the highest elevation in millimetres; ok is false
// where every cell is void.
func (g *Grid) RangeMM() (lo, hi int32, ok bool) {
	lo, hi = math.MaxInt32, math.MinInt32
	for _, z := range g.MM {
		if z == VoidMM {
			continue
		}
		lo, hi, ok = min(lo, z), max(hi, z), true
	}
	return lo, hi, ok
}
