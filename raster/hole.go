package raster

// Holes counts the voids of a grid by how they lie. Voids that touch by sides or corners are one hole.
type Holes struct {
	Small, SmallCells int // holes inside the data that Bridge closes, and their cells
	Large, LargeCells int // larger holes inside the data, and their cells
	EdgeCells         int // voids that reach the border of the grid, which is no hole but the outline of the data
}

// Holes counts voids; holes of at most mostCells are small. Cost: one pass, and a bit a cell and the cells of
// one hole where there are voids.
func (g *Grid) Holes(mostCells int) (h Holes) {
	var seen []uint64
	for i, z := range g.MM {
		if z != VoidMM {
			continue
		}
		if seen == nil {
			seen = make([]uint64, (len(g.MM)+63)/64)
		}
		if seen[i>>6]>>(i&63)&1 == 1 {
			continue
		}
		hole, inside := g.hole(i, seen, len(g.MM))
		switch {
		case !inside:
			h.EdgeCells += len(hole)
		case len(hole) <= mostCells:
			h.Small++
			h.SmallCells += len(hole)
		default:
			h.Large++
			h.LargeCells += len(hole)
		}
	}
	return h
}
