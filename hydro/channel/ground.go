package channel

import (
	"math"

	"siltstep/raster"
)

// tan225 is the tangent of 22.5°: directions nearer to a diagonal than to an axis have a
// ratio of components above it. Closed form √2 − 1.
const tan225 = math.Sqrt2 - 1

// groundMM returns, for each cell of a path, the lowest original elevation across the
// flow: of the cell and its two neighbours at right angles to the line. Neighbours outside
// the grid or void are left out.
func groundMM(g *raster.Grid, cells []int, line []vertex) []int32 {
	out := make([]int32, len(cells))
	for k, cell := range cells {
		before, after := line[max(k-1, 0)], line[min(k+1, len(line)-1)]
		dCol, dRow := across(after.col-before.col, after.row-before.row)
		col, row := g.ColRow(cell)
		out[k] = lowestMM(g.MM[cell], g.At(col+dCol, row+dRow), g.At(col-dCol, row-dRow))
	}
	return out
}

// across returns the step to the neighbour at right angles to a direction, one of four;
// 0, 0 where there is no direction.
func across(dCol, dRow float64) (col, row int) {
	c, r := math.Abs(dCol), math.Abs(dRow)
	switch {
	case c == 0 && r == 0:
		return 0, 0
	case r <= tan225*c:
		return 0, 1
	case c <= tan225*r:
		return 1, 0
	case (dCol > 0) == (dRow > 0):
		return 1, -1
	default:
		return 1, 1
	}
}

// lowestMM returns the lowest of a cell and its neighbours, voids left out.
func lowestMM(cell int32, neighbours ...int32) int32 {
	for _, z := range neighbours {
		if z != raster.VoidMM {
			cell = min(cell, z)
		}
	}
	return cell
}
