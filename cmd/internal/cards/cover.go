package cards

import (
	"fmt"
	"strings"
)

// titleSize is the size of the letters of the plan's name, points.
const titleSize = 18.0

// safety are lines for everybody in the channel; common practice on sites like these.
var safety = []string{
	"Nobody stands in the channel while it rains, or may rain, anywhere upstream: water can arrive under a blue sky. Agree on a way out and on who watches the sky.",
	"Look up before you go in. Undercut banks and loose rock fall: do not work or rest below them, and nobody works above somebody else.",
	"Lift with the legs, and no stone that is too heavy for you: roll it, bar it, or carry it with two. Gloves and boots always, eyes covered when stone is broken.",
	"Stop and ask when the ground is not what the card says: seepage, pipes or cables, bones or worked stone, running water, a moved bank.",
}

// cover draws what comes before the cards: cautions, totals, safety and the map on the first page, then build order and maps of the series.
func (d *document) cover() {
	d.coverPage("cover")
	y := d.coverCautions(margin)
	y = d.coverFacts(y + 4)
	y = d.coverSafety(y + 3)
	d.overview(margin, y+2, d.inner(), d.bottom()-y-2)
	if d.dams == 0 {
		return
	}
	d.buildOrder()
	d.seriesMaps()
}

func (d *document) coverPage(part string) {
	d.page(fmt.Sprintf("%s · crew cards, %s · %s", d.opt.Title, part, plural(d.dams, "card")))
}

// coverCautions writes the cautions of the plan in a box.
func (d *document) coverCautions(y float64) float64 {
	wide := d.inner() - 8
	var lines []remarkLine
	for i, c := range d.f.Cautions {
		for k, words := range d.wrapped(d.sentence(c.Text), wide-bulletRoom, plainSize, true) {
			lines = append(lines, remarkLine{words, false, i, k == 0})
		}
	}
	high := 9 + float64(len(lines))*pitch(plainSize)
	d.box(0.8, white, margin, y, d.inner(), high)
	d.text(margin+4, y+5.6, headSize+1, true, "Read this first")
	base := y + 10.4
	for _, one := range lines {
		if one.first {
			d.box(0, black, margin+4.6, base-1.8, 1.1, 1.1)
		}
		d.text(margin+4+bulletRoom, base, plainSize, true, one.words)
		base += pitch(plainSize)
	}
	return y + high
}

// coverFacts writes the name of the plan, lines for date and crew, and the totals.
func (d *document) coverFacts(y float64) float64 {
	y = d.block(margin, y+6, d.inner(), titleSize, true, d.opt.Title) - 1
	for i, label := range []string{"Date", "Crew leader", "Nearest help, phone"} {
		x := margin + float64(i)*d.inner()/3
		d.text(x, y, plainSize, false, label)
		from := x + d.width(plainSize, false, label) + 1.5
		d.line(0.2, black, from, y+0.6, x+d.inner()/3-4, y+0.6)
	}
	y += 6
	t := d.f.Totals
	if d.dams == 0 {
		y = d.block(margin, y, d.inner(), headSize, true, "This plan has no dams, so there are no cards.")
		return d.block(margin, y, d.inner(), plainSize, false, d.emptyText())
	}
	parts := []string{plural(d.dams, "dam"), plural(len(d.runs), "series"), "rock " + d.rock(t.RockM3, t.RockT), "treated channel length " + d.length(t.TreatedM, 1)}
	if t.Undesigned > 0 {
		parts = append(parts, plural(t.Undesigned, "dam")+" without a known design")
	}
	if t.Unbuildable > 0 {
		parts = append(parts, plural(t.Unbuildable, "dam")+" not to be built as designed")
	}
	y = d.block(margin, y, d.inner(), plainSize, true, strings.Join(parts, "  ·  "))
	return d.block(margin, y, d.inner(), plainSize, false, "Coordinates: latitude and longitude in degrees, WGS 84; grid east and north in metres, "+d.f.Grid.CRS+
		". Stations and distances run along the channel, level, upstream. Receivers and phones are often off by more than the distance between two dams: find each dam with tape and level from the one below.")
}

// emptyText says why there may be no dams.
func (d *document) emptyText() string {
	words := fmt.Sprintf("%s in the plan.", plural(d.f.Totals.Drainages, "drainage"))
	if d.f.Totals.EligibleM.Known() {
		return words + " Eligible for dams: " + d.length(d.f.Totals.EligibleM, 1) + " of channel. The reaches of the plan say why not elsewhere."
	}
	return words + " No sites were looked for: the drainages were screened only."
}

// coverSafety writes the safety lines.
func (d *document) coverSafety(y float64) float64 {
	d.text(margin, y+3, headSize, true, "Safety")
	y += 7.4
	for _, one := range safety {
		d.box(0, black, margin+0.6, y-1.8, 1.1, 1.1)
		y = d.block(margin+bulletRoom, y, d.inner()-bulletRoom, plainSize, false, one)
	}
	return y
}
