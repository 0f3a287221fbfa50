package erosion

import (
	"errors"
	"fmt"
	"math"
	"slices"
	"strings"
)

// Config holds the settings of the package.
type Config struct {
	WindowM   float64 // side of the square of the black top-hat, m; default 15; at least 1.5 times the widest gully
	HeadcutM  float64 // least height of a headcut, m; default 0.3
	IncisedM  float64 // depth from which a length counts as incised, m; default 0.3
	Material  string  // bed material, one of Materials; empty where none is chosen: shear is then not judged
	Roughness float64 // Manning's n of the channel, 0.01 to 0.3; default 0.04

	Incision      Scale // mean incision, m
	Headcuts      Scale // height of headcuts, m per 100 m of channel
	Shear         Scale // bed shear over what the bed material bears
	BankSlope     Scale // mean slope of the banks, rise over run
	IncisedLength Scale // share of the length that is incised
}

// Scale turns one piece of evidence into points and says how much they count.
type Scale struct {
	Zero, Full float64 // values that give 0 and 100 points; straight between, and level beyond
	Weight     float64 // share in the severity, 0 and up; zero leaves the part out
}

// Limits that settings cannot move.
const (
	LeastWindowM   = 3.0   // m; a smaller window spans no gully. Source: our own choice
	MostWindowM    = 500.0 // m; a larger one measures valleys. Source: our own choice
	LeastDepthM    = 0.05  // m, of a headcut or an incised bed; lower is the noise of any survey. Source: our own choice
	MostDepthM     = 50.0  // m, likewise; deeper is a canyon. Source: our own choice
	LeastRoughness = 0.01  // Manning's n; smoother than any earth channel. Source: our own choice
	MostRoughness  = 0.3   // Manning's n; at bankfull flow steep streams reach it (Yochum2014)
)

// Defaults returns the settings used where the user gives none. Limits and weights of the severity
// are this project's judgement: no published weighting was found. 0.3 m is where handbooks begin to
// call a cut a gully (Wilkinson2015).
func Defaults() Config {
	return Config{
		WindowM:       15,
		HeadcutM:      0.3,
		IncisedM:      0.3,
		Roughness:     0.04,
		Incision:      Scale{Zero: 0.3, Full: 2, Weight: 30},
		Headcuts:      Scale{Zero: 0, Full: 1, Weight: 25},
		Shear:         Scale{Zero: 1, Full: 4, Weight: 20},
		BankSlope:     Scale{Zero: 0.5, Full: 2, Weight: 15},
		IncisedLength: Scale{Zero: 0, Full: 1, Weight: 10},
	}
}

// Validate returns every fault of the settings, joined; nil where there is none. A value that is
// not a number is a fault.
func (c Config) Validate() error {
	faults := []error{
		within("window of the top-hat", c.WindowM, LeastWindowM, MostWindowM, " m"),
		within("least headcut", c.HeadcutM, LeastDepthM, MostDepthM, " m"),
		within("incised depth", c.IncisedM, LeastDepthM, MostDepthM, " m"),
		within("roughness", c.Roughness, LeastRoughness, MostRoughness, ""),
		c.validateMaterial(),
	}
	sum := 0.0
	for _, p := range c.scales() {
		faults = append(faults, p.scale.validate(p.name))
		sum += p.scale.Weight
	}
	if sum == 0 {
		faults = append(faults, errors.New("severity: all weights are zero; at least one is above"))
	}
	return errors.Join(faults...)
}

// validateMaterial reports a bed material that is not in the list.
func (c Config) validateMaterial() error {
	var names []string
	for _, m := range Materials() {
		names = append(names, m.Name)
	}
	if c.Material == "" || slices.Contains(names, c.Material) {
		return nil
	}
	return fmt.Errorf("bed material %q is not known; there are %s", c.Material, strings.Join(names, ", "))
}

// validate reports a scale that does not rise, or a weight that cannot be.
func (s Scale) validate(name string) error {
	switch {
	case !(s.Zero >= 0 && s.Full <= math.MaxFloat64):
		return fmt.Errorf("severity: limits of %s, %g and %g; at least 0, and finite", name, s.Zero, s.Full)
	case !(s.Zero < s.Full):
		return fmt.Errorf("severity: limits of %s: %g, which gives 0, is not below %g, which gives 100", name, s.Zero, s.Full)
	case !(s.Weight >= 0 && s.Weight <= math.MaxFloat64):
		return fmt.Errorf("severity: weight of %s, %g; at least 0, and finite", name, s.Weight)
	}
	return nil
}

// within reports a value outside lo to hi. Written so that NaN is outside.
func within(what string, got, lo, hi float64, unit string) error {
	if got >= lo && got <= hi {
		return nil
	}
	return fmt.Errorf("%s %g%s; allowed is %g to %g%s", what, got, unit, lo, hi, unit)
}

// points returns the score of a value, 0 to 100; NaN for NaN.
func (s Scale) points(value float64) float64 {
	return min(100, max(0, 100*(value-s.Zero)/(s.Full-s.Zero)))
}
