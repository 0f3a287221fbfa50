package raster

import "math"

// A collar of one value far below the land is an undeclared mark for voids: many mosaics are padded with
// zeros.
const (
	CollarGapM  = 100 // no land falls this far, in m, to a floor of one value with nothing between. Source: our own choice
	collarCells = 10  // fewer cells of one value may be one bad reading. Source: our own choice
)

// DropCollar makes the cells at the lowest elevation void where at least ten of them hold exactly the same value
// and every other cell lies more than CollarGapM above, and returns that value in millimetres and the number of
// cells; zero cells where there is no such collar.
func (g *Grid) DropCollar() (mm int32, cells int) {
	lo, _, ok := g.RangeMM()
	if !ok {
		return 0, 0
	}
	next := int64(math.MaxInt64)
	for _, z := range g.MM {
		switch {
		case z == lo:
			cells++
		case z != VoidMM:
			next = min(next, int64(z))
		}
	}
	if cells < collarCells || next == math.MaxInt64 || next-int64(lo) <= CollarGapM*1000 {
		return 0, 0
	}
	for i, z := range g.MM {
		if z == lo {
			g.MM[i] = VoidMM
		}
	}
	return lo, cells
}
