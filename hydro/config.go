package hydro

import (
	"errors"
	"fmt"
	"math"

	"siltstep/hydro/channel"
	"siltstep/hydro/flow"
	"siltstep/hydro/siting"
)

// Config nests the settings of every stage.
type Config struct {
	Flow     flow.Config
	Channels channel.Config
	Siting   siting.Config
}

// Defaults returns the settings used where the user gives none. A channel begins at 0.25 ha
// and heads shorter than 30 m are pruned, both our own choice; the rest are the defaults of
// each stage.
func Defaults() Config {
	return Config{
		Flow:     flow.Defaults(),
		Channels: channel.Config{StartAreaM2: 2_500, MinLengthM: 30},
		Siting:   siting.Defaults(),
	}
}

// Validate returns every fault of the settings, joined; nil where there is none. A value that
// is not a number is a fault.
func (c Config) Validate() error {
	return errors.Join(
		c.Flow.Validate(),
		zeroAndUp("channel start area", c.Channels.StartAreaM2, "m²"),
		zeroAndUp("least channel length", c.Channels.MinLengthM, "m"),
		c.Siting.Validate(),
	)
}

// zeroAndUp reports a value that is below zero, endless or not a number.
func zeroAndUp(what string, got float64, unit string) error {
	if got >= 0 && got <= math.MaxFloat64 {
		return nil
	}
	return fmt.Errorf("%s %g %s; at least 0, and finite", what, got, unit)
}
