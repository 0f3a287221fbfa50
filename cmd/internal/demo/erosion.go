package demo

import "math"

// Erosion is counted in a time of its own: the unit is the time in which a stream with
// 1 m² of catchment would cut 1 m on a slope of 1. All three figures were chosen by eye
// and by the slopes they give: at rest a channel with catchment A lies at a slope of
// upliftRate/√A, and hillsides begin to round off within √creepRate metres of a channel.
const (
	upliftRate = 8.0   // m per unit of time
	creepRate  = 220.0 // m² per unit of time
)

// stage is one run of erosion on one cell size.
type stage struct {
	rounds int
	step   float64 // time a round
}

// stages run from cells of 16 m, where the valleys find their places, through 8 m to 4 m,
// where their sides take shape.
var stages = [3]stage{{110, 0.2}, {14, 0.1}, {10, 0.04}}

// jitter is how much the ground is stirred before water is sent over it, as a share of
// the cell size.
const jitter = 0.05

// coarsestM is the cell size of the first stage, m.
const coarsestM = 16.0

// incise lowers the ground by flowing water and raises it by uplift for one step of time:
// cut rate = hardness × √catchment × slope, solved from the outlets upstream so that a long
// step stays stable. Cells held at the rim do not move.
// Source: Braun, Willett 2013, A very efficient O(n), implicit and parallel method to solve
// the stream power equation (case m = 0.5, n = 1).
func (l *land) incise(r *routing, step float64) {
	s := l.ground
	for _, c := range r.order {
		if l.held[c] {
			continue
		}
		up := s.z[c] + float64(upliftRate*step)
		d := r.down[c]
		if d < 0 {
			s.z[c] = up
			continue
		}
		dist := s.cellM
		if diagonal(int(c), int(d), s.cols) {
			dist *= math.Sqrt2
		}
		f := l.softness[c] * math.Sqrt(r.areaM2[c]) * step / dist
		s.z[c] = (up + float64(f*s.z[d])) / (1 + f)
	}
}

// diagonal reports whether two neighbours lie corner to corner.
func diagonal(a, b, cols int) bool {
	d := max(a, b) - min(a, b)
	return d != 1 && d != cols
}

// creep smooths the ground by soil creep for one step of time: change = creepRate × curvature,
// in as many equal parts as a stable explicit step needs. The edge of the surface mirrors.
func (l *land) creep(step float64) {
	s := l.ground
	cell := s.cellM * s.cellM
	parts := int(math.Ceil(creepRate * step / (0.2 * cell)))
	k := creepRate * step / float64(parts) / cell
	next := l.spare
	for range parts {
		for row := range s.rows {
			l.creepRow(next, row, k)
		}
		s.z, next = next, s.z
	}
	l.spare = next
}

func (l *land) creepRow(next []float64, row int, k float64) {
	s := l.ground
	here := s.z[row*s.cols:][:s.cols]
	above := s.z[max(row-1, 0)*s.cols:][:s.cols]
	below := s.z[min(row+1, s.rows-1)*s.cols:][:s.cols]
	out := next[row*s.cols:][:s.cols]
	held := l.held[row*s.cols:][:s.cols]
	for c, z := range here {
		if held[c] {
			out[c] = z
			continue
		}
		around := here[max(c-1, 0)] + here[min(c+1, s.cols-1)] + above[c] + below[c]
		out[c] = z + float64(k*(around-float64(4*z)))
	}
}
