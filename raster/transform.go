package raster

import "math"

// Transform ties cells to map coordinates: north-up, square cells, metres.
type Transform struct {
	OriginX, OriginY float64 // outer corner of cell (0,0): west edge, north edge; m
	CellM            float64 // side of a cell, m; above zero
}

// Center returns the map coordinates of the centre of a cell, in metres. Cells outside
// the grid are answered too: the transform knows no size.
func (t Transform) Center(col, row int) (x, y float64) {
	return t.OriginX + (float64(col)+0.5)*t.CellM, t.OriginY - (float64(row)+0.5)*t.CellM
}

// ColRow returns the cell that holds a map position in metres. A position on a shared
// edge belongs to the cell to its east or south; it may lie outside the grid.
func (t Transform) ColRow(x, y float64) (col, row int) {
	return int(math.Floor((x - t.OriginX) / t.CellM)), int(math.Floor((t.OriginY - y) / t.CellM))
}
