package erosion

import (
	"math"
	"slices"
)

// Material is what a channel bed is made of.
type Material struct {
	Name          string  // as Config.Material names it
	PermissiblePa float64 // shear that the bed is said to bear, Pa; the low end where the source gives a range
	Source        string  // key of hydro.Source
	FromMemory    bool    // the number was recalled and not seen in print
}

// paPerPoundFoot2 turns pounds a square foot into pascals.
const paPerPoundFoot2 = 47.88

// materials is in the order of what they bear; clear water. Numbers in pounds a square foot as the sources have
// them, all from memory: FortierScobey1926 for old, straight canals at most 3 ft deep, Fischenich2001 for linings.
var materials = []Material{
	{"fine-sand", 0.02 * paPerPoundFoot2, "Fischenich2001", true},      // 0.02 to 0.03, colloidal
	{"sandy-loam", 0.03 * paPerPoundFoot2, "Fischenich2001", true},     // 0.03 to 0.04
	{"silt-loam", 0.045 * paPerPoundFoot2, "Fischenich2001", true},     // 0.045 to 0.05
	{"alluvial-silt", 0.045 * paPerPoundFoot2, "Fischenich2001", true}, // 0.045 to 0.05, not colloidal
	{"firm-loam", 0.075 * paPerPoundFoot2, "FortierScobey1926", true},
	{"fine-gravel", 0.075 * paPerPoundFoot2, "FortierScobey1926", true},
	{"stiff-clay", 0.26 * paPerPoundFoot2, "FortierScobey1926", true},          // very colloidal
	{"colloidal-silt", 0.26 * paPerPoundFoot2, "FortierScobey1926", true},      // alluvial
	{"coarse-gravel", 0.30 * paPerPoundFoot2, "FortierScobey1926", true},       // not colloidal
	{"graded-loam-cobbles", 0.38 * paPerPoundFoot2, "FortierScobey1926", true}, // not colloidal
	{"graded-silt-cobbles", 0.43 * paPerPoundFoot2, "FortierScobey1926", true}, // colloidal
	{"hardpan", 0.67 * paPerPoundFoot2, "FortierScobey1926", true},             // and shale
	{"short-grass", 0.7 * paPerPoundFoot2, "Fischenich2001", true},             // 0.7 to 0.95, native and bunch grass
	{"cobbles", 0.91 * paPerPoundFoot2, "FortierScobey1926", true},             // and shingle
	{"long-grass", 1.2 * paPerPoundFoot2, "Fischenich2001", true},              // 1.2 to 1.7, native
}

// Materials returns the bed materials that can be chosen, from the one that bears least. What they bear is for
// bare or growing ground in good order, in clear water.
func Materials() []Material { return slices.Clone(materials) }

// permissiblePa returns what a material bears, Pa; NaN where the name is empty or unknown.
func permissiblePa(name string) float64 {
	for _, m := range materials {
		if m.Name == name {
			return m.PermissiblePa
		}
	}
	return math.NaN()
}
