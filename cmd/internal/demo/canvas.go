package demo

import (
	"math"

	"siltstep/raster"
)

// canvas is the elevation model while it is being shaped, addressed by ranch places.
type canvas struct {
	*raster.Grid
}

// spotOf returns the ranch place of the centre of a cell.
func (c *canvas) spotOf(col, row int) spot {
	m := c.Transform.CellM
	return spot{float64((float64(col) + 0.5) * m), float64((float64(row) + 0.5) * m)}
}

// holds reports whether a place lies on the data, at least insetM from its edge.
func (c *canvas) holds(p spot, insetM float64) bool {
	m := c.Transform.CellM
	w, h := float64(float64(c.Cols)*m), float64(float64(c.Rows)*m)
	return p.e >= insetM && p.s >= insetM && p.e <= w-insetM && p.s <= h-insetM
}

// heightM returns the ground at a place, bilinear between cell centres; beyond it
// that of the nearest cell.
func (c *canvas) heightM(p spot) float64 {
	x, y := p.e/c.Transform.CellM-0.5, p.s/c.Transform.CellM-0.5
	fx, fy := math.Floor(x), math.Floor(y)
	col, row := int(fx), int(fy)
	top := lerp(c.clamped(col, row), c.clamped(col+1, row), x-fx)
	bottom := lerp(c.clamped(col, row+1), c.clamped(col+1, row+1), x-fx)
	return lerp(top, bottom, y-fy)
}

// clamped returns the elevation of the cell nearest to a column and row, m.
func (c *canvas) clamped(col, row int) float64 {
	col, row = min(max(col, 0), c.Cols-1), min(max(row, 0), c.Rows-1)
	return float64(c.MM[c.Index(col, row)]) / 1000
}

// set gives a cell an elevation in metres, rounded to the millimetre.
func (c *canvas) set(cell int, zM float64) { c.MM[cell] = int32(math.Round(zM * 1000)) }

// box is a window of cells, its edges included.
type box struct{ left, top, right, bottom int }

// around returns the window within reach of places, cut to the data.
func (c *canvas) around(at []spot, reachM float64) box {
	lo, hi := at[0], at[0]
	for _, p := range at {
		lo, hi = spot{min(lo.e, p.e), min(lo.s, p.s)}, spot{max(hi.e, p.e), max(hi.s, p.s)}
	}
	m := c.Transform.CellM
	return box{
		max(int(math.Floor((lo.e-reachM)/m)), 0), max(int(math.Floor((lo.s-reachM)/m)), 0),
		min(int(math.Floor((hi.e+reachM)/m)), c.Cols-1), min(int(math.Floor((hi.s+reachM)/m)), c.Rows-1),
	}
}

func (b box) empty() bool { return b.right < b.left || b.bottom < b.top }

func (b box) cells() int { return (b.right - b.left + 1) * (b.bottom - b.top + 1) }

func (b box) index(col, row int) int { return (row-b.top)*(b.right-b.left+1) + col - b.left }

// within returns the part of b that lies in o.
func (b box) within(o box) box {
	return box{max(b.left, o.left), max(b.top, o.top), min(b.right, o.right), min(b.bottom, o.bottom)}
}
