package checkdam

import (
	"math"
	"testing"
)

// near reports whether two values differ by at most a tolerance in the same unit.
func near(got, want, tolerance float64) bool { return math.Abs(got-want) <= tolerance }

// Spacing along the slope by the two branches of Heede and Mufich 1973; the rule from memory, the values our own sums:
// 0.6/(0.3·0.06·cos(atan 0.06)) = 33.39.
func TestSpacingHeede(t *testing.T) {
	slopes := []float64{.02, .05, .06, .08, .10, .15, .20, .21, .25, .30}
	for heightM, want := range map[float64][]float64{
		0.30: {50.01, 20.02, 16.70, 12.54, 10.05, 6.74, 5.10, 2.92, 2.47, 2.09},
		0.60: {100.02, 40.05, 33.39, 25.08, 20.10, 13.48, 10.20, 5.84, 4.95, 4.18},
		1.00: {166.70, 66.75, 55.66, 41.80, 33.50, 22.47, 17.00, 9.73, 8.25, 6.96},
	} {
		for i, slope := range slopes {
			s, err := SpacingOf(Heede, heightM, slope, 0)
			if err != nil || !near(s.AlongSlopeM, want[i], 0.005) { // printed to 0.01 m
				t.Errorf("%g m at %g: %.3f m along the slope, error %v; want %.2f", heightM, slope, s.AlongSlopeM, err, want[i])
			}
			if (slope > 0.2) != (s.DepositRatio == 0.5) {
				t.Errorf("slope %g: deposit ratio %g, branch %q", slope, s.DepositRatio, s.Branch)
			}
		}
	}
}

// Dams of 2 ft: spacing in feet by bed slope in percent, from an erosion manual of the State of Indiana, read in a copy; the
// last is height over slope all the same. 2 ft at 4 % is 50 ft in a New York standard too, from memory.
func TestSpacingToeToCrestTable(t *testing.T) {
	const ft = 0.3048
	for percent, wantFt := range map[float64]float64{0.5: 400, 1: 200, 2: 100, 4: 50, 5: 40, 8: 25} {
		s, err := SpacingOf(ToeToCrest, 2*ft, percent/100, 0)
		if err != nil || !near(s.HorizontalM/ft, wantFt, 1e-9) {
			t.Errorf("%g %%: %g ft, error %v; want %g", percent, s.HorizontalM/ft, err, wantFt)
		}
	}
}

// 0.6 m at 6 % by deposit ratio: height over slope times one less the ratio.
func TestSpacingByDeposit(t *testing.T) {
	for ratio, want := range map[float64]float64{0: 10.0, 0.5: 20.0, 0.64: 27.8, 0.7: 33.3} {
		s, err := SpacingOf(ToeToCrest, 0.6, 0.06, ratio)
		if err != nil || !near(s.HorizontalM, want, 0.05) { // printed to 0.1 m
			t.Errorf("ratio %g: %.2f m, error %v; want %.1f", ratio, s.HorizontalM, err, want)
		}
	}
}

func TestSpacingCountsUp(t *testing.T) {
	s, _ := SpacingOf(ToeToCrest, 0.6, 0.06, 0)
	for lengthM, want := range map[float64]int{5: 1, 10: 1, 10.1: 2, 120: 12, 121: 13} {
		if got := s.Count(lengthM); got != want {
			t.Errorf("%g m: %d dams, want %d", lengthM, got, want)
		}
	}
}

func TestSpacingRefuses(t *testing.T) {
	for name, r := range map[string]struct {
		rule                 SpacingRule
		height, slope, ratio float64
	}{
		"level bed":           {ToeToCrest, .6, 0, 0},
		"falling upstream":    {ToeToCrest, .6, -.1, 0},
		"slope not a number":  {ToeToCrest, .6, math.NaN(), 0},
		"deposit as the bed":  {ToeToCrest, .6, .06, 1},
		"deposit over 0.7":    {ToeToCrest, .6, .06, .71},
		"no height":           {Heede, 0, .06, 0},
		"rule of another age": {"guess", .6, .06, 0},
	} {
		if s, err := SpacingOf(r.rule, r.height, r.slope, r.ratio); err == nil {
			t.Errorf("%s: %+v", name, s)
		}
	}
}
