package chart

import (
	"math"

	"github.com/paulmach/orb"
)

// Labels of a map. Our own choices.
const (
	labelText      = 6.5  // size, points
	leastLabel     = 0.9  // share of that size on a crowded map
	firstText      = 7.6  // size of those of the first ranks, points
	firstRanks     = 10   // ranks that are bold
	boldSlack      = 1.1  // bold letters are up to this much wider than plain ones
	labelGap       = 1.2  // between a line and its label, points
	labelSteps     = 24   // places tried along a line
	mostCovered    = 0.35 // share of a label's box that lines and marks may take
	labelClearance = 0.8  // between labels, and to the frame, points
)

// label is a name in its place.
type label struct {
	name string
	box  box // what the text takes, points
	size float64
	bold bool
}

// labels finds places for the names of the drainages, the worst first. A name for which every place is
// taken, is covered by lines or runs out of the frame is left out.
func (d *mapDrawing) labels() []label {
	taken := d.cover()
	inner := box{d.frame.x0 + labelClearance, d.frame.y0 + labelClearance, d.frame.x1 - labelClearance, d.frame.y1 - labelClearance}
	var out []label
	for _, l := range d.lines {
		best := label{name: l.ID, size: labelText * max(d.weight, leastLabel)}
		if l.Rank >= 1 && l.Rank <= firstRanks {
			best.size, best.bold = firstText, true
		}
		w := textWidth(l.ID, best.size)
		if best.bold {
			w *= boldSlack
		}
		least := math.Inf(1)
		for _, c := range l.places(w, best.size, d.weight) {
			if !d.frame.holds(c.at) {
				continue
			}
			b := c.box.into(inner)
			covered := taken.share(b)
			cost := c.cost + 8*covered
			if cost < least && covered <= mostCovered && b.within(inner) && free(b, out) {
				best.box, least = b, cost
			}
		}
		if w > 0 && !math.IsInf(least, 1) {
			out = append(out, best)
		}
	}
	return out
}

// free reports whether a box keeps its distance from all labels.
func free(b box, placed []label) bool {
	b = box{b.x0 - labelClearance, b.y0 - labelClearance, b.x1 + labelClearance, b.y1 + labelClearance}
	for _, p := range placed {
		if b.overlaps(p.box) {
			return false
		}
	}
	return true
}

// place is where a label might stand; the lower its cost the better.
type place struct {
	at   orb.Point // of the line that it belongs to
	box  box
	cost float64
}

// places returns places for a label of some size along a line, on both sides of it, near and a little
// further off. The middle of the line is best.
func (l mapLine) places(w, h, weight float64) []place {
	total := lengthOf(l.points)
	var out []place
	for k := range labelSteps {
		share := (float64(k) + 0.5) / labelSteps
		at, way := along(l.points, share*total)
		for _, side := range []float64{1, -1} {
			nx, ny := side*way[1], -side*way[0]
			for _, off := range []float64{0, 2.5} {
				r := l.reach(weight) + labelGap + off + math.Abs(nx)*w/2 + math.Abs(ny)*h/2
				x, y := at[0]+nx*r, at[1]+ny*r
				out = append(out, place{at, box{x - w/2, y - h/2, x + w/2, y + h/2}, math.Abs(share-0.5) + 0.4*off})
			}
		}
	}
	return out
}

// lengthOf returns the length of a line on the page, points.
func lengthOf(line []orb.Point) float64 {
	var sum float64
	for i := 1; i < len(line); i++ {
		sum += math.Hypot(line[i][0]-line[i-1][0], line[i][1]-line[i-1][1])
	}
	return sum
}

// along returns the point at a distance from the start of a line and the unit vector of the piece it
// lies on; {1, 0} where the line has no length.
func along(line []orb.Point, distance float64) (at, way orb.Point) {
	at, way = line[0], orb.Point{1, 0}
	for i := 1; i < len(line); i++ {
		a, b := line[i-1], line[i]
		size := math.Hypot(b[0]-a[0], b[1]-a[1])
		if size == 0 {
			continue
		}
		way = orb.Point{(b[0] - a[0]) / size, (b[1] - a[1]) / size}
		if distance <= size || i == len(line)-1 {
			t := min(distance, size)
			return orb.Point{a[0] + t*way[0], a[1] + t*way[1]}, way
		}
		distance -= size
		at = b
	}
	return at, way
}

// names draws the labels with white around the letters.
func (d *mapDrawing) names() {
	if len(d.placed) == 0 {
		return
	}
	d.pen.put("<use xlink:href=\"#names\" fill=\"#fff\" stroke=\"#fff\" stroke-width=\"2\" stroke-linejoin=\"round\"/>\n<g fill=\"#1c1c1c\"><g id=\"names\" text-anchor=\"middle\">\n")
	for _, l := range d.placed {
		more := ""
		if l.bold {
			more = "font-weight=\"bold\""
		}
		d.pen.text((l.box.x0+l.box.x1)/2, l.box.y1-0.16*l.size, l.size, l.name, more)
	}
	d.pen.put("</g></g>\n")
}
