package chart

import (
	"siltstep/cmd/internal/units"
	"siltstep/hydro/siting"

	"gonum.org/v1/plot"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
)

// Dam bodies in a profile. Our own choices, points.
const (
	bodyPitch  = 2.6 // of the hatch
	leastHatch = 5   // a narrower body is drawn solid: a hatch would not be seen
)

var sideLine = draw.LineStyle{Color: ink, Width: vg.Points(1)}

// wedges are the full sediment wedges: a pale tone with dots, and a line for the surface.
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
		stippled(c, outline)
		c.StrokeLines(siltLine, top)
	}
}

// dams are bodies from toe to heel under the notch sill, with ids above as far as there is room.
type dams struct {
	Profile
	unit units.Scale
}

// Plot implements plot.Plotter.
func (d dams) Plot(c draw.Canvas, a *plot.Plot) {
	x, y := a.Transforms(&c)
	for _, s := range d.Sites {
		var outline []vg.Point
		for _, at := range d.outline(s) {
			outline = append(outline, vg.Point{X: x(d.unit.Value(at.stationM)), Y: y(d.unit.Value(at.levelM))})
		}
		damBody(c, outline)
	}
	d.labels(c, x, y)
}

// bodyPoint is a place on the outline of a dam seen from the side, m.
type bodyPoint struct{ stationM, levelM float64 }

// outline returns a dam seen from the side: toe, sill at the axis, heel, and the bed back to the toe. The width of its crest
// is not in it. A dam whose body is not known is its axis, from bed to sill.
func (p Profile) outline(s siting.Site) []bodyPoint {
	sill := bodyPoint{s.StationM, s.SillM}
	if !(s.BodyUpM > 0 && s.BodyDownM > 0) {
		return []bodyPoint{{s.StationM, s.BedM}, sill}
	}
	toeM, heelM := max(0, s.StationM-s.BodyDownM), min(p.lengthM(), s.StationM+s.BodyUpM)
	out := []bodyPoint{{toeM, bedAt(p.Stations, toeM)}, sill, {heelM, bedAt(p.Stations, heelM)}}
	for i := len(p.Stations) - 1; i >= 0; i-- {
		if st := p.Stations[i]; st.StationM > toeM && st.StationM < heelM {
			out = append(out, bodyPoint{st.StationM, st.BedM})
		}
	}
	return out
}

// damBody draws a dam from the outline of its side: hatched, solid where there is no room for a hatch, a bold line where it has no width.
func damBody(c draw.Canvas, outline []vg.Point) {
	switch {
	case len(outline) < 3:
		c.StrokeLines(damLine, outline)
	case outline[2].X-outline[0].X < leastHatch:
		c.FillPolygon(ink, outline)
		c.StrokeLines(sideLine, outline[:3])
	default:
		hatched(c, outline, bodyPitch)
		c.StrokeLines(sideLine, append(outline, outline[0]))
	}
}
