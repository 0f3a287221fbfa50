package flow

import (
	"math"
	"slices"

	"siltstep/raster"
)

// ramp lowers the surface along a path so that water runs from the level of its first cell to that of its last, or
// stays level where the last is not lower: at a share of the length each cell is lowered to that share of the drop, in
// whole millimetres and never below the line. Where that is deeper than the limits allow, the ramp stays higher up to there.
// Cells of kept are left as they are. It returns what was dug: of what stood there before, so that no millimetre is of two cuts.
func (c *cutter) ramp(path []int, lim *limits) (e excavation) {
	last := len(path) - 1
	from, to := int64(c.z[path[0]]), int64(c.z[path[last]])
	drop := max(0, from-to)
	total := pathLength(c.g.Cols, path)
	at, lowest := total, int64(raster.VoidMM)
	for k := last; k >= 0; k-- {
		i := path[k]
		z := int64(c.z[i])
		lowest = max(lowest, min(z, c.ground.at(i)-lim.depthAt(i)))
		level := from
		if total > 0 {
			level -= drop * at / total
		}
		if level = min(from, max(level, lowest)); z > level && !c.kept.has(i) {
			e.add(i, z-level)
			c.ground.lower(i, level)
		}
		if k > 0 {
			at -= stepBetween(c.g.Cols, path[k-1], i)
		}
	}
	return e
}

// excavation is what one cut took away.
type excavation struct {
	volume  int64 // cell millimetres
	cells   int   // that were lowered
	deepest int   // of those, the one lowered most; the first along the path of equals
	depth   int64 // there, mm
}

// add counts a cell, from the lower end of the path upwards.
func (e *excavation) add(i int, depth int64) {
	e.volume += depth
	e.cells++
	if depth >= e.depth {
		e.deepest, e.depth = i, depth
	}
}

// pathLength returns the length of a path of touching cells, in units of a path.
func pathLength(cols int, path []int) (length int64) {
	for k := 1; k < len(path); k++ {
		length += stepBetween(cols, path[k-1], path[k])
	}
	return length
}

// pathLengthM returns the same in metres.
func pathLengthM(cols int, path []int, cellM float64) float64 {
	side, corner := 0, 0
	for k := 1; k < len(path); k++ {
		switch stepBetween(cols, path[k-1], path[k]) {
		case stepScale:
			side++
		case stepCorner:
			corner++
		}
	}
	return (float64(side) + float64(corner)*math.Sqrt2) * cellM
}

// stepBetween returns the length of a step between touching cells; of none it is 0.
func stepBetween(cols, a, b int) int64 {
	switch {
	case a == b:
		return 0
	case a/cols == b/cols, a%cols == b%cols:
		return stepScale
	}
	return stepCorner
}

// lineCells returns the touching cells along a chain of cells, each once where they follow one another.
func lineCells(cols int, chain []int) []int {
	out := []int{chain[0]}
	for k := 1; k < len(chain); k++ {
		c, r := chain[k-1]%cols, chain[k-1]/cols
		dc, dr := chain[k]%cols-c, chain[k]/cols-r
		n := max(dc, -dc, dr, -dr)
		for s := 1; s <= n; s++ {
			out = append(out, (r+roundDiv(dr*s, n))*cols+c+roundDiv(dc*s, n))
		}
	}
	return slices.Compact(out)
}

// roundDiv returns a/b to the nearest whole number, halves away from zero; b is above zero.
func roundDiv(a, b int) int {
	if a < 0 {
		return -((-2*a + b) / (2 * b))
	}
	return (2*a + b) / (2 * b)
}
