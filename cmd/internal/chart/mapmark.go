package chart

import (
	"math"
	"strconv"

	"github.com/paulmach/orb"
)

// markShapes writes the marks, each with white around it: a wedge for a headcut, as in a profile, and a
// block for a dam, whose margin is a mark of its own, so that dams close together do not hide each other.
func (d *mapDrawing) markShapes() {
	size := strconv.FormatFloat(math.Round(100*max(d.weight, leastMark))/100, 'f', -1, 64)
	d.pen.put(`<g id="headcut"><g transform="scale(`, size, `)"><path stroke="#fff" stroke-width="2.4" stroke-linejoin="round" d="M0 -3.2L2.9 2.4H-2.9z"/>`,
		`<path fill="#1c1c1c" d="M0 -3.2L2.9 2.4H-2.9z"/></g></g>`, "\n")
	d.pen.put(`<g id="margin"><rect transform="scale(`, size, `)" x="-2.3" y="-2.3" width="4.6" height="4.6" fill="#fff"/></g>`, "\n",
		`<g id="dam"><rect transform="scale(`, size, `)" x="-1.3" y="-1.3" width="2.6" height="2.6" fill="#1c1c1c"/></g>`, "\n")
}

// leastMark is the least size of a mark, of its own on a map with room. Our own choice.
const leastMark = 0.6

// propertyStroke draws the property line: a long stroke and two dots, as boundaries are on plans. Common
// practice.
const propertyStroke = `stroke="#1c1c1c" stroke-width="0.9" stroke-dasharray="9 2 1.5 2 1.5 2"`

// markReach is half the size of a mark, points.
const markReach = 3.5

// marks draws headcuts and dams.
func (d *mapDrawing) marks() {
	for _, kind := range []struct {
		shape string
		at    []orb.Point
	}{{"margin", d.Dams}, {"dam", d.Dams}, {"headcut", d.Headcuts}} {
		for _, p := range kind.at {
			if d.shows(p) {
				d.mark(kind.shape, d.at(p))
			}
		}
	}
}

func (d *mapDrawing) mark(shape string, at orb.Point) {
	d.pen.put("<use xlink:href=\"#", shape, "\" x=\"", at[0], "\" y=\"", at[1], "\"/>\n")
}

// cutShort marks the upper end of drainages whose catchment reaches beyond the data: a chevron that
// points down the line.
func (d *mapDrawing) cutShort() {
	begun := false
	for _, l := range d.lines {
		if !l.Truncated {
			continue
		}
		if !begun {
			d.pen.put("<g fill=\"none\" stroke=\"#1c1c1c\" stroke-width=\"0.9\">\n")
			begun = true
		}
		way := math.Atan2(l.points[1][1]-l.points[0][1], l.points[1][0]-l.points[0][0])
		d.chevron(l.points[0], way)
	}
	if begun {
		d.pen.put("</g>\n")
	}
}

// chevron draws an arrow head with its tip before a point, pointing to an angle (page, clockwise from
// right).
func (d *mapDrawing) chevron(at orb.Point, way float64) {
	const size, spread = 4.5, 2.5 // points; radians from the way on
	arm := size * max(d.weight, leastMark)
	wing := func(turn float64) orb.Point {
		return orb.Point{at[0] + arm*math.Cos(way+turn), at[1] + arm*math.Sin(way+turn)}
	}
	d.pen.put("<path d=\"")
	d.pen.path([]orb.Point{wing(spread), at, wing(-spread)}, false)
	d.pen.put("\"/>\n")
}
