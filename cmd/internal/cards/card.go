package cards

import (
	"fmt"
	"math"

	"siltstep/cmd/internal/facts"
)

// Heights of the parts of a card, mm.
const (
	cardHead    = 31.0
	leastSketch = 46.0
	mostSketch  = 84.0
	partGap     = 2.0
)

// card draws dam i of a run on a page of its own, the n-th card.
func (d *document) card(r run, i, n int) {
	s := r.dams[i]
	d.page(fmt.Sprintf("%s · card %s, %d of %d · planning aid, not an engineered design: walk the site before you build", d.opt.Title, s.ID, n, d.dams))
	d.cardName(r, i)
	y := d.findIt(r, i, margin+cardHead)
	half := (d.inner() - partGap) / 2
	rows, list := d.rows(r, s), d.remarksOf(s)
	formTop := d.bottom() - formHigh
	spare := formTop - partGap - (y + leastSketch + partGap + d.tableHigh(rows) + partGap + d.remarksHigh(list))
	high := min(mostSketch, leastSketch+max(0, spare)) // sketches take the room that words leave
	d.across(s, margin, y, half, high)
	d.along(r, i, margin+half+partGap, y, half, high)
	y = d.table(rows, y+high+partGap, d.row)
	d.remarks(list, s, y+partGap, formTop-partGap)
	d.form(formTop, s.ID)
}

// cardName writes the id, the place in the build order and the coordinates, with the scannable code at the right.
func (d *document) cardName(r run, i int) {
	s := r.dams[i]
	side := d.code(s, d.right(), margin)
	d.text(margin, margin+9.5, nameSize, true, s.ID)
	x := margin + d.width(nameSize, true, s.ID) + 5
	d.text(x, margin+4.2, headSize, true, fmt.Sprintf("Dam %d of %d in series %s, from the bottom", i+1, len(r.dams), r.ID))
	order := "build order of the series: " + r.place()
	if r.BuildOrder > 0 && !r.LeftOut {
		order += fmt.Sprintf(" of %d", d.inOrder())
	}
	if r.LeftOut {
		order = "series left out of this plan's budget: build only when told to"
	}
	d.text(x, margin+9, plainSize, false, order)
	lat, lon := degrees(s)
	d.text(margin, margin+16, headSize, true, fmt.Sprintf("Latitude %s   Longitude %s", lat, lon))
	d.text(margin, margin+20.4, plainSize, false, "degrees, WGS 84")
	d.text(margin, margin+25.4, headSize, true, fmt.Sprintf("Grid %s E   %s N", metres(s.XM), metres(s.YM)))
	d.text(margin, margin+29.6, plainSize, false, "grid metres, "+d.f.Grid.CRS)
	d.textRight(side-2, margin+25.4, leastSize, false, geoText(s))
	d.textRight(side-2, margin+29.6, leastSize, false, "scan for a map: near, not exact")
}

// inOrder counts the series that have a place in the build order.
func (d *document) inOrder() (n int) {
	for _, r := range d.runs {
		if r.BuildOrder > 0 && !r.LeftOut {
			n++
		}
	}
	return n
}

// degrees shows a place with 6 decimals, about 0.1 m.
func degrees(s facts.Site) (lat, lon string) {
	if !s.Lat.Known() || !s.Lon.Known() {
		return notKnown, notKnown
	}
	return fmt.Sprintf("%.6f", float64(s.Lat)), fmt.Sprintf("%.6f", float64(s.Lon))
}

// metres shows a coordinate of the grid.
func metres(x facts.Num) string {
	if !x.Known() {
		return notKnown
	}
	return fmt.Sprintf("%.2f", float64(x))
}

// findIt writes the way to the dam with tape and level, and returns where the next part begins.
func (d *document) findIt(r run, i int, y float64) float64 {
	t := d.tapeTo(r, i)
	wide := d.inner() - 6
	near := d.wrapped(t.near, wide, headSize, true)
	var lines []string
	for _, one := range append(t.lines, d.tapeFault(r)) {
		lines = append(lines, d.wrapped(one, wide, plainSize, false)...)
	}
	high := 2.6 + float64(len(near))*pitch(headSize) + float64(len(lines))*pitch(plainSize)
	d.box(0.5, white, margin, y, d.inner(), high)
	base := y + 5
	for _, one := range near {
		d.text(margin+3, base, headSize, true, one)
		base += pitch(headSize)
	}
	for _, one := range lines {
		d.text(margin+3, base, plainSize, false, one)
		base += pitch(plainSize)
	}
	y += high + partGap
	if design := d.f.Design(r.dams[i].ID); design != nil && !design.Buildable {
		d.pdf.SetTextColor(white, white, white)
		d.box(0.5, black, margin, y, d.inner(), 6.4)
		d.textMid(d.wide/2, y+4.6, headSize, true, "DO NOT BUILD AS DESIGNED: read the cautions, and ask who made the plan")
		d.pdf.SetTextColor(black, black, black)
		y += 6.4 + partGap
	}
	return y
}

// table sets the figures of a dam in two columns of rows, and returns where the next part begins.
func (d *document) table(rows [][2]string, y float64, set func(x, y, wide float64, row [2]string) float64) float64 {
	half := (d.inner() - partGap) / 2
	per := (len(rows) + 1) / 2
	low := y
	for side := range 2 {
		x, base := margin+float64(side)*(half+partGap), y
		for _, row := range rows[min(side*per, len(rows)):min((side+1)*per, len(rows))] {
			base = set(x, base, half, row)
		}
		low = math.Max(low, base)
	}
	return low
}

// tableHigh returns the height of a table, mm.
func (d *document) tableHigh(rows [][2]string) float64 {
	return d.table(rows, 0, func(_, y, wide float64, row [2]string) float64 {
		return y + rowHigh(len(d.wrapped(row[1], wide-labelWide, plainSize, true)))
	})
}

// rowHigh returns the height of a row of some lines, mm.
func rowHigh(lines int) float64 { return 1 + float64(max(lines, 1))*pitch(plainSize) }

// labelWide is the width of the names in a table, mm.
const labelWide = 25.0

// row writes one row and returns where the next begins.
func (d *document) row(x, y, wide float64, row [2]string) float64 {
	d.text(x, y+3.6, plainSize, false, row[0])
	lines := d.wrapped(row[1], wide-labelWide, plainSize, true)
	for i, line := range lines {
		d.text(x+labelWide, y+3.6+float64(i)*pitch(plainSize), plainSize, true, line)
	}
	y += rowHigh(len(lines))
	d.line(0.1, darkGrey, x, y, x+wide, y)
	return y
}
