package chart

import (
	"fmt"
	"strconv"
	"strings"

	"siltstep/cmd/internal/units"

	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
)

// NotJudged says what a profile does not show, under every drawing.
const NotJudged = "Not judged here: erosion, banks, storm flow, soil and rock, and what was built since the survey. Planning aid, not an engineered design: walk every site."

// header writes title, figures and the key to the marks.
func header(c draw.Canvas, p Profile, system units.System, exaggeration float64) {
	title := style(13, ink)
	c.FillText(title, vg.Point{X: c.Min.X, Y: c.Max.Y - 24}, p.Title+": longitudinal profile")
	figures := []string{
		"length " + system.Length(p.lengthM(), 1), "drop " + system.Length(p.dropM(), 1), "mean slope " + system.Slope(p.dropM()/p.lengthM(), 1),
		"vertical exaggeration " + strconv.FormatFloat(exaggeration, 'g', 3, 64) + " : 1",
	}
	switch n := len(p.Sites); n {
	case 0:
	case 1:
		figures = append(figures, "1 dam")
	default:
		figures = append(figures, fmt.Sprintf("%d dams", n))
	}
	c.FillText(style(9, ink), vg.Point{X: c.Min.X, Y: c.Max.Y - 39}, strings.Join(figures, "  ·  "))
	key(c, p)
}

// fontSlack widens measured texts: where the measured font is missing, readers take another
// that is up to this much wider. Our own measure of common sans-serif fonts.
const fontSlack = 1.18

// key explains the marks, from the left.
func key(c draw.Canvas, p Profile) {
	sty := style(8.5, ink)
	const swatch, gap, low, high = 18, 12, 3, 10
	x, y := c.Min.X, c.Max.Y-54
	entry := func(name string, mark func(x vg.Length)) {
		mark(x)
		x += swatch + 4
		c.FillText(sty, vg.Point{X: x, Y: y}, name)
		x += fontSlack*sty.Width(name) + gap
	}
	entry("bed", func(x vg.Length) { c.StrokeLine2(bedLine, x, y+low, x+swatch, y+low) })
	if p.hidesBed() {
		entry("bed not seen: cut, or water", func(x vg.Length) { c.StrokeLine2(unseenLine, x, y+low, x+swatch, y+low) })
	}
	entry("ground in the elevation model", func(x vg.Length) { c.StrokeLine2(groundLine, x, y+low, x+swatch, y+low) })
	if len(p.Sites) == 0 {
		return
	}
	entry("dam, bed to notch sill", func(x vg.Length) {
		c.StrokeLine2(damLine, x+swatch/2, y+1, x+swatch/2, y+high)
	})
	entry("sediment wedge when full", func(x vg.Length) {
		corner := []vg.Point{{X: x, Y: y + low}, {X: x, Y: y + high}, {X: x + swatch, Y: y + high}}
		c.FillPolygon(silt, corner)
		c.StrokeLines(siltLine, corner[1:])
	})
}

// footer writes what the drawing does not tell.
func footer(c draw.Canvas, p Profile, everyLabel int) {
	sty := style(7.5, ink)
	var notes []string
	if p.Truncated {
		notes = append(notes, "The catchment reaches beyond the data: areas and flows read \"at least\".")
	}
	if everyLabel > 1 {
		notes = append(notes, fmt.Sprintf("For room, one dam in %d is labelled.", everyLabel))
	}
	c.FillText(sty, vg.Point{X: c.Min.X, Y: c.Min.Y + 18}, NotJudged)
	c.FillText(sty, vg.Point{X: c.Min.X, Y: c.Min.Y + 7}, strings.Join(notes, " "))
}

// describe says in words what is drawn, for readers that cannot see it.
func describe(p Profile, system units.System) string {
	text := fmt.Sprintf("%s: bed from the lower end upstream, length %s, drop %s", p.Title, system.Length(p.lengthM(), 1), system.Length(p.dropM(), 1))
	if p.hidesBed() {
		text += ", bed not seen in places"
	}
	if n := len(p.Sites); n > 0 {
		text += fmt.Sprintf(", dams %s to %s", p.Sites[0].ID, p.Sites[n-1].ID)
	}
	return text + "."
}
