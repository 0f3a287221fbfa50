package rastertest

import "siltstep/raster"

// VoidRing returns g inside a frame of voids width cells wide, its cells at the places on
// the map that they had.
func VoidRing(g *raster.Grid, width int) *raster.Grid {
	out := Surface(g.Cols+2*width, g.Rows+2*width, g.Transform.CellM, func(col, row int) int32 {
		return g.At(col-width, row-width)
	})
	out.Transform.OriginX = g.Transform.OriginX - float64(width)*g.Transform.CellM
	out.Transform.OriginY = g.Transform.OriginY + float64(width)*g.Transform.CellM
	return out
}

// Hole makes the cells of w void, as far as they lie on g. It changes g and returns it.
func Hole(g *raster.Grid, w raster.Window) *raster.Grid {
	in := w.Intersect(g.Bounds())
	for row := in.Row; row < in.Row+in.Rows; row++ {
		for col := in.Col; col < in.Col+in.Cols; col++ {
			g.MM[g.Index(col, row)] = raster.VoidMM
		}
	}
	return g
}
