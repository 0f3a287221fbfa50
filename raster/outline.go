package raster

import (
	"fmt"
	"image"

	"github.com/paulmach/orb"
)

// Outline returns the outline of all cells whose label lies in lo to hi, both included, in
// map coordinates (m). It runs through the midpoints of the cell edges on the boundary,
// which takes the stair steps off diagonals; vertices on a straight run are left out.
//
// Cells that touch only at a corner belong together, as in eight-way flow, so the area of
// one eight-way drained catchment is one polygon. Outer rings run anticlockwise, holes
// clockwise; no ring touches or crosses itself or another. The area is exactly the cells
// minus half a cell for each outer ring plus half a cell for each hole. Where no cell has
// such a label the answer is empty.
//
// labels holds cols × rows cells in row-major order from the north-west; another length
// is a programmer's mistake and panics. Cost: one pass over the labels.
func Outline(labels []int32, cols, rows int, t Transform, lo, hi int32) orb.MultiPolygon {
	return OutlineWithin(labels, cols, rows, t, lo, hi, Window{Cols: cols, Rows: rows})
}

// OutlineWithin is Outline on the cells of a window alone; cells outside the window count
// as outside the outline. The part of the window beyond the grid is ignored. Cost: one
// pass over the window.
func OutlineWithin(labels []int32, cols, rows int, t Transform, lo, hi int32, window Window) orb.MultiPolygon {
	if len(labels) != cols*rows {
		panic(fmt.Sprintf("raster: %d labels for %d x %d cells", len(labels), cols, rows))
	}
	w := window.Intersect(Window{Cols: cols, Rows: rows})
	o := outliner{labels: labels, cols: cols, lo: lo, hi: hi, w: w, seen: make([]uint64, (w.Cols*w.Rows+63)/64)}
	return nestRings(o.rings(), t)
}

// ring is a closed outline in half cells from the north-west, first vertex not repeated.
type ring struct {
	at    []image.Point
	area2 int64 // twice the signed area in half cells squared; positive anticlockwise on the map
}

// outliner walks boundaries of a labelled window with the inside on its left.
type outliner struct {
	labels []int32
	cols   int
	lo, hi int32
	w      Window
	seen   []uint64 // a bit for each cell of the window: its northern edge is walked
}

func (o *outliner) in(col, row int) bool {
	if col < o.w.Col || row < o.w.Row || col >= o.w.Col+o.w.Cols || row >= o.w.Row+o.w.Rows {
		return false
	}
	l := o.labels[row*o.cols+col]
	return l >= o.lo && l <= o.hi
}

// mark records that the northern edge of a cell is walked and reports whether it was before.
func (o *outliner) mark(col, row int) bool {
	i := (row-o.w.Row)*o.w.Cols + col - o.w.Col
	bit := uint64(1) << (i & 63)
	was := o.seen[i>>6]&bit != 0
	o.seen[i>>6] |= bit
	return was
}

// rings walks every boundary once. Each has at least one northern edge of an inside cell,
// so those are where walks begin.
func (o *outliner) rings() []ring {
	var found []ring
	for row := o.w.Row; row < o.w.Row+o.w.Rows; row++ {
		for col := o.w.Col; col < o.w.Col+o.w.Cols; col++ {
			if o.in(col, row) && !o.in(col, row-1) && !o.mark(col, row) {
				found = append(found, o.walk(col, row))
			}
		}
	}
	return found
}

// Headings turn left by one: west, south, east, north.
const (
	headW = iota
	headS
	headE
	headN
)

// For each heading: the step along an edge, and from the corner at its end the cells
// ahead, to the left and to the right of the line walked.
var (
	headStep  = [4]image.Point{{X: -1}, {Y: 1}, {X: 1}, {Y: -1}}
	aheadLeft = [4]image.Point{{X: -1}, {}, {Y: -1}, {X: -1, Y: -1}}
	aheadRt   = [4]image.Point{{X: -1, Y: -1}, {X: -1}, {}, {Y: -1}}
)

// walk follows the boundary that holds the northern edge of a cell, back to that edge.
func (o *outliner) walk(col, row int) ring {
	var r ring
	at, head := image.Pt(col+1, row), headW
	first := at
	for {
		step := headStep[head]
		r.add(at.Add(at).Add(step)) // the midpoint of the edge, in half cells
		at = at.Add(step)
		head = o.turn(at, head)
		if at == first && head == headW {
			r.close()
			return r
		}
		if head == headW {
			o.mark(at.X-1, at.Y)
		}
	}
}

// turn returns the heading after a corner. Where two inside cells meet only there, it
// goes over to the other one.
func (o *outliner) turn(at image.Point, head int) int {
	if c := at.Add(aheadRt[head]); o.in(c.X, c.Y) {
		return (head + 3) & 3
	}
	if c := at.Add(aheadLeft[head]); o.in(c.X, c.Y) {
		return head
	}
	return (head + 1) & 3
}

// add appends a vertex in place of the last one where that lies on a straight run.
func (r *ring) add(p image.Point) {
	if n := len(r.at); n >= 2 && straight(r.at[n-2], r.at[n-1], p) {
		r.at[n-1] = p
		return
	}
	r.at = append(r.at, p)
}

// close drops what lies on a straight run over the seam and measures the ring.
func (r *ring) close() {
	for n := len(r.at); n > 3 && straight(r.at[n-2], r.at[n-1], r.at[0]); n-- {
		r.at = r.at[:n-1]
	}
	if n := len(r.at); n > 3 && straight(r.at[n-1], r.at[0], r.at[1]) {
		r.at = r.at[1:]
	}
	prev := r.at[len(r.at)-1]
	for _, p := range r.at {
		r.area2 -= int64(prev.X)*int64(p.Y) - int64(p.X)*int64(prev.Y) // rows run south
		prev = p
	}
}

func straight(a, b, c image.Point) bool {
	return int64(b.X-a.X)*int64(c.Y-b.Y) == int64(b.Y-a.Y)*int64(c.X-b.X)
}
