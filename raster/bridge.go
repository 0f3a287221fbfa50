package raster

import "math"

// SmallHoleCells is the largest hole in the data, in cells, that Bridge closes by default.
// Source: our own choice.
const SmallHoleCells = 25

// Bridge closes the holes of at most mostCells voids that touch by sides or corners and do not reach
// the border of the grid, and returns how many holes and cells it closed. A cell of a hole gets
// the mean of the cells around the hole, weighted by one over the square of their distance, in whole
// millimetres. Zero or less closes nothing. Cost: one pass, and a bit a cell where there are voids.
func (g *Grid) Bridge(mostCells int) (holes, cells int) {
	var seen []uint64
	for i, z := range g.MM {
		if z != VoidMM || mostCells <= 0 {
			continue
		}
		if seen == nil {
			seen = make([]uint64, (len(g.MM)+63)/64)
		}
		if seen[i>>6]>>(i&63)&1 == 1 {
			continue
		}
		if hole, closed := g.hole(i, seen, mostCells); closed {
			g.close(hole)
			holes++
			cells += len(hole)
		}
	}
	return holes, cells
}

// hole returns the voids that touch the one at index i, in the order found, and whether they are few
// enough and lie inside. It marks all of them as seen.
func (g *Grid) hole(i int, seen []uint64, mostCells int) (hole []int, closed bool) {
	see := func(k int) { seen[k>>6] |= 1 << (k & 63) }
	see(i)
	hole, closed = []int{i}, true
	for n := 0; n < len(hole); n++ {
		col, row := g.ColRow(hole[n])
		for r := row - 1; r <= row+1; r++ {
			for c := col - 1; c <= col+1; c++ {
				if !g.Inside(c, r) {
					closed = false
					continue
				}
				if k := g.Index(c, r); g.MM[k] == VoidMM && seen[k>>6]>>(k&63)&1 == 0 {
					see(k)
					hole = append(hole, k)
				}
			}
		}
	}
	return hole, closed && len(hole) <= mostCells
}

// close gives heights to the cells of a small hole.
func (g *Grid) close(hole []int) {
	var rim []int
	for _, i := range hole {
		col, row := g.ColRow(i)
		for r := row - 1; r <= row+1; r++ {
			for c := col - 1; c <= col+1; c++ {
				if k := g.Index(c, r); g.MM[k] != VoidMM {
					rim = append(rim, k)
				}
			}
		}
	}
	heights := make([]int32, len(hole))
	for n, i := range hole {
		col, row := g.ColRow(i)
		var sum, weights float64
		for _, k := range rim {
			c, r := g.ColRow(k)
			w := 1 / float64((c-col)*(c-col)+(r-row)*(r-row))
			sum += w * float64(g.MM[k])
			weights += w
		}
		heights[n] = int32(math.Round(sum / weights))
	}
	for n, i := range hole {
		g.MM[i] = heights[n]
	}
}
