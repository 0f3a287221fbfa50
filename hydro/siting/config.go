package siting

import (
	"errors"
	"fmt"
	"math"
)

// Kind is what a dam is built of.
type Kind string

// LooseRock is the only kind laid out so far.
const LooseRock Kind = "loose-rock"

// Config holds the settings of the package.
type Config struct {
	Kind           Kind    // what the dams are built of; default and only choice LooseRock
	HeightM        float64 // effective height: notch sill above the bed, m; default 0.6; 0.1 to 0.9, more only with Engineer; over 0.6 cautioned
	MinHeightM     float64 // a dam may be lowered to this at a property line, m; default 0.3, least 0.1; at HeightM or above it no dam is lowered
	SlopeMin       float64 // least eligible bed slope, rise over run, 0 and up; default 0.02
	SlopeMax       float64 // greatest eligible bed slope, rise over run, to 1; default 0.20, less where dams of HeightM would touch; also the steepest grade a body may stand on
	CatchmentMinM2 float64 // least eligible catchment at the dam, m², 0 and up; default 2,500 (0.25 ha)
	CatchmentMaxM2 float64 // greatest eligible catchment at the dam, m²; default 40,000 (4 ha); more is flagged for an engineer
	MinIncisionM   float64 // how far the bed must lie below the land beside it, m, 0 and up; default 0.3; zero turns the rule off
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
		Kind:           LooseRock,
		HeightM:        0.6,
		MinHeightM:     0.3,
		SlopeMin:       0.02,
		SlopeMax:       0.20,
		CatchmentMinM2: 2_500,
		CatchmentMaxM2: 40_000,
		MinIncisionM:   0.3,
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
		within("deposit ratio", c.DepositRatio, 0, MaxDepositRatio, "of the bed slope"),
	)
}

func (c Config) validateKind() error {
	if c.Kind != LooseRock {
		return fmt.Errorf("dam kind %q is not known; the only one laid out so far is %q", c.Kind, LooseRock)
	}
	return nil
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
