package cards

import (
	"fmt"

	"siltstep/cmd/internal/facts"
)

// A column of the build order.
type column struct {
	head string
	wide float64 // share of the paper
}

var columns = []column{
	{"Order", 0.07}, {"Series", 0.1}, {"Dams, in this order", 0.16}, {"Length, lowest to highest", 0.12}, {"Rock", 0.21}, {"Before it", 0.34},
}

// buildOrder writes the series in the order in which they are built, on as many pages as it takes.
func (d *document) buildOrder() {
	y := d.bottom()
	for _, r := range d.runs {
		cells := d.cells(r)
		high := 0.0
		for i, words := range cells {
			high = max(high, float64(len(d.wrapped(words, columns[i].wide*d.inner()-2, leastSize, false)))*pitch(leastSize))
		}
		if y+high+2 > d.bottom() {
			y = d.orderHead()
		}
		x := margin
		for i, words := range cells {
			d.block(x+1, y+3.2, columns[i].wide*d.inner()-2, leastSize, i < 2, words)
			x += columns[i].wide * d.inner()
		}
		y += high + 2
		d.line(0.1, darkGrey, margin, y, d.right(), y)
	}
}

// orderHead begins a page of the build order.
func (d *document) orderHead() float64 {
	d.coverPage("build order")
	d.text(margin, margin+4, 14, true, "Build order")
	y := d.block(margin, margin+9.5, d.inner(), plainSize, false,
		"Each series is built whole, from its lowest dam upstream. What stands before it is done first. The cards follow in this order.")
	x, low := margin, y
	for _, c := range columns {
		low = max(low, d.block(x+1, y+1, c.wide*d.inner()-2, leastSize, true, c.head))
		x += c.wide * d.inner()
	}
	d.line(0.4, black, margin, low-2, d.right(), low-2)
	return low - 2
}

// cells returns what stands in the columns for a series.
func (d *document) cells(r run) []string {
	long := unknown
	if n := len(r.dams); n > 0 {
		long = r.dams[n-1].StationM - r.dams[0].StationM
	}
	order := r.place()
	if r.Year.Known() {
		order += ", year " + count(r.Year)
	}
	rock := d.rock(r.RockM3, r.RockT)
	if r.Loads.Known() {
		rock += "; " + count(r.Loads) + " loads"
	}
	if r.Built > 0 {
		rock += fmt.Sprintf("; %d built already", r.Built)
	}
	before := d.sentence(r.Before)
	if before == "" {
		before = "Nothing listed."
	}
	return []string{order, r.ID, fmt.Sprintf("%s (%d)", r.idsText(), len(r.dams)), d.length(long, 1), rock, before}
}

// titleOf names a series on its map.
func titleOf(r run) string {
	return fmt.Sprintf("%s · %s · order: %s", r.ID, plural(len(r.dams), "dam"), r.place())
}

// highestOf returns the last dam of a run; nil for none.
func highestOf(r run) *facts.Site {
	if len(r.dams) == 0 {
		return nil
	}
	return &r.dams[len(r.dams)-1]
}
