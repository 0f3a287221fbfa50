package flow

import (
	"fmt"
	"math"
	"slices"

	"github.com/paulmach/orb"

	"siltstep/raster"
)

const (
	// MostCulvertM is the longest culvert that may be declared, from inlet to outlet, and the longest cut through
	// one given as a point, m. Own choice.
	MostCulvertM = 60.0
	// culvertSnap is how far, in cells, the ends of a culvert are moved to the lowest ground.
	culvertSnap = 2
	// pointReachM and pointReachCells are how far from a culvert given as a point the way of least excavation may cross the
	// fill, m and cells; the larger counts. Own choice: the error of a telephone's position.
	pointReachM     = 5.0
	pointReachCells = 3
	// besideM is how far from a culvert given as a point the bottom of the depression behind it may lie, m: half the longest cut.
	besideM = MostCulvertM / 2
)

// anyDepth limits nothing.
var anyDepth = limits{depth: math.MaxInt32}

// lineLengthM returns the length of a line.
func lineLengthM(line orb.LineString) (m float64) {
	for k := 1; k < len(line); k++ {
		m += math.Hypot(line[k].X()-line[k-1].X(), line[k].Y()-line[k-1].Y())
	}
	return m
}

// cutCulverts cuts what is declared, in the order given. It returns what could not be used, and why.
func (c *cutter) cutCulverts(culverts []orb.LineString) (unused []string) {
	for k, line := range culverts {
		why := ""
		if len(line) == 1 {
			why = c.cutAt(line[0])
		} else {
			why = c.cutLine(line)
		}
		if why != "" {
			unused = append(unused, fmt.Sprintf("culvert %d: %s", k+1, why))
		}
	}
	return unused
}

// cutLine lowers the ground along a line from inlet to outlet. The inlet is moved to the lowest cell beside or behind it,
// the outlet to the lowest beside it, or beyond it where that is not below the inlet. Where the outlet lies higher
// all the same, water runs the other way.
func (c *cutter) cutLine(line orb.LineString) (why string) {
	last := len(line) - 1
	inlet, ok := c.lowestNear(line[0], line[1], culvertSnap)
	outlet, found := c.lowestNear(line[last], line[last-1], 0)
	if ok && found && c.z[outlet] >= c.z[inlet] {
		outlet, _ = c.lowestNear(line[last], line[last-1], culvertSnap)
	}
	if !ok || !found {
		return "it leaves the data"
	}
	chain := []int{inlet}
	for _, p := range line[1:last] {
		col, row := c.g.Transform.ColRow(p.X(), p.Y())
		if !c.g.Inside(col, row) {
			return "it leaves the data"
		}
		chain = append(chain, c.g.Index(col, row))
	}
	cells := lineCells(c.g.Cols, append(chain, outlet))
	if slices.ContainsFunc(cells, func(i int) bool { return c.z[i] == raster.VoidMM }) {
		return "it crosses a hole in the data"
	}
	if n := len(cells); n > 2 && slices.ContainsFunc(cells[1:n-1], c.kept.has) {
		return "it crosses a stock pond or playa, where nothing is cut"
	}
	if c.z[inlet] < c.z[outlet] {
		slices.Reverse(cells)
	}
	if !c.dig(cells, &anyDepth, CauseCulvert) {
		return "the ground along it falls already, so nothing to cut"
	}
	return ""
}

// lowestNear returns the lowest cell within culvertSnap of the end of a line, the first of equals, not towards the next
// vertex and at most beyond cells past the end; false where none has data.
func (c *cutter) lowestNear(end, next orb.Point, beyond float64) (lowest int, ok bool) {
	lowest = -1
	cellM := c.g.Transform.CellM
	along := math.Hypot(end.X()-next.X(), end.Y()-next.Y())
	col, row := c.g.Transform.ColRow(end.X(), end.Y())
	atX, atY := c.g.Transform.Center(col, row)
	for r := row - culvertSnap; r <= row+culvertSnap; r++ {
		for q := col - culvertSnap; q <= col+culvertSnap; q++ {
			if (r-row)*(r-row)+(q-col)*(q-col) > culvertSnap*culvertSnap || c.g.At(q, r) == raster.VoidMM {
				continue
			}
			x, y := c.g.Transform.Center(q, r)
			past := 0.0
			if along > 0 {
				past = ((x-atX)*(end.X()-next.X()) + (y-atY)*(end.Y()-next.Y())) / along / cellM
			}
			if past < -0.5 || past > beyond+0.5 {
				continue
			}
			if i := c.g.Index(q, r); lowest < 0 || c.z[i] < c.z[lowest] {
				lowest = i
			}
		}
	}
	return lowest, lowest >= 0
}

// cutAt cuts from the bottom of the deepest depression beside a point to lower ground, on the way of least excavation, of any
// depth. Where that way crosses the fill within pointReachM of the point, or pointReachCells, it is the culvert: people point from the
// road, some metres off the bed. Else the cut is led through the cell of the point.
func (c *cutter) cutAt(p orb.Point) (why string) {
	col, row := c.g.Transform.ColRow(p.X(), p.Y())
	if c.g.At(col, row) == raster.VoidMM {
		return "it lies outside the data"
	}
	at := c.g.Index(col, row)
	pit, ok := c.deepestBeside(p, col, row)
	if !ok {
		return fmt.Sprintf("no depression within %g m, so nothing to cut", besideM)
	}
	lim := limits{length: lengthUnits(MostCulvertM, c.g.Transform.CellM), depth: math.MaxInt32}
	path, ok := c.pathThrough(pit, pit, lim)
	if !ok || !c.crossesNear(path, p) {
		path, ok = c.pathThrough(pit, at, lim)
	}
	if !ok {
		return fmt.Sprintf("no lower ground within %g m of the depression behind it", MostCulvertM)
	}
	c.dig(path, &anyDepth, CauseCulvert)
	return ""
}

// crossesNear reports whether a path goes through a fill near a point: through ground at least half as high above its first cell as its
// highest ground is.
func (c *cutter) crossesNear(path []int, p orb.Point) bool {
	from := int64(c.z[path[0]])
	high := int64(c.z[c.highest(path)]) - from
	reachM := max(pointReachM, pointReachCells*c.g.Transform.CellM)
	return slices.ContainsFunc(path, func(i int) bool {
		x, y := c.g.CenterOf(i)
		return 2*(int64(c.z[i])-from) >= high && math.Hypot(x-p.X(), y-p.Y()) <= reachM
	})
}

// pathThrough returns the path from a pit through a cell to lower ground.
func (c *cutter) pathThrough(pit, at int, lim limits) ([]int, bool) {
	path := []int{pit}
	s := c.search
	s.downOnly = true
	defer func() { s.downOnly = false }()
	if pit != at {
		s.open([]int{pit}, lim.longest())
		s.goal = at
		_, ok := s.run(&lim)
		s.goal = -1
		if !ok {
			return nil, false
		}
		path = s.path(nil, at)
	}
	if c.z[at] < c.z[pit] {
		return path, true
	}
	s.open([]int{at}, lim.longest())
	lim.length -= pathLength(c.g.Cols, path)
	s.level = int64(c.z[pit])
	for _, i := range path[:len(path)-1] {
		s.close(i)
	}
	target, ok := s.run(&lim)
	if !ok {
		return nil, false
	}
	return append(path, s.path(nil, target)[1:]...), true
}

// deepestBeside returns the cell within besideM of a point over which water would stand deepest, filling the ground
// around for that; the first of equals.
func (c *cutter) deepestBeside(p orb.Point, col, row int) (pit int, ok bool) {
	reach := int(math.Ceil(MostCulvertM/c.g.Transform.CellM)) + 2
	w := raster.Window{Col: col - reach, Row: row - reach, Cols: 2*reach + 1, Rows: 2*reach + 1}.Intersect(c.g.Bounds())
	around := raster.New(w.Cols, w.Rows, c.g.Transform)
	for r := range w.Rows {
		from := c.g.Index(w.Col, w.Row+r)
		copy(around.MM[r*w.Cols:(r+1)*w.Cols], c.z[from:from+w.Cols])
	}
	var deepest int64
	for k, filled := range Fill(around, 1) {
		depth := int64(filled) - int64(around.MM[k])
		if depth <= deepest {
			continue
		}
		i := c.g.Index(w.Col+k%w.Cols, w.Row+k/w.Cols)
		x, y := c.g.CenterOf(i)
		if math.Hypot(x-p.X(), y-p.Y()) <= besideM && !c.kept.has(i) {
			pit, deepest, ok = i, depth, true
		}
	}
	return pit, ok
}
