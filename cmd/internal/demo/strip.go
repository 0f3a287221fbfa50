package demo

import "math"

// near is a cell beside a line.
type near struct {
	cell    int
	station float64 // of the nearest place on the line, m from its upper end
	sideM   float64 // distance to it
}

// stripPieceM is the length of line handled at a time, m.
const stripPieceM = 64

// strip returns the cells of the canvas within reach of a line, each once with its nearest
// place on it; of equally near places the upper one. Cost: the line's length times reach².
func (c *canvas) strip(l line, reachM float64) []near {
	var out []near
	for from := 0; from < l.length(); from += stripPieceM {
		out = c.stripPiece(out, l, from, min(from+stripPieceM, l.length()), reachM)
	}
	return out
}

// stripPiece appends the cells whose nearest place lies between two stations.
func (c *canvas) stripPiece(out []near, l line, from, to int, reachM float64) []near {
	pad := int(2*reachM) + 2
	first, last := max(from-pad, 0), min(to+pad, l.length())
	b := c.around(l.at[from:to+1], reachM)
	if b.empty() {
		return out
	}
	best, place := make([]float64, b.cells()), make([]float64, b.cells())
	for k := range best {
		best[k] = reachM * reachM
		place[k] = -1
	}
	for k := first; k < last; k++ {
		c.measureLeg(l.at[k], l.at[k+1], float64(k), b, reachM, best, place)
	}
	for row := b.top; row <= b.bottom; row++ {
		for col := b.left; col <= b.right; col++ {
			k := b.index(col, row)
			s := place[k]
			if s < float64(from) || s > float64(to) || s == float64(to) && to != l.length() {
				continue
			}
			out = append(out, near{c.Index(col, row), s, math.Sqrt(best[k])})
		}
	}
	return out
}

// measureLeg keeps, for the cells of a box around one metre of line, the nearest place so far.
func (c *canvas) measureLeg(p, q spot, station float64, b box, reachM float64, best, place []float64) {
	leg := q.minus(p)
	size := leg.dot(leg)
	w := c.around([]spot{p, q}, reachM).within(b)
	for row := w.top; row <= w.bottom; row++ {
		for col := w.left; col <= w.right; col++ {
			d := c.spotOf(col, row).minus(p)
			t := min(max(d.dot(leg)/size, 0), 1)
			off := d.minus(leg.times(t))
			k := b.index(col, row)
			if v := off.dot(off); v < best[k] {
				best[k], place[k] = v, station+t
			}
		}
	}
}
