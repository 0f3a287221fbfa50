package storm

import (
	"fmt"
	"math"
	"slices"
	"strings"
)

// Surface is ground under shallow concentrated flow: velocity is VelocityMS times √slope.
type Surface struct {
	Name       string
	VelocityMS float64 // m/s on a slope of 1
	Evidence   Evidence
	Source     string // key of hydro.Source
}

// surfaces holds k of V = k√s in ft/s, converted. Source: NRCSNEH630, chapter 15, table 15-3; the
// first two also SCS1986, appendix F.
var surfaces = []Surface{
	{"unpaved", 16.1345 * footM, EvidenceSecondary, "SCS1986"},
	{"paved", 20.3282 * footM, EvidenceSecondary, "SCS1986"},
	{"bare", 9.965 * footM, EvidenceRecalled, "NRCSNEH630"}, // nearly bare ground, alluvial fans
	{"straight-row", 8.762 * footM, EvidenceRecalled, "NRCSNEH630"},
	{"short-grass", 6.962 * footM, EvidenceRecalled, "NRCSNEH630"}, // pasture
	{"woodland", 5.032 * footM, EvidenceRecalled, "NRCSNEH630"},    // and minimum tillage
	{"litter", 2.516 * footM, EvidenceRecalled, "NRCSNEH630"},      // forest litter, hay meadow
}

// Surfaces returns the kinds of ground of ShallowFlow.
func Surfaces() []Surface { return slices.Clone(surfaces) }

func surfaceOf(name string) (Surface, error) {
	var names []string
	for _, s := range surfaces {
		if s.Name == name {
			return s, nil
		}
		names = append(names, s.Name)
	}
	return Surface{}, fmt.Errorf("surface %q is not known; give one of %s", name, strings.Join(names, ", "))
}

// Roughness is a range of a roughness coefficient n.
type Roughness struct {
	Name              string
	Low, Normal, High float64 // NaN where the source gives none
	Evidence          Evidence
	Source            string // key of hydro.Source
}

// sheetRoughness is n for sheet flow. Source: SCS1986, table 3-1, from memory.
var sheetRoughness = []Roughness{
	sheet("smooth", .011), sheet("fallow", .05), sheet("cultivated, little residue", .06), sheet("cultivated, residue over 20 %", .17),
	sheet("short-grass prairie", .15), sheet("dense grass", .24), sheet("bermuda grass", .41), sheet("natural range", .13),
	sheet("woods, light underbrush", .40), sheet("woods, dense underbrush", .80),
}

// SheetRoughness returns n for SheetFlow by kind of ground. All are recalled from memory.
func SheetRoughness() []Roughness { return slices.Clone(sheetRoughness) }

func sheet(name string, n float64) Roughness {
	return Roughness{name, math.NaN(), n, math.NaN(), EvidenceRecalled, "SCS1986"}
}
