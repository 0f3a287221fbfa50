package cards

import (
	"math"

	"github.com/paulmach/orb"
)

// A rect is a piece of the paper, mm, from its upper left to its lower right corner.
type rect struct{ x0, y0, x1, y1 float64 }

// within tells whether a piece lies on a map.
func (r rect) within(l land) bool {
	return r.x0 >= l.x+0.5 && r.x1 <= l.x+l.w-0.5 && r.y0 >= l.y+0.5 && r.y1 <= l.y+l.h-0.5
}

// labels are the pieces of a map that are written on.
type labels struct{ list []rect }

func (t *labels) add(r rect) { t.list = append(t.list, r) }

// keep holds a place free of letters.
func (t *labels) keep(p spot, half float64) {
	t.add(rect{p.X - half, p.Y - half, p.X + half, p.Y + half})
}

// furniture holds north arrow, scale bars (of some width) and the numbers of the grid free.
func (t *labels) furniture(l land, scale float64) {
	t.add(rect{l.x + l.w - 10, l.y, l.x + l.w, l.y + 15})
	t.add(rect{l.x + l.w - scale, l.y + l.h - 16, l.x + l.w, l.y + l.h})
	t.add(rect{l.x, l.y + l.h - 4, l.x + l.w, l.y + l.h})
	t.add(rect{l.x, l.y, l.x + 15.5, l.y + l.h})
}

// hit tells whether a piece is written on already.
func (t *labels) hit(r rect) bool {
	for _, o := range t.list {
		if r.x0 < o.x1 && o.x0 < r.x1 && r.y0 < o.y1 && o.y0 < r.y1 {
			return true
		}
	}
	return false
}

// place writes words beside a spot, as near as there is room, with a thin line to it where that is not near; nowhere where there is none
// within some distance, mm.
func (d *document) place(l land, p spot, words string, bold bool, taken *labels, most float64) {
	const nearest, step = 2.4, 2.5
	wide := d.width(leastSize, bold, words)
	for far := nearest; far <= most; far += step {
		for _, turn := range []float64{0, 180, 315, 45, 225, 135, 270, 90} {
			way := orb.Point{math.Cos(turn * math.Pi / 180), math.Sin(turn * math.Pi / 180)}
			x, y := p.X+far*way[0]-wide*(1-way[0])/2, p.Y+far*way[1]+1
			r := rect{x - 0.4, y - 2.5, x + wide + 0.4, y + 0.7}
			if !r.within(l) || taken.hit(r) {
				continue
			}
			taken.add(r)
			if far > nearest+step {
				d.line(0.1, darkGrey, p.X, p.Y, p.X+(far-1)*way[0], p.Y+(far-1)*way[1])
			}
			d.box(0, white, r.x0, r.y0, r.x1-r.x0, r.y1-r.y0)
			d.text(x, y, leastSize, bold, words)
			return
		}
	}
}

// inTurn returns the order in which dams get their numbers: the lowest, the highest, every fifth, then the others.
func inTurn(n int) (list []int) {
	first := func(i int) bool { return i == 0 || i == n-1 || (i+1)%5 == 0 }
	for _, want := range []bool{true, false} {
		for i := range n {
			if first(i) == want {
				list = append(list, i)
			}
		}
	}
	return list
}

func sign(x float64) float64 {
	if x < 0 {
		return -1
	}
	return 1
}
