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
	every := d.every(d.unit, x)
	for i := 0; i < len(d.Sites); i += every {
		s := d.Sites[i]
		at := x(d.unit.Value(s.StationM))
		foot := y(d.unit.Value(s.SillM))
		for _, st := range d.Stations { // what the label would cover
			if px := x(d.unit.Value(st.StationM)); px > at-labelPitch/2 && px < at+labelPitch/2 {
				foot = max(foot, y(d.unit.Value(st.GroundM)), y(d.unit.Value(st.BedM)))
			}
		}
		c.FillText(sty, vg.Point{X: at, Y: foot + labelLift}, s.ID)
	}
}

// every returns the least n for which the labels of every n-th dam, from the lowest on,
// keep their distance.
func (p Profile) every(unit units.Scale, x func(float64) vg.Length) int {
	for n := 1; n < len(p.Sites); n++ {
		free := true
		for i := n; i < len(p.Sites) && free; i += n {
			free = x(unit.Value(p.Sites[i].StationM))-x(unit.Value(p.Sites[i-n].StationM)) >= labelPitch
		}
		if free {
			return n
		}
	}
	return max(len(p.Sites), 1)
}

// everyLabel is every on finished axes.
func everyLabel(p Profile, system units.System, c draw.Canvas, a *plot.Plot) int {
	x, _ := a.Transforms(&c)
	return p.every(system.LengthScale(), x)
}
