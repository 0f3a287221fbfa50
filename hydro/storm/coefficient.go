package storm

import (
	"fmt"
	"math"
	"slices"
	"strings"
)

// FactorRange is a plausible range of a runoff coefficient or of a part of one.
type FactorRange struct {
	Low, High float64
}

// Levels of a part of the rural runoff coefficient, from most to least runoff.
var levels = []string{"extreme", "high", "normal", "low"}

// ruralParts are the parts by level. Source: AASHTODrainage (additive table for rural land), from memory.
var ruralParts = map[string][4]FactorRange{
	"relief":       {{.28, .35}, {.20, .28}, {.14, .20}, {.08, .14}}, // over 30 %; 10 to 30; 5 to 10; 0 to 5
	"infiltration": {{.12, .16}, {.08, .12}, {.06, .08}, {.04, .06}}, // rock; clay, shallow loam; normal loam; deep sand
	"cover":        {{.12, .16}, {.08, .12}, {.06, .08}, {.04, .06}}, // bare; under 20 %; about 50 %; about 90 %
	"storage":      {{.10, .12}, {.08, .10}, {.06, .08}, {.04, .06}}, // negligible; small drainageways; normal; much
}

// RuralCoefficient returns the range of the runoff coefficient of rural land as the sum of four
// parts, each "extreme", "high", "normal" or "low": relief, infiltration (lack of), vegetal cover (lack
// of), surface storage (lack of). All values are from memory. Source: AASHTODrainage.
func RuralCoefficient(relief, infiltration, cover, storage string) (FactorRange, Note, error) {
	var sum FactorRange
	for _, part := range [][2]string{{"relief", relief}, {"infiltration", infiltration}, {"cover", cover}, {"storage", storage}} {
		i := slices.Index(levels, part[1])
		if i < 0 {
			return FactorRange{math.NaN(), math.NaN()}, Note{}, fmt.Errorf("%s %q; give one of %s", part[0], part[1], strings.Join(levels, ", "))
		}
		sum.Low += ruralParts[part[0]][i].Low
		sum.High += ruralParts[part[0]][i].High
	}
	return sum, coefficientNote(sum), nil
}

// pastureCoefficients are by slope (to 5, 10, 30 %) and soil. Source: AASHTODrainage, from memory.
var pastureCoefficients = map[string][3]float64{"sandy": {.10, .16, .22}, "loam": {.30, .36, .42}, "clay": {.40, .55, .60}}

// PastureCoefficient returns the runoff coefficient of pasture and range on "sandy", "loam" or "clay"
// soil by slope, rise over run from 0 to 0.30. The values are from memory. Source: AASHTODrainage.
func PastureCoefficient(soil string, slope float64) (float64, Note, error) {
	row, ok := pastureCoefficients[soil]
	if !ok {
		return math.NaN(), Note{}, fmt.Errorf("soil %q; give sandy, loam or clay", soil)
	}
	if err := within("slope of pasture", slope, 0, 0.30, "rise over run"); err != nil {
		return math.NaN(), Note{}, err
	}
	i := 0
	if slope > 0.05 {
		i = 1
	}
	if slope > 0.10 {
		i = 2
	}
	return row[i], coefficientNote(FactorRange{row[i], row[i]}), nil
}

func coefficientNote(r FactorRange) Note {
	return Note{Rule: RuleHandbook, Got: r.High, Limit: math.NaN(), Source: "AASHTODrainage", Recalled: true,
		Text: fmt.Sprintf("Runoff coefficient %.2f to %.2f: %s.", r.Low, r.High, recalledText)}
}

// frequency holds return periods and the factors of the runoff coefficient that go with them.
// Source: AASHTODrainage and many state manuals, from memory.
var frequency = [][2]float64{{10, 1}, {25, 1.1}, {50, 1.2}, {100, 1.25}}

// FrequencyFactor returns what the runoff coefficient is multiplied by for a return period: 1 to 10
// years, rising in straight lines to 1.25 at 100 and beyond. A return period of 0 (not known) gives 1.
func FrequencyFactor(returnPeriodYr float64) float64 {
	if !(returnPeriodYr > frequency[0][0]) {
		return 1
	}
	for i := 1; i < len(frequency); i++ {
		if a, b := frequency[i-1], frequency[i]; returnPeriodYr <= b[0] {
			return a[1] + (b[1]-a[1])*(returnPeriodYr-a[0])/(b[0]-a[0])
		}
	}
	return frequency[len(frequency)-1][1]
}
