package chart

import (
	"math"
	"strings"

	"github.com/paulmach/orb"
)

// placing takes points of an element to pixels: a scale, a turn, then a shift.
type placing struct {
	size float64 // pixels to a unit
	turn float64 // clockwise on the page, radians
	to   orb.Point
}

// at returns the pixel of a point.
func (p placing) at(x, y float64) orb.Point {
	sin, cos := math.Sincos(p.turn)
	return orb.Point{p.to[0] + p.size*(x*cos-y*sin), p.to[1] + p.size*(x*sin+y*cos)}
}

// moved returns the placing of what stands at a point.
func (p placing) moved(x, y float64) placing {
	p.to = p.at(x, y)
	return p
}

// transformed returns the placing after the attribute "transform".
func (p placing) transformed(words string) placing {
	for _, step := range strings.Split(words, ")") {
		v := numbers(step)
		switch {
		case strings.Contains(step, "translate(") && len(v) == 2:
			p = p.moved(v[0], v[1])
		case strings.Contains(step, "rotate(") && len(v) == 1:
			p.turn += v[0] * math.Pi / 180
		case strings.Contains(step, "scale(") && len(v) == 1:
			p.size *= v[0]
		}
	}
	return p
}

// trace is a line of a path.
type trace struct {
	points []orb.Point
	closed bool
}

// traces reads the data of a path: the letters that a pen writes, M, L, l, H, h, V, v and z.
func traces(data string) []trace {
	var out []trace
	var at orb.Point
	for len(data) > 0 {
		end := strings.IndexAny(data[1:], "MLlHhVvz") + 1
		if end == 0 {
			end = len(data)
		}
		letter, v := data[0], numbers(data[1:end])
		data = data[end:]
		if letter == 'z' && len(out) > 0 {
			out[len(out)-1].closed = true
			at = out[len(out)-1].points[0]
			continue
		}
		if len(v) == 0 {
			continue
		}
		last := v[len(v)-1]
		switch letter {
		case 'M', 'L':
			at = orb.Point{v[0], last}
		case 'l':
			at = orb.Point{at[0] + v[0], at[1] + last}
		case 'H':
			at[0] = last
		case 'h':
			at[0] += last
		case 'V':
			at[1] = last
		case 'v':
			at[1] += last
		}
		if letter == 'M' || len(out) == 0 {
			out = append(out, trace{})
		}
		t := &out[len(out)-1]
		t.points = append(t.points, at)
	}
	return out
}

// dots returns points along a line, a distance apart, the first at its start.
func (t trace) dots(apart float64) []orb.Point {
	var out []orb.Point
	next := 0.0 // from the start of the piece
	for i := 1; i < len(t.points) && apart > 0; i++ {
		a, b := t.points[i-1], t.points[i]
		length := math.Hypot(b[0]-a[0], b[1]-a[1])
		for ; next < length; next += apart {
			share := next / length
			out = append(out, orb.Point{a[0] + share*(b[0]-a[0]), a[1] + share*(b[1]-a[1])})
		}
		next -= length
	}
	return out
}
