package settings

import (
	"math"

	"siltstep/hydro/checkdam"
)

// Limits of a dam's body and notch: those of checkdam, and of faces of loose rock, which lies no steeper than about 1.25:1. Source: our own
// choice.
const (
	leastFace   = 1.0
	mostFace    = 10
	leastCrestM = 0.2
	mostCrestM  = 5
	leastNotchM = 0.2
	mostNotchM  = 20
	leastSide   = 0.1
	mostSide    = 5
	mostFreeM   = 1
)

// bodyKeys are the shape of a dam.
var bodyKeys = []Key{
	key("dams.crest_width", asUsual, "thickness of the crest along the flow; usual is 0.5 m (one-rock 0.6 m, log 0.3 m), or two stones where they are thicker",
		ownChoice,
		optional{quantity: quantity{measure: length, least: leastCrestM, most: mostCrestM, at: func(c *Settings) *float64 { return &c.Works.CrestWidthM }}, open: asUsual}),
	key("dams.face_up", asUsual, "upstream face, horizontal : vertical; usual is 1.5:1, of brush 1:1, of logs and gabions upright",
		ownChoice,
		optional{quantity: quantity{measure: sideSlope, least: leastFace, most: mostFace, at: func(c *Settings) *float64 { return &c.Works.FaceUp }}, open: asUsual, blank: math.NaN()}),
	key("dams.face_down", asUsual, "downstream face, horizontal : vertical; usual is 3:1, of brush 1:1, of logs and gabions upright; of rock a steeper one needs larger stone, "+
		"and may leave the range that the stone method was tested in",
		"the range that Robinson, Rice and Kadavy 1998 tested (2.5:1 and flatter); 3:1 within it, and other kinds, are our own choice",
		optional{quantity: quantity{measure: sideSlope, least: leastFace, most: mostFace, at: func(c *Settings) *float64 { return &c.Works.FaceDown }}, open: asUsual, blank: math.NaN()}),
	key("dams.notch_shape", asUsual, "form of the notch, seen along the flow; usual is trapezoidal, of logs and brush rectangular",
		"Geyik 1986, caption of figure 9",
		choose(asUsual, []checkdam.Shape{checkdam.Trapezoidal, checkdam.Rectangular, checkdam.Parabolic}, func(c *Settings) *checkdam.Shape { return &c.Works.Notch.Shape }, nil)),
	key("dams.notch_width", asUsual, "width of the notch at its sill; usual is that of the bed, narrower where the banks ask for it",
		ownChoice,
		optional{quantity: quantity{measure: length, least: leastNotchM, most: mostNotchM, at: func(c *Settings) *float64 { return &c.Works.Notch.WidthM }}, open: asUsual}),
	key("dams.notch_side", asUsual, "sides of a trapezoidal notch, horizontal : vertical; usual is 1:1",
		ownChoice,
		optional{quantity: quantity{measure: sideSlope, least: leastSide, most: mostSide, at: func(c *Settings) *float64 { return &c.Works.Notch.SideSlope }}, open: asUsual, also: notchSideFault}),
	key("dams.freeboard", "0.1 m", "least height of the wings above the water of the design storm",
		ownChoice,
		quantity{measure: length, least: 0.05, most: mostFreeM, at: func(c *Settings) *float64 { return &c.Works.Notch.FreeboardM }}),
}

// notchSideFault tells where a notch has no sides to slope.
func notchSideFault(c Settings) string {
	shape := c.Works.Notch.Shape
	if limits, err := checkdam.LimitsOf(c.Siting.Kind); err == nil && shape == "" {
		shape = limits.Shapes[0]
	}
	if shape != "" && shape != checkdam.Trapezoidal {
		return "a " + string(shape) + " notch has none; leave it out"
	}
	return ""
}
