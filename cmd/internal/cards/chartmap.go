package cards

import (
	"math"
	"strconv"

	"siltstep/cmd/internal/units"

	"github.com/paulmach/orb"
)

// A land is a piece of land on the paper: grid north up, one scale.
type land struct {
	x, y, w, h float64 // mm
	west, low  float64 // grid metres at the lower left corner
	scale      float64 // mm a metre
}

// newLand fits a bound into a rectangle with some room around it.
func newLand(b orb.Bound, x, y, w, h, room float64) land {
	wide, high := max(b.Max[0]-b.Min[0], 20), max(b.Max[1]-b.Min[1], 20)
	l := land{x: x, y: y, w: w, h: h, scale: min((w-2*room)/wide, (h-2*room)/high)}
	l.west = (b.Min[0]+b.Max[0])/2 - w/l.scale/2
	l.low = (b.Min[1]+b.Max[1])/2 - h/l.scale/2
	return l
}

func (l land) at(p orb.Point) spot {
	return spot{X: l.x + (p[0]-l.west)*l.scale, Y: l.y + l.h - (p[1]-l.low)*l.scale}
}

// shows tells whether a bound reaches into the rectangle.
func (l land) shows(b orb.Bound) bool {
	return b.Max[0] >= l.west && b.Min[0] <= l.west+l.w/l.scale && b.Max[1] >= l.low && b.Min[1] <= l.low+l.h/l.scale
}

// holds tells whether a place is inside.
func (l land) holds(p spot) bool {
	return p.X >= l.x && p.X <= l.x+l.w && p.Y >= l.y && p.Y <= l.y+l.h
}

// spots places a line, leaving out what is closer than the eye sees.
func (l land) spots(line orb.LineString) (list []spot) {
	const apart = 0.25 // mm
	for i, p := range line {
		here := l.at(p)
		if n := len(list); n > 0 && i < len(line)-1 && math.Hypot(here.X-list[n-1].X, here.Y-list[n-1].Y) < apart {
			continue
		}
		list = append(list, here)
	}
	return list
}

// niceStep returns 1, 2 or 5 times a power of ten, the largest that is not over a value.
func niceStep(most float64) float64 {
	power := math.Pow(10, math.Floor(math.Log10(most)))
	for _, k := range []float64{5, 2} {
		if k*power <= most {
			return k * power
		}
	}
	return power
}

// gridMarks draws ticks at round grid coordinates along the sides, with their numbers.
func (d *document) gridMarks(l land) {
	step := niceStep(45 / l.scale)
	for east := math.Ceil(l.west/step) * step; east < l.west+l.w/l.scale; east += step {
		x := l.at(orb.Point{east, l.low}).X
		d.line(0.2, darkGrey, x, l.y, x, l.y+1.5)
		d.line(0.2, darkGrey, x, l.y+l.h-1.5, x, l.y+l.h)
		if words := round(east) + " E"; x+d.width(leastSize, false, words)+1 < l.x+l.w {
			d.mark(x+0.6, l.y+l.h-0.9, words)
		}
	}
	for north := math.Ceil(l.low/step) * step; north < l.low+l.h/l.scale; north += step {
		y := l.at(orb.Point{l.west, north}).Y
		d.line(0.2, darkGrey, l.x, y, l.x+1.5, y)
		d.line(0.2, darkGrey, l.x+l.w-1.5, y, l.x+l.w, y)
		if y > l.y+9 && y < l.y+l.h-5 {
			d.mark(l.x+0.6, y-0.6, round(north)+" N")
		}
	}
}

// mark writes a number of the grid on a white ground.
func (d *document) mark(x, y float64, words string) {
	d.box(0, white, x-0.3, y-2.5, d.width(leastSize, false, words)+0.6, 3.1)
	d.text(x, y, leastSize, false, words)
}

func round(x float64) string { return strconv.FormatFloat(x, 'f', -1, 64) }

// scaleBars draws two bars at the lower right: metres above, feet below.
func (d *document) scaleBars(l land, most float64) {
	x := l.x + l.w - 3
	y := l.y + l.h - 13
	for i, unit := range []units.Scale{units.Metric.LengthScale(), units.US.LengthScale()} {
		long := niceStep(most / l.scale / unit.One)
		wide := long * unit.One * l.scale
		base := y + float64(i)*4.4
		words := round(long) + " " + unit.Unit
		d.box(0, white, x-wide-d.width(leastSize, false, words)-2.5, base-2.7, wide+d.width(leastSize, false, words)+3.5, 4)
		d.line(0.9, black, x-wide, base, x, base)
		d.textRight(x-wide-1.2, base+1, leastSize, false, words)
	}
}

// northMark draws a plain arrow to grid north at the upper right.
func (d *document) northMark(l land) {
	x, y := l.x+l.w-6, l.y+3
	d.box(0, white, x-3.5, y-1.5, 7, 13)
	d.line(0.6, black, x, y, x, y+7)
	d.path(0.6, black, []spot{{X: x - 1.4, Y: y + 2.2}, {X: x, Y: y}, {X: x + 1.4, Y: y + 2.2}})
	d.textMid(x, y+10.6, leastSize, true, "N")
}
