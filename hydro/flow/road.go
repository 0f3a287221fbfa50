package flow

import (
	"math"

	"github.com/paulmach/orb"

	"siltstep/raster"
)

// nearLines marks the cells whose centre lies within withinM of one of some lines; nil where there is none.
func nearLines(g *raster.Grid, lines []orb.LineString, withinM float64) mask {
	var m mask
	for _, line := range lines {
		for k := range max(1, len(line)-1) {
			if len(line) == 0 {
				continue
			}
			a, b := line[k], line[min(k+1, len(line)-1)]
			_, top := g.Transform.ColRow(0, max(a.Y(), b.Y())+withinM)
			_, bottom := g.Transform.ColRow(0, min(a.Y(), b.Y())-withinM)
			for row := max(top, 0); row <= min(bottom, g.Rows-1); row++ {
				from, to := columnsNear(g, row, a, b, withinM)
				for col := from; col <= to; col++ {
					x, y := g.Transform.Center(col, row)
					if segmentDistance(orb.Point{x, y}, a, b) > withinM {
						continue
					}
					if m == nil {
						m = newMask(len(g.MM))
					}
					m.set(g.Index(col, row))
				}
			}
		}
	}
	return m
}

// columnsNear returns the columns of a row, on the grid, that hold every cell within withinM of a segment.
func columnsNear(g *raster.Grid, row int, a, b orb.Point, withinM float64) (from, to int) {
	_, y := g.Transform.Center(0, row)
	xAt := func(y float64) float64 {
		if a.Y() == b.Y() {
			return a.X()
		}
		t := max(0, min(1, (y-a.Y())/(b.Y()-a.Y())))
		return a.X() + t*(b.X()-a.X())
	}
	west, east := xAt(y-withinM), xAt(y+withinM)
	if a.Y() == b.Y() {
		east = b.X()
	}
	from, _ = g.Transform.ColRow(min(west, east)-withinM, 0)
	to, _ = g.Transform.ColRow(max(west, east)+withinM, 0)
	return max(from, 0), min(to, g.Cols-1)
}

// segmentDistance returns the distance of a point from the segment between a and b.
func segmentDistance(p, a, b orb.Point) float64 {
	dx, dy := b.X()-a.X(), b.Y()-a.Y()
	t := 0.0
	if l := dx*dx + dy*dy; l > 0 {
		t = max(0, min(1, ((p.X()-a.X())*dx+(p.Y()-a.Y())*dy)/l))
	}
	return math.Hypot(p.X()-a.X()-t*dx, p.Y()-a.Y()-t*dy)
}
