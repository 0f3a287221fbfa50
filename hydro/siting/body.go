package siting

import "fmt"

// The section of a loose-rock dam along the channel. Source: common practice.
const (
	upFaceRun   = 1.5 // run over rise of the upstream face
	downFaceRun = 3.0 // run over rise of the downstream face
	crestM      = 0.5 // m; thickness at the top
)

// bodyLengthM returns the length along the channel of the body of a dam heightM high, in metres:
// both faces and the crest, 3.2 m at 0.6 m. A height of 0 gives the crest.
func bodyLengthM(heightM float64) float64 {
	return (upFaceRun+downFaceRun)*heightM + crestM
}

// bodyM is the body of a dam of full height in metres. It counts for every dam of a plan, so that
// one lowered at a property line keeps the larger margin.
func (c Config) bodyM() float64 { return bodyLengthM(c.HeightM) }

// steepest returns the greatest slope of an eligible bed, rise over run: SlopeMax, or less where
// dams placed toe to crest would stand nearer to each other than a body is long. Their spacing is
// H/(S·(1 − deposit ratio)).
func (c Config) steepest() float64 {
	return min(c.SlopeMax, c.HeightM/((1-c.DepositRatio)*c.bodyM()))
}

// tooSteepReason says why a bed that slopes up to got is not eligible.
func (c Config) tooSteepReason(got float64) Reason {
	limit := c.steepest()
	if limit >= c.SlopeMax {
		return Reason{RuleSlope, got, limit, fmt.Sprintf("The bed is too steep: its slope goes up to %s, and the most is %s", percent(got), percent(limit))}
	}
	return Reason{RuleSlope, got, limit, fmt.Sprintf(
		"The bed is too steep: its slope goes up to %s, and above %s dams of %g m, each %.3g m long, would touch: a rock chute or a lower grade is needed",
		percent(got), percent(limit), c.HeightM, c.bodyM())}
}
