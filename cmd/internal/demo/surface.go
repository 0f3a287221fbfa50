package demo

import "math"

// spot is a place on the ranch: metres east and south of the north-west corner of the data.
type spot struct{ e, s float64 }

func (p spot) plus(q spot) spot { return spot{p.e + q.e, p.s + q.s} }

func (p spot) minus(q spot) spot { return spot{p.e - q.e, p.s - q.s} }

// times returns p scaled by k. The conversions here and elsewhere in the package keep a
// processor from fusing a product with the sum it goes into.
func (p spot) times(k float64) spot { return spot{float64(p.e * k), float64(p.s * k)} }

func (p spot) length() float64 { return math.Sqrt(float64(p.e*p.e) + float64(p.s*p.s)) }

// turned returns p turned a quarter to the right of the direction p points in.
func (p spot) turned() spot { return spot{-p.s, p.e} }

// unit returns p at length 1; a zero p stays zero.
func (p spot) unit() spot {
	l := p.length()
	if l == 0 {
		return p
	}
	return spot{p.e / l, p.s / l}
}

// dot returns the scalar product of p and q.
func (p spot) dot(q spot) float64 { return float64(p.e*q.e) + float64(p.s*q.s) }

// surface is ground in metres on coarse square cells, a margin wider than the data.
type surface struct {
	cols, rows  int
	cellM       float64
	west, north float64 // ranch place of the outer corner of cell (0,0), m; below zero
	z           []float64
}

func newSurface(cols, rows int, cellM, west, north float64) *surface {
	return &surface{cols, rows, cellM, west, north, make([]float64, cols*rows)}
}

// center returns the ranch place of the centre of a cell.
func (s *surface) center(i int) spot {
	col, row := i%s.cols, i/s.cols
	return spot{s.west + float64((float64(col)+0.5)*s.cellM), s.north + float64((float64(row)+0.5)*s.cellM)}
}

// border reports whether a cell lies on the rim of the surface.
func (s *surface) border(i int) bool {
	col, row := i%s.cols, i/s.cols
	return col == 0 || row == 0 || col == s.cols-1 || row == s.rows-1
}
