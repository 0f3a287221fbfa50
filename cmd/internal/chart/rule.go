package chart

import (
	"strconv"

	"siltstep/cmd/internal/units"

	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
)

// Most room for the bars of a scale on a profile, points.
const (
	alongBar = 72
	upBar    = 26
)

var barLine = draw.LineStyle{Color: ink, Width: vg.Points(0.9)}

// rule draws which way the water flows and how long a length along the channel and one up are, into the upper right corner of
// the header. along and up are points a unit.
func rule(c draw.Canvas, unit units.Scale, along, up float64) {
	sty := style(8, ink)
	wide := func(words string) vg.Length { return vg.Length(fontSlack) * sty.Width(words) }
	length := func(v float64) string { return strconv.FormatFloat(v, 'g', -1, 64) + " " + unit.Unit }
	lengthUp, lengthAlong := roundLength(upBar/up), roundLength(alongBar/along)
	x := c.Max.X - wide(length(lengthUp)) - 4
	foot := c.Max.Y - 40
	endMarks := func(p, q vg.Point, dx, dy vg.Length) {
		c.StrokeLine2(barLine, p.X, p.Y, q.X, q.Y)
		c.StrokeLine2(barLine, p.X-dx, p.Y-dy, p.X+dx, p.Y+dy)
		c.StrokeLine2(barLine, q.X-dx, q.Y-dy, q.X+dx, q.Y+dy)
	}
	size := vg.Length(lengthUp * up)
	endMarks(vg.Point{X: x, Y: foot}, vg.Point{X: x, Y: foot + size}, 2, 0)
	c.FillText(sty, vg.Point{X: x + 5, Y: foot + size/2 - 3}, length(lengthUp))
	size = vg.Length(lengthAlong * along)
	x -= 12
	endMarks(vg.Point{X: x - size, Y: foot}, vg.Point{X: x, Y: foot}, 0, 2)
	c.FillText(sty, vg.Point{X: x - size/2 - sty.Width(length(lengthAlong))/2, Y: foot + 4}, length(lengthAlong))
	x -= alongBar + 14
	words := "water flows this way"
	flow(c, vg.Point{X: x - wide(words), Y: foot}, x)
	c.FillText(sty, vg.Point{X: x - wide(words), Y: foot + 4}, words)
}

// flow draws an arrow that points left to its tip, with a single barb as the north of a map has.
func flow(c draw.Canvas, tip vg.Point, from vg.Length) {
	c.StrokeLine2(barLine, tip.X, tip.Y, from, tip.Y)
	c.StrokeLine2(barLine, tip.X, tip.Y, tip.X+8, tip.Y-4)
}
