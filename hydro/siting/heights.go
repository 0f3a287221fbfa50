package siting

import (
	"math"

	"siltstep/hydro/checkdam"
)

// HeightStepM is how far apart the heights are that a dam may have, m. Source: our own choice, half the thickness of a course of rock.
const HeightStepM = 0.05

// Heights returns the effective heights that a dam may have, the lowest first, m: in steps of HeightStepM down from HeightM,
// no lower than MinHeightM, and no higher than the kind allows without an engineer. Where MinHeightM is no lower
// than the highest there is that one alone.
func (c Config) Heights() []float64 {
	const slackM = 1e-9
	high := c.HeightM
	if l, err := checkdam.LimitsOf(c.Kind); err == nil && !c.Engineer {
		high = min(high, l.MostM)
	}
	steps := max(0, int(math.Floor((high-c.MinHeightM)/HeightStepM+slackM)))
	out := make([]float64, steps+1)
	for i := range out {
		out[i] = math.Round(1000*(high-float64(steps-i)*HeightStepM)) / 1000
	}
	return out
}

// body returns the shape of the dams along the flow.
func (c Config) body() checkdam.Body {
	if c.Body != (checkdam.Body{}) {
		return c.Body
	}
	l, err := checkdam.LimitsOf(c.Kind)
	if err != nil {
		panic("siting: " + err.Error())
	}
	return checkdam.Body{CrestWidthM: l.CrestWidthM, FaceUp: l.FaceUp, FaceDown: l.FaceDown}
}
