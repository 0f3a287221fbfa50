package raster

// patches returns square windows of side cells spread evenly over the grid, in row-major order, that
// together hold about mostCells: all of the grid where it has no more. Those at the east and south edge may be smaller.
func (g *Grid) patches(side, mostCells int) []Window {
	across := (g.Cols + side - 1) / side
	all := across * ((g.Rows + side - 1) / side)
	count := max(1, min(all, mostCells/(side*side)))
	out := make([]Window, count)
	for k := range out {
		n := k * all / count
		col, row := n%across*side, n/across*side
		out[k] = Window{Col: col, Row: row, Cols: min(side, g.Cols-col), Rows: min(side, g.Rows-row)}
	}
	return out
}
