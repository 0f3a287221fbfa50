package chart

import (
	"siltstep/cmd/internal/units"
	"siltstep/hydro/channel"

	"gonum.org/v1/plot"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
)

// rules are pale lines across the axes at the ticks of elevation.
type rules struct{}

// Plot implements plot.Plotter.
func (rules) Plot(c draw.Canvas, a *plot.Plot) {
	_, y := a.Transforms(&c)
	for _, t := range a.Y.Tick.Marker.Ticks(a.Y.Min, a.Y.Max) {
		c.StrokeLine2(ruleLine, c.Min.X, y(t.Value), c.Max.X, y(t.Value))
	}
}

// layer is a surface of the profile.
type layer int

const (
	ground layer = iota
	bed
)

// line is a surface along the stations.
type line struct {
	stations []channel.Station
	unit     units.Scale
	layer    layer
}

// Plot implements plot.Plotter. The bed is dashed from station to station where either shows none.
func (l line) Plot(c draw.Canvas, a *plot.Plot) {
	x, y := a.Transforms(&c)
	points := make([]vg.Point, len(l.stations))
	for i, s := range l.stations {
		z := s.BedM
		if l.layer == ground {
			z = s.GroundM
		}
		points[i] = vg.Point{X: x(l.unit.Value(s.StationM)), Y: y(l.unit.Value(z))}
	}
	if l.layer == ground {
		c.StrokeLines(groundLine, points)
		return
	}
	unseen := func(i int) bool { return l.stations[i].NoBed || l.stations[i+1].NoBed }
	for from := 0; from+1 < len(points); {
		to := from + 1
		for to+1 < len(points) && unseen(to) == unseen(from) {
			to++
		}
		sty := bedLine
		if unseen(from) {
			sty = unseenLine
		}
		c.StrokeLines(sty, points[from:to+1])
		from = to
	}
}

// lips are small wedges under the bed where it steps down.
type lips struct {
	Profile
	unit units.Scale
}

// Plot implements plot.Plotter.
func (l lips) Plot(c draw.Canvas, a *plot.Plot) {
	x, y := a.Transforms(&c)
	for _, h := range l.Headcuts {
		headcutMark(c, vg.Point{X: x(l.unit.Value(h.StationM)), Y: y(l.unit.Value(bedAt(l.Stations, h.StationM))) - 1.5})
	}
}

// headcutMark fills a small wedge whose tip is at a point, from below.
func headcutMark(c draw.Canvas, tip vg.Point) {
	const half, size = 2.4, 5
	c.FillPolygon(ink, []vg.Point{tip, {X: tip.X + half, Y: tip.Y - size}, {X: tip.X - half, Y: tip.Y - size}})
}
