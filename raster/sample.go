package raster

import "math"

// mmPerM is how many millimetres a metre has.
const mmPerM = 1000

// Sample returns the elevation in metres at a map position in metres, bilinear between the
// four nearest cell centres: exact at a centre and on any plane, up to rounding of float64.
// ok is false where a cell that carries weight is void or outside the grid, so also in the
// outer half of the border cells, and where x or y is not a finite number. On the line
// between two centres only these two carry weight, at a centre only that one.
func (g *Grid) Sample(x, y float64) (zM float64, ok bool) {
	// Position in cells, whole at cell centres.
	u := (x-g.Transform.OriginX)/g.Transform.CellM - 0.5
	v := (g.Transform.OriginY-y)/g.Transform.CellM - 0.5
	// Written so that NaN fails too; it also keeps the conversion to int in range.
	if !(u >= 0 && v >= 0 && u <= float64(g.Cols-1) && v <= float64(g.Rows-1)) {
		return 0, false
	}
	col, row := int(math.Floor(u)), int(math.Floor(v))
	fu, fv := u-float64(col), v-float64(row)
	north, ok := g.between(col, row, fu)
	if !ok || fv == 0 {
		return north / mmPerM, ok
	}
	south, ok := g.between(col, row+1, fu)
	if !ok {
		return 0, false
	}
	return (north + (south-north)*fv) / mmPerM, true
}

// between returns the elevation in millimetres at share f (0 to 1) of the way from cell
// (col, row) to its eastern neighbour, which is not looked at where f is 0.
func (g *Grid) between(col, row int, f float64) (zMM float64, ok bool) {
	west := g.At(col, row)
	if west == VoidMM {
		return 0, false
	}
	if f == 0 {
		return float64(west), true
	}
	east := g.At(col+1, row)
	if east == VoidMM {
		return 0, false
	}
	return float64(west) + (float64(east)-float64(west))*f, true
}
