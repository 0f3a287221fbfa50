package chart

import (
	"math"

	"siltstep/cmd/internal/units"

	"gonum.org/v1/plot"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
)

const (
	labelSize  = 7.5 // points
	labelPitch = 9.5 // least distance between the middles of upright labels, points
	labelLift  = 5   // from the sill or ground to the label, points
)

// labels writes the ids of the dams upright, above sill and ground.
func (d dams) labels(c draw.Canvas, x, y func(float64) vg.Length) {
	sty := style(labelSize, ink)
	sty.Rotation = math.Pi / 2
	sty.XAlign, sty.YAlign = draw.XLeft, draw.YCenter
	for _, i := range d.labelled(d.unit, x) {
		s := d.Sites[i]
		at := x(d.unit.Value(s.StationM))
		foot := y(d.unit.Value(s.SillM))
		near := func(px vg.Length) bool { return px > at-labelPitch/2 && px < at+labelPitch/2 }
		for _, st := range d.Stations { // what the label would cover
			if near(x(d.unit.Value(st.StationM))) {
				foot = max(foot, y(d.unit.Value(st.GroundM)), y(d.unit.Value(st.BedM)))
			}
		}
		for _, other := range d.Sites {
			if near(x(d.unit.Value(other.StationM))) {
				foot = max(foot, y(d.unit.Value(other.SillM)))
			}
		}
		c.FillText(sty, vg.Point{X: at, Y: foot + labelLift}, s.ID)
	}
}

// labelled returns which dams are labelled: the lowest, then each that is a pitch or more from the last one labelled.
func (p Profile) labelled(unit units.Scale, x func(float64) vg.Length) []int {
	var out []int
	for i, s := range p.Sites {
		if i == 0 || x(unit.Value(s.StationM))-x(unit.Value(p.Sites[out[len(out)-1]].StationM)) >= labelPitch {
			out = append(out, i)
		}
	}
	return out
}

// countLabelled is how many dams are labelled on finished axes.
func countLabelled(p Profile, system units.System, c draw.Canvas, a *plot.Plot) int {
	x, _ := a.Transforms(&c)
	return len(p.labelled(system.LengthScale(), x))
}
