package storm

import (
	"fmt"
	"math"
	"slices"
	"strings"
)

// Cover is a row of the table of curve numbers: one kind of ground cover in one condition, average
// wetness and Ratio20.
type Cover struct {
	Name        string
	Condition   string     // "poor", "fair", "good", or empty where the cover has no conditions
	CurveNumber [4]float64 // soil groups A, B, C, D; NaN where the table has none
	Evidence    Evidence
	Source      string // key of hydro.Source
}

// covers is in the order of the printed tables. Poor is less than 30 % ground cover, fair 30 to 70,
// good over 70. Source: SCS1986, tables 2-2a, c and d; rows marked secondary were seen in copies,
// the others are from memory.
var covers = []Cover{
	{"herbaceous", "poor", [4]float64{none, 80, 87, 93}, EvidenceRecalled, "SCS1986"}, // grass, weeds, low brush
	{"herbaceous", "fair", [4]float64{none, 71, 81, 89}, EvidenceRecalled, "SCS1986"},
	{"herbaceous", "good", [4]float64{none, 62, 74, 85}, EvidenceRecalled, "SCS1986"},
	{"oak-aspen", "poor", [4]float64{none, 66, 74, 79}, EvidenceRecalled, "SCS1986"}, // mountain brush
	{"oak-aspen", "fair", [4]float64{none, 48, 57, 63}, EvidenceRecalled, "SCS1986"},
	{"oak-aspen", "good", [4]float64{none, 30, 41, 48}, EvidenceRecalled, "SCS1986"},
	{"pinyon-juniper", "poor", [4]float64{none, 75, 85, 89}, EvidenceRecalled, "SCS1986"},
	{"pinyon-juniper", "fair", [4]float64{none, 58, 73, 80}, EvidenceRecalled, "SCS1986"},
	{"pinyon-juniper", "good", [4]float64{none, 41, 61, 71}, EvidenceRecalled, "SCS1986"},
	{"sagebrush", "poor", [4]float64{none, 67, 80, 85}, EvidenceRecalled, "SCS1986"}, // with grass understory
	{"sagebrush", "fair", [4]float64{none, 51, 63, 70}, EvidenceRecalled, "SCS1986"},
	{"sagebrush", "good", [4]float64{none, 35, 47, 55}, EvidenceRecalled, "SCS1986"},
	{"desert-shrub", "poor", [4]float64{63, 77, 85, 88}, EvidenceRecalled, "SCS1986"},
	{"desert-shrub", "fair", [4]float64{55, 72, 81, 86}, EvidenceRecalled, "SCS1986"},
	{"desert-shrub", "good", [4]float64{49, 68, 79, 84}, EvidenceRecalled, "SCS1986"},
	{"pasture", "poor", [4]float64{68, 79, 86, 89}, EvidenceSecondary, "SCS1986"}, // pasture, grassland, range
	{"pasture", "fair", [4]float64{49, 69, 79, 84}, EvidenceRecalled, "SCS1986"},
	{"pasture", "good", [4]float64{39, 61, 74, 80}, EvidenceSecondary, "SCS1986"},
	{"brush", "poor", [4]float64{48, 67, 77, 83}, EvidenceRecalled, "SCS1986"},
	{"brush", "fair", [4]float64{35, 56, 70, 77}, EvidenceRecalled, "SCS1986"},
	{"brush", "good", [4]float64{30, 48, 65, 73}, EvidenceRecalled, "SCS1986"},
	{"woods-grass", "poor", [4]float64{57, 73, 82, 86}, EvidenceRecalled, "SCS1986"},
	{"woods-grass", "fair", [4]float64{43, 65, 76, 82}, EvidenceRecalled, "SCS1986"},
	{"woods-grass", "good", [4]float64{32, 58, 72, 79}, EvidenceRecalled, "SCS1986"},
	{"woods", "poor", [4]float64{45, 66, 77, 83}, EvidenceSecondary, "SCS1986"},
	{"woods", "good", [4]float64{30, 55, 70, 77}, EvidenceSecondary, "SCS1986"}, // A: an older table has 25
	{"meadow", "", [4]float64{30, 58, 71, 78}, EvidenceSecondary, "SCS1986"},
	{"dirt-road", "", [4]float64{72, 82, 87, 89}, EvidenceSecondary, "SCS1986"},
	{"gravel-road", "", [4]float64{76, 85, 89, 91}, EvidenceSecondary, "SCS1986"},
	{"bare", "", [4]float64{77, 86, 91, 94}, EvidenceSecondary, "SCS1986"}, // newly graded, or burned to the soil
}

var none = math.NaN()

// Covers returns the table of curve numbers.
func Covers() []Cover { return slices.Clone(covers) }

// CurveNumberOf returns the curve number of a cover in a condition on a soil group, A to D, for
// average wetness. The note says where it comes from. A cover, condition or group that the table
// lacks is an error that lists what there is; nothing is put in its place.
func CurveNumberOf(cover, condition string, soilGroup rune) (float64, Note, error) {
	var names, conditions []string
	for _, row := range covers {
		if !slices.Contains(names, row.Name) {
			names = append(names, row.Name)
		}
		if row.Name != cover {
			continue
		}
		conditions = append(conditions, row.Condition)
		if row.Condition == "" || row.Condition == condition {
			return row.number(soilGroup)
		}
	}
	if len(conditions) > 0 {
		return math.NaN(), Note{}, fmt.Errorf("condition %q of %s is not in the table; give one of %s", condition, cover, strings.Join(conditions, ", "))
	}
	return math.NaN(), Note{}, fmt.Errorf("cover %q is not in the table; give one of %s", cover, strings.Join(names, ", "))
}

func (c Cover) number(soilGroup rune) (float64, Note, error) {
	if soilGroup < 'A' || soilGroup > 'D' {
		return math.NaN(), Note{}, fmt.Errorf("soil group %q is not known; give A, B, C or D", soilGroup)
	}
	cn := c.CurveNumber[soilGroup-'A']
	if math.IsNaN(cn) {
		return cn, Note{}, fmt.Errorf("the table has no curve number of %s on soil group %c; give the curve number itself", c.Name, soilGroup)
	}
	text := fmt.Sprintf("Curve number %g: %s", cn, c.Name)
	if c.Condition != "" {
		text += ", " + c.Condition
	}
	text += fmt.Sprintf(", soil group %c", soilGroup)
	if c.Evidence == EvidenceRecalled {
		text += "; " + recalledText
	}
	return cn, Note{Rule: RuleCurveNumber, Got: cn, Limit: math.NaN(), Text: text + ".", Source: c.Source, Recalled: c.Evidence == EvidenceRecalled}, nil
}
