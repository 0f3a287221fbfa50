package chart

import (
	"math"
	"strconv"

	"siltstep/cmd/internal/units"

	"github.com/paulmach/orb"
	"github.com/paulmach/orb/simplify"
)

// pointM is a point of print, 1/72 inch, in metres.
const pointM = 0.0254 / 72

// Strips around the frame of a map, points.
const (
	mapMargin = 14
	mapHeader = 50
	mapLeft   = mapMargin + 11 // with the northings
	mapBelow  = 12             // the eastings
	mapLegend = 88
	mapFooter = 40
)

// pages are the largest sizes of a page, upright last: within Letter and A4. Points.
var pages = [2]orb.Point{{720, 540}, {540, 720}}

// leastWidth is the least width of a page, for the legend, points.
const leastWidth = 540

// roundMapScales are the scales that a map is fitted to, in each decade. Our own choice.
var roundMapScales = []float64{1, 1.2, 1.5, 2, 2.5, 3, 4, 5, 6, 8}

// inchFeet is how many times a length in inches is longer in feet: in US units a round map scale is an
// inch to a round number of feet.
const inchFeet = 12

// box is a rectangle on the page, y down, points.
type box struct{ x0, y0, x1, y1 float64 }

func (b box) width() float64  { return b.x1 - b.x0 }
func (b box) height() float64 { return b.y1 - b.y0 }

// overlaps reports whether two boxes share more than an edge.
func (b box) overlaps(c box) bool {
	return b.x0 < c.x1 && c.x0 < b.x1 && b.y0 < c.y1 && c.y0 < b.y1
}

// within reports whether b lies in c.
func (b box) within(c box) bool {
	return b.x0 >= c.x0 && b.x1 <= c.x1 && b.y0 >= c.y0 && b.y1 <= c.y1
}

// holds reports whether a point lies in b or on its edge.
func (b box) holds(p orb.Point) bool {
	return p[0] >= b.x0 && p[0] <= b.x1 && p[1] >= b.y0 && p[1] <= b.y1
}

// into returns b moved the least way that brings it into c; where it is larger, it sticks out.
func (b box) into(c box) box {
	dx := max(c.x0-b.x0, 0) + min(c.x1-b.x1, 0)
	dy := max(c.y0-b.y0, 0) + min(c.y1-b.y1, 0)
	return box{b.x0 + dx, b.y0 + dy, b.x1 + dx, b.y1 + dy}
}

// corners returns the corners of a box in turn.
func (b box) corners() []orb.Point {
	return []orb.Point{{b.x0, b.y0}, {b.x1, b.y0}, {b.x1, b.y1}, {b.x0, b.y1}}
}

// attributes returns place and size as attributes of SVG.
func (b box) attributes() string {
	return "x=\"" + tenth(b.x0) + "\" y=\"" + tenth(b.y0) + "\" width=\"" + tenth(b.width()) + "\" height=\"" + tenth(b.height()) + "\""
}

// sheet is a page and where the map lies on it.
type sheet struct {
	width, height float64 // of the page, points
	frame         box     // of the map, points
	extent        orb.Bound
	scale         float64 // metres on the ground for a metre on the page
}

// fitSheet lays an extent on the page that shows it at the larger scale.
func fitSheet(extent orb.Bound, system units.System) sheet {
	across, up := extent.Max[0]-extent.Min[0], extent.Max[1]-extent.Min[1]
	scale := math.Inf(1)
	for _, page := range pages {
		w, h := page[0]-mapLeft-mapMargin, page[1]-mapHeader-mapBelow-mapLegend-mapFooter
		scale = min(scale, roundMapScale(max(across/w, up/h)/pointM, system))
	}
	w, h := across/(scale*pointM), up/(scale*pointM)
	s := sheet{width: max(leastWidth, math.Ceil(w+mapLeft+mapMargin)), extent: extent, scale: scale}
	left := mapLeft + (s.width-mapLeft-mapMargin-w)/2
	s.frame = box{left, mapHeader, left + w, mapHeader + h}
	s.height = math.Ceil(s.frame.y1 + mapBelow + mapLegend + mapFooter)
	return s
}

// roundMapScale returns the least round map scale not below v, which must be above zero.
func roundMapScale(v float64, system units.System) float64 {
	one := 1.0
	if system == units.US {
		one = inchFeet
	}
	decade := math.Pow(10, math.Floor(math.Log10(v/one)))
	for _, r := range roundMapScales {
		if r*decade*one >= v*(1-1e-9) {
			return r * decade * one
		}
	}
	return 10 * decade * one
}

// scaleText says the scale: "1 : 12,000".
func (s sheet) scaleText(system units.System) string {
	text := "1 : " + grouped(s.scale)
	if system == units.US {
		text += " (1 in to " + grouped(s.scale/inchFeet) + " ft)"
	}
	return text
}

// grouped writes a number rounded to a whole one with a comma at each thousand; below 10 with its decimals.
func grouped(v float64) string {
	if v < 10 {
		return strconv.FormatFloat(v, 'g', 3, 64)
	}
	digits := strconv.FormatFloat(v, 'f', 0, 64)
	for at := len(digits) - 3; at > 0; at -= 3 {
		digits = digits[:at] + "," + digits[at:]
	}
	return digits
}

// at returns where a position lies on the page, points.
func (s sheet) at(p orb.Point) orb.Point {
	return orb.Point{s.frame.x0 + (p[0]-s.extent.Min[0])/(s.scale*pointM), s.frame.y1 - (p[1]-s.extent.Min[1])/(s.scale*pointM)}
}

// shows reports whether a position lies in the frame.
func (s sheet) shows(p orb.Point) bool { return finite(p) && s.extent.Contains(p) }

// simplifyTo is how far a simplified line may leave its own, points: half a pixel of a screen at 96 to
// the inch.
const simplifyTo = 0.375

// simplified returns a line on the page without the points that would not be seen.
func (s sheet) simplified(line orb.LineString) []orb.Point {
	out := make(orb.LineString, 0, len(line))
	for _, p := range line {
		if finite(p) {
			out = append(out, s.at(p))
		}
	}
	if len(out) < 3 {
		return out
	}
	return simplify.DouglasPeucker(simplifyTo).LineString(out)
}
