package hydro

import (
	"errors"
	"fmt"
	"math"

	"siltstep/hydro/channel"
	"siltstep/hydro/erosion"
	"siltstep/hydro/flow"
	"siltstep/hydro/siting"
)

// Config nests the settings of every stage.
type Config struct {
	Flow     flow.Config
	Channels channel.Config
	Sections channel.SectionConfig
	Erosion  erosion.Config
	Siting   siting.Config
	Storm    Storm
	Works    Works
	Budget   Budget // what may be spent; the zero value sets no limit
	Edits    Edits  // what came back from the field; the zero value asks nothing
	Gully    GullyConfig
	Effect   EffectConfig
}

// How far a cross-section may go to either side of the line, m. Source: our own choice; wider ones leave the
// valley and meet the next drainage.
const (
	LeastSectionReachM = 1
	MostSectionReachM  = 200
)

// Defaults returns the settings used where the user gives none. A channel begins at 0.25 ha
// and heads shorter than 30 m are pruned; sections lie 5 m apart and reach 20 m to either side: all
// our own choice. No storm and no price is given; works are those usual for the kind of dam. The rest are the
// defaults of each stage.
func Defaults() Config {
	return Config{
		Flow:     flow.Defaults(),
		Channels: channel.Config{StartAreaM2: 2_500, MinLengthM: 30},
		Sections: channel.SectionConfig{SpacingM: 5, ReachM: 20},
		Erosion:  erosion.Defaults(),
		Siting:   siting.Defaults(),
		Works:    Works{FaceUp: math.NaN(), FaceDown: math.NaN()},
		Gully:    usualGully(),
		Effect:   usualEffect(),
	}
}

// Validate returns every fault of the settings, joined; nil where there is none. A value that
// is not a number is a fault.
func (c Config) Validate() error {
	return errors.Join(
		c.Flow.Validate(),
		zeroAndUp("channel start area", c.Channels.StartAreaM2, "m²"),
		zeroAndUp("least channel length", c.Channels.MinLengthM, "m"),
		zeroAndUp("spacing of sections", c.Sections.SpacingM, "m"),
		sectionReach(c.Sections.ReachM),
		c.Erosion.Validate(),
		c.Siting.Validate(),
		c.Storm.validate(),
		c.Works.validate(),
		c.Budget.validate(),
		c.Works.Prices.validateHaul(),
		c.Gully.validate(),
		c.Effect.validate(),
	)
}

// sectionReach reports a reach outside its limits.
func sectionReach(gotM float64) error {
	if gotM >= LeastSectionReachM && gotM <= MostSectionReachM {
		return nil
	}
	return fmt.Errorf("reach of sections %g m; allowed is %d to %d m", gotM, LeastSectionReachM, MostSectionReachM)
}

// zeroAndUp reports a value that is below zero, endless or not a number.
func zeroAndUp(what string, got float64, unit string) error {
	if got >= 0 && got <= math.MaxFloat64 {
		return nil
	}
	return fmt.Errorf("%s %g %s; at least 0, and finite", what, got, unit)
}
