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

// wedges are the full sediment wedges: filled, with a line for the surface.
type wedges struct {
	Profile
	unit units.Scale
}

// Plot implements plot.Plotter.
func (ws wedges) Plot(c draw.Canvas, a *plot.Plot) {
	x, y := a.Transforms(&c)
	for i := range ws.Sites {
		var top, below []vg.Point
		for _, p := range ws.wedge(i) {
			at := x(ws.unit.Value(p.stationM))
			top = append(top, vg.Point{X: at, Y: y(ws.unit.Value(p.depositM))})
			below = append(below, vg.Point{X: at, Y: y(ws.unit.Value(p.bedM))})
		}
		outline := append([]vg.Point(nil), top...)
		for k := len(below) - 1; k >= 0; k-- {
			outline = append(outline, below[k])
		}
		c.FillPolygon(silt, outline)
		c.StrokeLines(siltLine, top)
	}
}

// dams are short bold lines from bed to sill, with ids above as far as there is room.
type dams struct {
	Profile
	unit units.Scale
}

// Plot implements plot.Plotter.
func (d dams) Plot(c draw.Canvas, a *plot.Plot) {
	x, y := a.Transforms(&c)
	for _, s := range d.Sites {
		at := x(d.unit.Value(s.StationM))
		c.StrokeLine2(damLine, at, y(d.unit.Value(s.BedM)), at, y(d.unit.Value(s.SillM)))
	}
	d.labels(c, x, y)
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
