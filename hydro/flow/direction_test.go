package flow_test

import (
	"testing"

	"pgregory.net/rapid"

	"siltstep/hydro/flow"
	"siltstep/raster"
)

// slope is a fall over a step: drop (in half millimetres a cell) over 1 cell, or over √2.
type slope struct {
	drop     int64
	diagonal bool
}

// steeper reports whether s is steeper than o; both fall. Squares are compared, so no
// root is rounded.
func (s slope) steeper(o slope) bool {
	return s.drop*s.drop*o.lengthSquared() > o.drop*o.drop*s.lengthSquared()
}

func (s slope) lengthSquared() int64 {
	if s.diagonal {
		return 2
	}
	return 1
}

// terrain is a filled surface, with what the slow rules below ask of it.
type terrain struct{ *raster.Grid }

// steepest returns the side of the steepest lower neighbour and its slope, or -1.
func (t terrain) steepest(i int) (side int, best slope) {
	side = -1
	for k := range 8 {
		j, ok := neighbour(t.Grid, i, k)
		if !ok || t.MM[j] >= t.MM[i] {
			continue
		}
		s := slope{2 * (int64(t.MM[i]) - int64(t.MM[j])), k >= 4}
		if side < 0 || s.steeper(best) {
			side, best = k, s
		}
	}
	return side, best
}

// gradient returns twice the rise per cell along an axis, in mm: the central difference
// where both neighbours hold data, else one-sided, zero where neither does.
func (t terrain) gradient(i, back, ahead int) int64 {
	b, hasBack := neighbour(t.Grid, i, back)
	a, hasAhead := neighbour(t.Grid, i, ahead)
	z := int64(t.MM[i])
	switch {
	case hasBack && hasAhead:
		return int64(t.MM[a]) - int64(t.MM[b])
	case hasAhead:
		return 2 * (int64(t.MM[a]) - z)
	case hasBack:
		return 2 * (z - int64(t.MM[b]))
	}
	return 0
}

// outward returns the steepest fall to the outside by the border rule: the plane through
// the cell's own gradients is continued. A direction counts only if it falls along an
// axis on which it leaves the data; one that leaves over a corner alone needs only to fall.
func (t terrain) outward(i int) (best slope, found bool) {
	const east, south, west, north = 0, 1, 2, 3
	riseEast, riseSouth := t.gradient(i, west, east), t.gradient(i, north, south)
	for k := range 8 {
		if _, inside := neighbour(t.Grid, i, k); inside {
			continue
		}
		alongCol := riseEast * int64(neighbourCol[k]) // rise along each axis of this step
		alongRow := riseSouth * int64(neighbourRow[k])
		leavesCol := neighbourCol[k] != 0 && !t.holds(i, neighbourCol[k], 0)
		leavesRow := neighbourRow[k] != 0 && !t.holds(i, 0, neighbourRow[k])
		cornerOnly := !leavesCol && !leavesRow
		if !cornerOnly && !(leavesCol && alongCol < 0) && !(leavesRow && alongRow < 0) {
			continue
		}
		s := slope{-(alongCol + alongRow), k >= 4}
		if s.drop > 0 && (!found || s.steeper(best)) {
			best, found = s, true
		}
	}
	return best, found
}

// holds reports whether the cell a step away from i holds data.
func (t terrain) holds(i, stepCol, stepRow int) bool {
	col, row := t.ColRow(i)
	return t.At(col+stepCol, row+stepRow) != raster.VoidMM
}

// ends reports whether flow ends at a cell of the rim.
func (t terrain) ends(i int) bool {
	if !onRim(t.Grid, i) {
		return false
	}
	side, inward := t.steepest(i)
	if side < 0 {
		return true
	}
	outward, found := t.outward(i)
	return found && !inward.steeper(outward)
}

// flatRank returns the mask of every cell: 2T − A, with T the steps from the low edge of
// its flat and A the steps from the high edge that never enter the low edge. Low edges
// rank below all else.
func (t terrain) flatRank(low []bool) []int {
	fromLow := t.spread(low, nil)
	high := make([]bool, len(t.MM))
	for i, z := range t.MM {
		for k := range 8 {
			if j, ok := neighbour(t.Grid, i, k); ok && z != raster.VoidMM && t.MM[j] > z && !low[i] {
				high[i] = true
			}
		}
	}
	fromHigh := t.spread(high, low)
	rank := make([]int, len(t.MM))
	for i := range rank {
		if rank[i] = 2*fromLow[i] - fromHigh[i]; low[i] {
			rank[i] = -1 << 60
		}
	}
	return rank
}

// spread counts steps over level ground from the cells of from, which have 1, without
// entering barred ones; 0 where none leads.
func (t terrain) spread(from, barred []bool) []int {
	steps := make([]int, len(t.MM))
	var queue []int
	for i, is := range from {
		if is {
			steps[i] = 1
			queue = append(queue, i)
		}
	}
	for len(queue) > 0 {
		i := queue[0]
		queue = queue[1:]
		for k := range 8 {
			j, ok := neighbour(t.Grid, i, k)
			if ok && t.MM[j] == t.MM[i] && steps[j] == 0 && (barred == nil || !barred[j]) {
				steps[j] = steps[i] + 1
				queue = append(queue, j)
			}
		}
	}
	return steps
}

// lowest reports whether a cell of the rim has no lower neighbour: the end of flow under
// the simpler rule that keeps water inside the data as long as it can fall there.
func (t terrain) lowest(i int) bool {
	side, _ := t.steepest(i)
	return side < 0 && onRim(t.Grid, i)
}

// slowDown returns the cell that each cell of a filled surface drains to, -1 for an end
// or a void, by the border rule.
func slowDown(g *raster.Grid, filledMM []int32) []int {
	return downBy(g, filledMM, terrain.ends)
}

// downBy is slowDown with any rule for the ends of flow: ends first, then the steepest
// fall, then the rank on flats.
func downBy(g *raster.Grid, filledMM []int32, ends func(terrain, int) bool) []int {
	filled := *g
	filled.MM = filledMM
	t := terrain{&filled}
	down := make([]int, len(g.MM))
	low := make([]bool, len(g.MM)) // drained without the flat's help
	for i, z := range g.MM {
		down[i] = -1
		if z == raster.VoidMM {
			continue
		}
		if low[i] = ends(t, i); low[i] {
			continue
		}
		if side, _ := t.steepest(i); side >= 0 {
			low[i] = true
			down[i], _ = neighbour(g, i, side)
		}
	}
	rank := t.flatRank(low)
	for i, z := range g.MM {
		if z == raster.VoidMM || low[i] {
			continue
		}
		for k := range 8 {
			j, ok := neighbour(g, i, k)
			if ok && filledMM[j] == filledMM[i] && (down[i] < 0 || rank[j] < rank[down[i]]) {
				down[i] = j
			}
		}
	}
	return down
}

// downs reads Down of every cell.
func downs(f *flow.Field) []int {
	d := make([]int, len(f.FilledMM))
	for i := range d {
		d[i] = f.Down(i)
	}
	return d
}

// Directions equal the rules written out the slow way.
func TestDirectionEqualsTwin(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		g := drawGrid(t)
		f := run(t, g, 1)
		sameCells(t, "down", g, downs(f), slowDown(g, fixpointFill(g)))
	})
}

// Every cell with data reaches an end within as many steps as there are cells.
func TestEveryCellReachesAnEnd(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		g := drawGrid(t)
		f := run(t, g, 1)
		for i := range g.MM {
			if f.Valid(i) != (g.MM[i] != raster.VoidMM) {
				t.Fatalf("cell %d: valid %v, elevation %d", i, f.Valid(i), g.MM[i])
			}
			at := i
			for step := 0; f.Down(at) >= 0; at = f.Down(at) {
				if step++; step > len(g.MM) {
					t.Fatalf("water from cell %d never ends", i)
				}
			}
			if f.Valid(i) && !onRim(g, at) {
				t.Fatalf("water from cell %d ends inside, at cell %d", i, at)
			}
		}
	})
}

// The bearing tells the same neighbour as Down.
func TestBearingAgreesWithDown(t *testing.T) {
	bearing := [8]int16{90, 180, 270, 360, 135, 225, 315, 45} // E, S, W, N, SE, SW, NW, NE
	rapid.Check(t, func(t *rapid.T) {
		g := drawGrid(t)
		f := run(t, g, 1)
		for i := range g.MM {
			want := flow.VoidBearing
			if f.Valid(i) {
				want = 0
			}
			for k := range 8 {
				if j, ok := neighbour(g, i, k); ok && f.Down(i) == j {
					want = bearing[k]
				}
			}
			if got := f.BearingDeg(i); got != want {
				t.Fatalf("cell %d drains to %d: bearing %d, want %d", i, f.Down(i), got, want)
			}
		}
	})
}
