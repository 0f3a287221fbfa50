package checkdam

import (
	"errors"
	"fmt"
	"math"
)

// Request is a dam to be sized. Zero values leave a choice open where the field says so.
type Request struct {
	Kind    Kind
	HeightM float64 // effective height: notch sill above the bed
	Slope   float64 // of the bed, rise over run
	Section Section

	CrestWidthM float64 // along the flow; zero: usual for the kind, or two stones where they are thicker
	FaceUp      float64 // horizontal run a metre of height; NaN: usual for the kind
	FaceDown    float64 // the same

	PeakM3s      float64 // storm peak at the dam; NaN: not known, and notch and stone stay empty
	VelocityMs   float64 // for the velocity method; zero: found
	Notch        NotchRequest
	StoneGravity float64 // weight of stone over that of water; zero: StoneGravity
	Voids        float64 // share of placed rock; zero: DefaultVoids
	Waste        float64 // share of rock to order beyond that in place; zero: DefaultWaste

	Rule         SpacingRule // empty: toe to crest
	DepositRatio float64     // deposit slope over bed slope, 0 to 0.7
	ReachM       float64     // length of channel to treat; zero: not given

	CatchmentM2 float64 // at the dam; zero: not given
	Yield       Yield   // zero: not given
	Engineer    bool    // an engineer designs the dam: heights over the limits are let through
}

// Placed rock. Source: our own choice within a trade figure of 30 to 40 % voids and 30 % waste.
const (
	DefaultVoids = 0.35
	DefaultWaste = 0.15
	waterTPerM3  = 1.0
)

// withDefaults fills in what was left open.
func (r Request) withDefaults(l Limits) Request {
	usual := func(v *float64, unset bool, def float64) {
		if unset {
			*v = def
		}
	}
	usual(&r.CrestWidthM, r.CrestWidthM == 0, l.CrestWidthM)
	usual(&r.FaceUp, math.IsNaN(r.FaceUp), l.FaceUp)
	usual(&r.FaceDown, math.IsNaN(r.FaceDown), l.FaceDown)
	usual(&r.StoneGravity, r.StoneGravity == 0, StoneGravity)
	usual(&r.Voids, r.Voids == 0, DefaultVoids)
	usual(&r.Waste, r.Waste == 0, DefaultWaste)
	if r.Rule == "" {
		r.Rule = ToeToCrest
	}
	return r
}

// validate returns every fault of a request whose defaults are filled in, joined.
func (r Request) validate() error {
	if len(r.Section.points) == 0 {
		return errors.New("no cross-section: give bed width, side slope and bank height, or measured points")
	}
	errs := []error{r.Yield.validate()}
	for _, v := range []struct {
		what     string
		got      float64
		lo, hi   float64
		unit     string
		optional bool // NaN is allowed
	}{
		{"dam height", r.HeightM, 0.05, 10, "m", false},
		{"bed slope", r.Slope, 0.001, 1, "rise over run", false},
		{"crest width", r.CrestWidthM, 0.1, 10, "m", false},
		{"upstream face", r.FaceUp, 0, 10, "m a metre of height", false},
		{"downstream face", r.FaceDown, 0, 10, "m a metre of height", false},
		{"storm peak", r.PeakM3s, 1e-6, 1000, "m³/s", true},
		{"velocity", r.VelocityMs, 0, 20, "m/s", false},
		{"notch width", r.Notch.WidthM, 0, 100, "m", false},
		{"notch side slope", r.Notch.SideSlope, 0, 10, "m a metre of height", false},
		{"freeboard", r.Notch.FreeboardM, 0, 5, "m", false},
		{"weight of stone", r.StoneGravity, 1.5, 4, "times that of water", false},
		{"voids", r.Voids, 0.05, 0.7, "of the volume", false},
		{"waste", r.Waste, 0, 1, "of the rock in place", false},
		{"reach", r.ReachM, 0, 100_000, "m", false},
		{"catchment", r.CatchmentM2, 0, 1e12, "m²", false},
	} {
		if v.optional && math.IsNaN(v.got) {
			continue
		}
		if !(v.got >= v.lo && v.got <= v.hi) {
			errs = append(errs, fmt.Errorf("%s %g %s; allowed is %g to %g", v.what, v.got, v.unit, v.lo, v.hi))
		}
	}
	return errors.Join(errs...)
}
