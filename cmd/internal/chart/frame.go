package chart

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"siltstep/cmd/internal/units"

	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
)

// NotJudged says what a profile without incision does not show, NotJudgedBelow what one with it does not.
const (
	NotJudged      = "Not judged here: erosion, banks, storm flow, soil and rock, and what was built since the survey. Planning aid, not an engineered design: walk every site."
	NotJudgedBelow = "Not judged here: storm flow, soil and rock, and what was built since the survey. Planning aid, not an engineered design: walk every site."
)

// titleRoom is the room for the title of a profile, left of its scale, points.
const titleRoom = 420

// header writes title, figures and the key to the marks.
func header(c draw.Canvas, p Profile, system units.System, exaggeration float64) {
	const topic = ": longitudinal profile"
	title := shortened(p.Title, 13, titleRoom-textWidth(topic, 13)) + topic
	c.FillText(style(13, ink), vg.Point{X: c.Min.X, Y: c.Max.Y - 24}, title)
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

// keySwatch is the width of the sample of a mark in a key, points.
const keySwatch = 18

// keyRow is a row that explains marks, from the left: where the next entry begins, and its base line.
type keyRow struct {
	c    draw.Canvas
	x, y vg.Length
}

// entry adds a mark and its name. mark draws from x on, around the height y.
func (k *keyRow) entry(name string, mark func(x, y vg.Length)) {
	const gap, middle = 12, 3
	mark(k.x, k.y+middle)
	k.x += keySwatch + 4
	k.say(name)
	k.x += gap
}

// say adds words.
func (k *keyRow) say(words string) {
	sty := style(8.5, ink)
	k.c.FillText(sty, vg.Point{X: k.x, Y: k.y}, words)
	k.x += fontSlack * sty.Width(words)
}

// key explains the marks, from the left.
func key(c draw.Canvas, p Profile) {
	const rise = 7
	k := keyRow{c, c.Min.X, c.Max.Y - 54}
	k.entry("bed", func(x, y vg.Length) { c.StrokeLine2(bedLine, x, y, x+keySwatch, y) })
	if p.hidesBed() {
		k.entry("bed not seen: cut, or water", func(x, y vg.Length) { c.StrokeLine2(unseenLine, x, y, x+keySwatch, y) })
	}
	k.entry("ground in the elevation model", func(x, y vg.Length) { c.StrokeLine2(groundLine, x, y, x+keySwatch, y) })
	if len(p.Sites) > 0 {
		k.entry("dam, bed to notch sill", func(x, y vg.Length) {
			for _, body := range [][2]vg.Length{{0, 12}, {14, 4}} { // wide and narrow
				from, wide := x+body[0], body[1]
				damBody(c, []vg.Point{{X: from, Y: y - 3}, {X: from + wide/2, Y: y + rise}, {X: from + wide, Y: y - 3}})
			}
		})
		k.entry("sediment wedge when full", func(x, y vg.Length) {
			corner := []vg.Point{{X: x, Y: y - 3}, {X: x, Y: y + rise}, {X: x + keySwatch, Y: y + rise}}
			stippled(c, corner)
			c.StrokeLines(siltLine, corner[1:])
		})
	}
	if len(p.Headcuts) > 0 && !p.judged() { // else the strip explains them
		k.entry("headcut", func(x, y vg.Length) { headcutMark(c, vg.Point{X: x + keySwatch/2, Y: y + 3}) })
	}
}

// footer writes what the drawing does not tell.
func footer(c draw.Canvas, p Profile, labelled int) {
	sty := style(7.5, ink)
	var notes []string
	if p.Truncated {
		notes = append(notes, "The catchment reaches beyond the data: areas and flows read \"at least\".")
	}
	if labelled < len(p.Sites) {
		notes = append(notes, fmt.Sprintf("For room, %d of %d dams are labelled.", labelled, len(p.Sites)))
	}
	missing := NotJudged
	if p.judged() {
		missing = NotJudgedBelow
	}
	c.FillText(sty, vg.Point{X: c.Min.X, Y: c.Min.Y + 18}, missing)
	c.FillText(sty, vg.Point{X: c.Min.X, Y: c.Min.Y + 7}, strings.Join(notes, " "))
}

// describe says in words what is drawn, for readers that cannot see it.
func describe(p Profile, system units.System) string {
	text := fmt.Sprintf("%s: bed from the lower end upstream, length %s, drop %s", p.Title, system.Length(p.lengthM(), 1), system.Length(p.dropM(), 1))
	if p.hidesBed() {
		text += ", bed not seen in places"
	}
	switch n := len(p.Sites); n {
	case 0:
	case 1:
		text += ", dam " + p.Sites[0].ID
	default:
		text += fmt.Sprintf(", %d dams, the lowest %s and the highest %s", n, p.Sites[0].ID, p.Sites[n-1].ID)
	}
	if deepest := p.deepestM(); !math.IsNaN(deepest) {
		text += ", incision up to " + system.Length(deepest, 2)
	}
	if n := len(p.Headcuts); n > 0 {
		text += ", " + counted(n, "headcut")
	}
	return text + "."
}
