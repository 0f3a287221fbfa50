package checkdam

import (
	"fmt"
	"math"
)

// SpacingRule says how far apart dams stand.
type SpacingRule string

// The rules of spacing.
const (
	ToeToCrest SpacingRule = "toe-to-crest" // the bed at the next dam is level with the sill of this one, or with the deposit behind it
	Heede      SpacingRule = "heede"        // the two branches of HeedeMufich1973
)

// MaxDepositRatio is the greatest slope of a deposit as a share of the slope of the bed. Source: HeedeMufich1973, from memory;
// Leopold1992 and Nichols2016 measured 0.5 to 0.66.
const MaxDepositRatio = 0.7

// heedeBranch is the bed slope at which the published rule changes its factor. Source: HeedeMufich1973, from memory.
const heedeBranch = 0.20

// Spacing is how far apart dams stand.
type Spacing struct {
	Rule         SpacingRule
	Branch       string  // of a rule with branches: which one holds
	HorizontalM  float64 // axis to axis, on the level
	AlongSlopeM  float64 // the same along the bed
	DepositRatio float64 // of the bed slope, that the rule rests on
}

// SpacingOf returns the distance of dams of one effective height on a bed of one slope. Toe to crest: heightM over slope
// (1 − depositRatio). Heede: S = H/(K·G·cos α) along the slope, G = tan α, K 0.3 to G = 0.20 and 0.5 above; depositRatio is not
// used. It jumps at the branch. Errors: values out of range.
func SpacingOf(rule SpacingRule, heightM, slope, depositRatio float64) (Spacing, error) {
	if !(heightM > 0 && heightM <= mostM) {
		return Spacing{}, fmt.Errorf("dam height %g m; it must be above 0", heightM)
	}
	if !(slope > 0 && slope <= 1) {
		return Spacing{}, fmt.Errorf("bed slope %g; it must be above 0 and at most 1 (100 %%): on level ground dams have no end of spacing", slope)
	}
	s := Spacing{Rule: rule}
	switch rule {
	case ToeToCrest:
		if !(depositRatio >= 0 && depositRatio <= MaxDepositRatio) {
			return Spacing{}, fmt.Errorf("deposit ratio %g; allowed is 0 to %g", depositRatio, MaxDepositRatio)
		}
		s.DepositRatio = depositRatio
	case Heede:
		k := 0.3
		s.Branch = "bed slope to 20 %: deposit at 0.7 of it"
		if slope > heedeBranch {
			k = 0.5
			s.Branch = "bed slope above 20 %: deposit at 0.5 of it"
		}
		s.DepositRatio = 1 - k
	default:
		return Spacing{}, fmt.Errorf("spacing rule %q is not known; take %s or %s", rule, ToeToCrest, Heede)
	}
	s.HorizontalM = heightM / (slope * (1 - s.DepositRatio))
	s.AlongSlopeM = s.HorizontalM * math.Sqrt(1+slope*slope)
	return s, nil
}

// Count returns how many dams treat a reach, rounded up so that no piece of it is left out.
func (s Spacing) Count(lengthM float64) int {
	const slack = 1e-9 // relative; so that 120 m at 10 m is 12 and not 13 by rounding
	return int(math.Ceil(lengthM/s.HorizontalM*(1-slack) - slack))
}
