package demo

import "math"

// line is a valley line in steps of one metre: the place at index k lies k metres down it.
type line struct {
	at     []spot
	areaM2 []float64 // catchment at each place
}

// smoothing of a valley line: passes of a 1-2-1 mean over the centres of coarse cells.
const smoothPasses = 10

// lineOf returns the smoothed line of a stem. Its two ends stay where they are.
func lineOf(l *land, r *routing, s stem) line {
	at, area := make([]spot, len(s.cells)), make([]float64, len(s.cells))
	for k, c := range s.cells {
		at[k], area[k] = l.ground.center(int(c)), r.areaM2[c]
	}
	if n := len(area); s.into >= 0 && n > 1 {
		area[n-1] = area[n-2]
	}
	return l.settle(l.settle(drawLine(at, area)))
}

// settleM is how far a smoothed line may move sideways to the valley bottom, m.
const settleM = 7

// settle moves a line sideways to the lowest ground near it. Its ends stay.
func (l *land) settle(in line) line {
	n := len(in.at)
	off := make([]float64, n)
	for k := 1; k+1 < n; k++ {
		side := in.along(k).turned()
		low := math.Inf(1)
		for d := -settleM; d <= settleM; d++ {
			if z := l.ground.heightM(in.at[k].plus(side.times(float64(d)))); z < low {
				low, off[k] = z, float64(d)
			}
		}
	}
	off = meanOver(meanOver(off, 6), 6)
	at := make([]spot, n)
	for k := range at {
		at[k] = in.at[k].plus(in.along(k).turned().times(off[k]))
	}
	return drawLine(at, in.areaM2)
}

// drawLine smooths places and lays them out again in steps of one metre.
func drawLine(at []spot, area []float64) line {
	for range smoothPasses {
		at = smoothed(at)
	}
	var out line
	carry := 0.0 // distance from the last place laid to the present one
	for k := 0; k+1 < len(at); k++ {
		leg := at[k+1].minus(at[k])
		length := leg.length()
		for d := carry; d < length; d++ {
			out.at = append(out.at, at[k].plus(leg.times(d/length)))
			out.areaM2 = append(out.areaM2, area[k])
			carry = d + 1
		}
		carry -= length
	}
	return out
}

// smoothed returns one pass of the 1-2-1 mean.
func smoothed(at []spot) []spot {
	out := make([]spot, len(at))
	copy(out, at)
	for k := 1; k+1 < len(at); k++ {
		out[k] = at[k-1].plus(at[k].times(2)).plus(at[k+1]).times(0.25)
	}
	return out
}

// length returns the length of the line in metres.
func (l line) length() int { return len(l.at) - 1 }

// part returns the piece of the line between two stations, both included.
func (l line) part(from, to int) line {
	from, to = max(from, 0), min(to, l.length())
	return line{l.at[from : to+1], l.areaM2[from : to+1]}
}

// along returns the unit vector downstream at a station, over ten metres.
func (l line) along(k int) spot {
	return l.at[min(k+5, l.length())].minus(l.at[max(k-5, 0)]).unit()
}

// nearest returns the station nearest to a place, and how far it is; the upper one of equals.
func (l line) nearest(p spot) (k int, distM float64) {
	best := math.Inf(1)
	for i, q := range l.at {
		d := q.minus(p)
		if v := d.dot(d); v < best {
			best, k = v, i
		}
	}
	return k, math.Sqrt(best)
}

// bendM is the length of line that bends to meet another, m.
const bendM = 25

// bendTo moves the lower end of the line to a place, and what lies above it less and less.
func (l line) bendTo(p spot) {
	n := l.length()
	move := p.minus(l.at[n])
	for k := max(n-bendM, 0); k <= n; k++ {
		t := 1 - float64(n-k)/bendM
		l.at[k] = l.at[k].plus(move.times(ease(t)))
	}
}
