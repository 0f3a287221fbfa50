package siting

import (
	"errors"
	"fmt"
	"math"

	"siltstep/hydro/checkdam"
)

// Config holds the settings of the package.
type Config struct {
	Kind           checkdam.Kind // what the dams are built of; default loose rock
	Body           checkdam.Body // shape along the flow; the zero value is that of the kind
	Objective      Objective     // default LeastRock
	DamCostT       float64       // what each dam costs beside its rock, in tonnes of rock; default 1
	HeightM        float64       // greatest effective height: notch sill above the bed, m; default 0.6; 0.1 to 0.9, more only with Engineer; over 0.6 cautioned
	MinHeightM     float64       // least effective height, m; default 0.3, least 0.1; at HeightM or above it all dams have one height
	SlopeMin       float64       // least eligible bed slope, rise over run, 0 and up; default 0.02
	SlopeMax       float64       // greatest eligible bed slope, rise over run, to 1; default 0.20, less where dams of HeightM would touch; also the steepest grade a body may stand on
	CatchmentMinM2 float64       // least eligible catchment at the dam, m², 0 and up; default 2,500 (0.25 ha)
	CatchmentMaxM2 float64       // greatest eligible catchment at the dam, m²; default 40,000 (4 ha); more is flagged for an engineer
	MinIncisionM   float64       // how far the bed must lie below the land beside it, m, 0 and up; default 0.3; zero turns the rule off
	BedWidthMaxM   float64       // greatest width of the bed, m; default 6
	TopWidthMaxM   float64       // greatest width from bank top to bank top, m; default 15
	ConfluenceM    float64       // least distance along the channel from a confluence to an axis, m; default 5
	BendRadiusM    float64       // least radius of the channel line at an axis, m; default 5
	RoadM          float64       // least distance of an axis from a road, m; default 10
	BuildingM      float64       // likewise from a building, m; default 30
	StreamM        float64       // likewise from a live stream, m; default 10
	Features       Features
	Compare        bool    // tell what every objective would take, in Layout.Others; default false
	DepositRatio   float64 // deposit slope over bed slope, 0 to 0.7; default 0 (level)
	AllowCoarse    bool    // site dams on cells over MaxSiteCellM; default false
	Engineer       bool    // an engineer designs the dams: heights over 0.9 m are let through; default false
}

// Limits that settings cannot move.
const (
	LeastHeightM    = 0.1 // m; a single layer of rock. Source: our own choice, one-rock dams being 0.15 to 0.30 m high
	RefusedHeightM  = 0.9 // m; higher needs an engineer. Source: about 3 ft, the largest height in handbooks of the trade (from memory)
	MaxDepositRatio = 0.7 // deposit slope over bed slope. Source: HeedeMufich1973 (from memory); Leopold1992 and Nichols2016 measured 0.5 to 0.66
	MaxSiteCellM    = 5.0 // m; cells above it can screen drainages, not site dams. Source: our own choice
)

// Defaults returns the settings used where the user gives none. Height is the upper end of
// 0.3 to 0.6 m for loose rock (EPACheckDam: 2 ft, from memory; CVCSwale: 0.6 m); the largest
// catchment is the 10 acres of EPACheckDam, rounded down to 4 ha; the slopes and the least
// catchment are our own choice; 0.3 m is where handbooks begin to call a cut a gully (Wilkinson2015).
func Defaults() Config {
	return Config{
		Kind:           checkdam.LooseRock,
		Objective:      LeastRock,
		DamCostT:       1,
		HeightM:        0.6,
		MinHeightM:     0.3,
		SlopeMin:       0.02,
		SlopeMax:       0.20,
		CatchmentMinM2: 2_500,
		CatchmentMaxM2: 40_000,
		MinIncisionM:   0.3,
		BedWidthMaxM:   6,
		TopWidthMaxM:   15,
		ConfluenceM:    5,
		BendRadiusM:    5,
		RoadM:          10,
		BuildingM:      30,
		StreamM:        10,
	}
}

// Validate returns every fault of the settings, joined; nil where there is none. A value
// that is not a number is a fault.
func (c Config) Validate() error {
	return errors.Join(
		c.validateKind(),
		c.validateHeight(),
		within("least dam height", c.MinHeightM, LeastHeightM, math.MaxFloat64, "m"),
		within("least bed slope", c.SlopeMin, 0, 1, "rise over run"),
		within("greatest bed slope", c.SlopeMax, 0, 1, "rise over run"),
		ordered("bed slope", c.SlopeMin, c.SlopeMax),
		within("least catchment", c.CatchmentMinM2, 0, math.MaxFloat64, "m²"),
		within("greatest catchment", c.CatchmentMaxM2, 0, math.MaxFloat64, "m²"),
		ordered("catchment", c.CatchmentMinM2, c.CatchmentMaxM2),
		within("least incision", c.MinIncisionM, 0, math.MaxFloat64, "m"),
		c.Objective.validate(),
		within("fixed cost of a dam", c.DamCostT, 0, math.MaxFloat64, "t of rock"),
		within("greatest bed width", c.BedWidthMaxM, 0, math.MaxFloat64, "m"),
		within("greatest top width", c.TopWidthMaxM, 0, math.MaxFloat64, "m"),
		within("distance from a confluence", c.ConfluenceM, 0, math.MaxFloat64, "m"),
		within("radius of bends", c.BendRadiusM, 0, math.MaxFloat64, "m"),
		within("distance from roads", c.RoadM, 0, math.MaxFloat64, "m"),
		within("distance from buildings", c.BuildingM, 0, math.MaxFloat64, "m"),
		within("distance from live streams", c.StreamM, 0, math.MaxFloat64, "m"),
		within("deposit ratio", c.DepositRatio, 0, MaxDepositRatio, "of the bed slope"),
	)
}

func (c Config) validateKind() error {
	_, err := checkdam.LimitsOf(c.Kind)
	return err
}

func (c Config) validateHeight() error {
	if c.HeightM > RefusedHeightM && !c.Engineer {
		return fmt.Errorf("dam height %g m is over %g m; lower it, or state that an engineer designs the dams", c.HeightM, RefusedHeightM)
	}
	return within("dam height", c.HeightM, LeastHeightM, math.MaxFloat64, "m")
}

// within reports a value outside lo to hi. Written so that NaN is outside.
func within(what string, got, lo, hi float64, unit string) error {
	if got >= lo && got <= hi {
		return nil
	}
	if hi == math.MaxFloat64 {
		return fmt.Errorf("%s %g %s; at least %g, and finite", what, got, unit, lo)
	}
	return fmt.Errorf("%s %g %s; allowed is %g to %g", what, got, unit, lo, hi)
}

// ordered reports a range whose ends are the wrong way round or equal; NaN is left to within.
func ordered(what string, lo, hi float64) error {
	if lo >= hi {
		return fmt.Errorf("%s: the least, %g, is not below the greatest, %g", what, lo, hi)
	}
	return nil
}
