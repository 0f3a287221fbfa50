package flow

import (
	"fmt"
	"math"
	"slices"

	"github.com/paulmach/orb"

	"siltstep/raster"
)

// polygonMask marks the cells of polygons; nil where there are none on the grid.
func polygonMask(g *raster.Grid, polygons []orb.Polygon) mask {
	var m mask
	for _, p := range polygons {
		for _, i := range polygonCells(g, p) {
			if m == nil {
				m = newMask(len(g.MM))
			}
			m.set(i)
		}
	}
	return m
}

// declarePlayas keeps the ends of flow of playas on the field.
func (f *Field) declarePlayas(g *raster.Grid, playas []orb.Polygon) {
	if len(playas) == 0 {
		return
	}
	f.Playas = playaEnds(g, playas)
	for k, i := range f.Playas {
		if i < 0 {
			f.Unused = append(f.Unused, fmt.Sprintf("playa %d: it lies outside the data", k+1))
			continue
		}
		f.ends = append(f.ends, i)
	}
	slices.Sort(f.ends)
	f.ends = slices.Compact(f.ends)
}

// playaEnds returns the lowest cell of each playa, the first of equals, or -1 where a playa holds
// no cell with data.
func playaEnds(g *raster.Grid, playas []orb.Polygon) []int {
	ends := make([]int, len(playas))
	for k, p := range playas {
		ends[k] = -1
		for _, i := range polygonCells(g, p) {
			if z := g.MM[i]; z != raster.VoidMM && (ends[k] < 0 || z < g.MM[ends[k]]) {
				ends[k] = i
			}
		}
	}
	return ends
}

// polygonCells lists the cells whose centre lies in a polygon, ascending. A polygon so small that it holds
// no centre has the cell at the middle of its bounds. Holes are left out.
func polygonCells(g *raster.Grid, p orb.Polygon) []int {
	if len(p) == 0 || len(p[0]) == 0 {
		return nil
	}
	bound := p.Bound()
	_, top := g.Transform.ColRow(bound.Min.X(), bound.Max.Y())
	_, bottom := g.Transform.ColRow(bound.Min.X(), bound.Min.Y())
	var cells []int
	var crossings []float64
	for row := max(top, 0); row <= min(bottom, g.Rows-1); row++ {
		_, y := g.Transform.Center(0, row)
		crossings = ringCrossings(crossings[:0], p, y)
		for k := 0; k+1 < len(crossings); k += 2 {
			from := firstColumn(g, crossings[k])
			to := firstColumn(g, crossings[k+1])
			for col := max(from, 0); col < min(to, g.Cols); col++ {
				cells = append(cells, g.Index(col, row))
			}
		}
	}
	if len(cells) == 0 {
		mid := bound.Center()
		if col, row := g.Transform.ColRow(mid.X(), mid.Y()); g.Inside(col, row) {
			cells = append(cells, g.Index(col, row))
		}
	}
	return cells
}

// firstColumn returns the first column whose centre lies at x or east of it.
func firstColumn(g *raster.Grid, x float64) int {
	return int(math.Ceil((x-g.Transform.OriginX)/g.Transform.CellM - 0.5))
}

// ringCrossings appends where the rings of a polygon cross a line of constant y, from west to east.
func ringCrossings(xs []float64, p orb.Polygon, y float64) []float64 {
	for _, ring := range p {
		for k := range ring {
			a, b := ring[k], ring[(k+1)%len(ring)]
			if (a.Y() <= y) != (b.Y() <= y) {
				xs = append(xs, a.X()+(y-a.Y())/(b.Y()-a.Y())*(b.X()-a.X()))
			}
		}
	}
	slices.Sort(xs)
	return xs
}
