package siting

import "fmt"

// bodyM is the length along the channel of the body of a dam of full height in metres: both faces and the crest, 3.2 m
// for loose rock of 0.6 m.
func (c Config) bodyM() float64 { return c.body().LengthM(c.HeightM) }

// steepest returns the greatest slope of an eligible bed, rise over run: SlopeMax, or less where
// dams of every height, placed toe to crest, would stand nearer to each other than a body is long.
func (c Config) steepest() float64 {
	limit, _ := c.touching()
	return min(c.SlopeMax, limit)
}

// touching returns the slope above which dams of every height would touch, and the height that bears the steepest. Their
// spacing is H/(S·(1 − deposit ratio)).
func (c Config) touching() (slope, heightM float64) {
	for _, h := range c.Heights() {
		if s := h / ((1 - c.DepositRatio) * c.body().LengthM(h)); s > slope {
			slope, heightM = s, h
		}
	}
	return slope, heightM
}

// tooSteepReason says why a bed that slopes up to got is not eligible.
func (c Config) tooSteepReason(got float64) Reason {
	limit, heightM := c.touching()
	if limit >= c.SlopeMax {
		return Reason{RuleSlope, got, c.SlopeMax, fmt.Sprintf("The bed is too steep: its slope goes up to %s, and the most is %s", percent(got), percent(c.SlopeMax))}
	}
	return Reason{RuleSlope, got, limit, fmt.Sprintf(
		"The bed is too steep: its slope goes up to %s, and above %s dams of %g m, each %.3g m long, would touch: a rock chute or a lower grade is needed",
		percent(got), percent(limit), heightM, c.body().LengthM(heightM))}
}
