package chart

import (
	"math"

	"github.com/paulmach/orb"
)

// cover tells how much of a box lines and marks take, from sums over squares of one point.
type cover struct {
	x0, y0     float64
	cols, rows int
	sums       []int32 // 1 where taken, then of taken squares above and to the left; one row and column more than there are
}

// cover finds what lines, property line and marks take of the frame.
func (d *mapDrawing) cover() cover {
	c := cover{x0: d.frame.x0, y0: d.frame.y0, cols: int(math.Ceil(d.frame.width())), rows: int(math.Ceil(d.frame.height()))}
	c.sums = make([]int32, (c.cols+1)*(c.rows+1))
	for _, l := range d.lines {
		c.line(l.points, l.reach(d.weight))
	}
	for _, polygon := range d.Property {
		for _, ring := range polygon {
			c.line(d.simplified(orb.LineString(ring)), 0.5)
		}
	}
	for _, marks := range [][]orb.Point{d.Headcuts, d.Dams} {
		for _, p := range marks {
			if d.shows(p) {
				c.stamp(d.at(p), markReach*max(d.weight, leastMark))
			}
		}
	}
	c.add()
	return c
}

// add turns what is taken into sums.
func (c cover) add() {
	for row := 1; row <= c.rows; row++ {
		for col := 1; col <= c.cols; col++ {
			at := row*(c.cols+1) + col
			c.sums[at] += c.sums[at-1] + c.sums[at-c.cols-1] - c.sums[at-c.cols-2]
		}
	}
}

// line takes the squares along a line.
func (c cover) line(points []orb.Point, reach float64) {
	for i := 1; i < len(points); i++ {
		a, b := points[i-1], points[i]
		lo, hi, ok := c.shown(a, b)
		if !ok {
			continue
		}
		steps := math.Ceil((hi-lo)*math.Hypot(b[0]-a[0], b[1]-a[1])/0.7) + 1
		for k := 0.0; k <= steps; k++ {
			t := lo + (hi-lo)*k/steps
			c.stamp(orb.Point{a[0] + t*(b[0]-a[0]), a[1] + t*(b[1]-a[1])}, reach)
		}
	}
}

// shown returns the shares of a straight piece between which it lies in the frame.
func (c cover) shown(a, b orb.Point) (lo, hi float64, ok bool) {
	lo, hi = 0, 1
	least := [2]float64{c.x0, c.y0}
	size := [2]float64{float64(c.cols), float64(c.rows)}
	for k := range 2 {
		d := b[k] - a[k]
		from, to := least[k]-a[k], least[k]+size[k]-a[k]
		if d == 0 {
			if from > 0 || to < 0 {
				return 0, 0, false
			}
			continue
		}
		lo, hi = max(lo, min(from/d, to/d)), min(hi, max(from/d, to/d))
	}
	return lo, hi, lo <= hi
}

// stamp takes the squares around a point.
func (c cover) stamp(p orb.Point, reach float64) {
	for row := max(0, int(p[1]-reach-c.y0)); row <= min(c.rows-1, int(p[1]+reach-c.y0)); row++ {
		for col := max(0, int(p[0]-reach-c.x0)); col <= min(c.cols-1, int(p[0]+reach-c.x0)); col++ {
			c.sums[(row+1)*(c.cols+1)+col+1] = 1
		}
	}
}

// share returns the share of a box that is taken.
func (c cover) share(b box) float64 {
	at := func(x, y float64) int32 {
		col, row := min(max(int(math.Round(x-c.x0)), 0), c.cols), min(max(int(math.Round(y-c.y0)), 0), c.rows)
		return c.sums[row*(c.cols+1)+col]
	}
	taken := at(b.x1, b.y1) - at(b.x0, b.y1) - at(b.x1, b.y0) + at(b.x0, b.y0)
	return float64(taken) / (b.width() * b.height())
}
