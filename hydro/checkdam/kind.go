package checkdam

import (
	"fmt"
	"slices"
)

// Kind is what a dam is built of.
type Kind string

// The kinds of dams.
const (
	LooseRock Kind = "loose-rock"
	OneRock   Kind = "one-rock" // a single layer of rock
	Log       Kind = "log"
	Brush     Kind = "brush"
	Gabion    Kind = "gabion"
)

// RefusedHeightM is the effective height above which an engineer designs the dam, m. Source: about
// 3 ft, the largest height in handbooks of the trade (from memory).
const RefusedHeightM = 0.9

// Shape is the form of a notch, seen along the flow.
type Shape string

// The shapes of notches.
const (
	Trapezoidal Shape = "trapezoidal"
	Rectangular Shape = "rectangular"
	Parabolic   Shape = "parabolic"
)

// Limits is what holds for all dams of a kind.
type Limits struct {
	Kind         Kind
	LowM, HighM  float64 // usual effective heights, m
	MostM        float64 // effective height above which the dam is refused without an engineer, m
	Shapes       []Shape // notches that suit it, the usual one first
	Coefficient  float64 // of the notch as a broad crest, SI: Q = C·b·H^1.5
	CrestWidthM  float64 // usual thickness of the crest along the flow, m
	FaceUp       float64 // usual upstream face, horizontal run a metre of height
	FaceDown     float64 // usual downstream face
	Rock         bool    // the body is rock, and stone must be sized
	HeightSource string  // where the heights come from
	Recalled     bool    // of that source some values are from memory
	MostHeadM    float64 // water over the sill above which it is refused without an engineer, m; our own choice
	MostWidthM   float64 // width of the channel at the sill above which it is refused without an engineer, m; 0 none
	WidthSource  string  // where that width comes from
	BestM2       float64 // catchment below which it does best, m²
	BestSource   string  // where that comes from, recalled; empty for our own choice
}

// Coefficients of a broad crest, m^0.5/s. The theory for a rounded, frictionless one gives BroadCrest. Trap: 3.0 in
// handbooks is the value for feet, 1.656 in metres; used with metres it overstates the capacity 1.8 times.
const (
	BroadCrest = 1.7046 // (2/3)^1.5·√9.81
	RoughCrest = 1.65   // placed rock, brush. Source: Heede1976, from memory
	PlaneCrest = 1.70   // planed log, gabion. Source: the theory, rounded down; our own choice
)

// Catchments below which dams do best, m².
const (
	m2PerHa     = 10_000
	bestRockM2  = 2 * m2PerHa
	bestLogM2   = 0.8 * m2PerHa // 2 acres, rounded. Source: VirginiaCheckDam, from memory
	brushWidthM = 3.0           // width of a gully. Source: Desta2005, read in a copy that quotes it
)

// kinds is in the order of the constants. Shapes: Geyik1986, caption of figure 9; for one rock as for loose rock. Heads: our own choice;
// rock passes as much water as the highest dam, logs are undercut and brush is lifted earlier.
var kinds = []Limits{
	{LooseRock, 0.3, 0.6, RefusedHeightM, []Shape{Trapezoidal, Parabolic}, RoughCrest, 0.5, 1.5, 3, true, "EPACheckDam", true, 0.9, 0, "", bestRockM2, ""},
	{OneRock, 0.15, 0.30, 0.30, []Shape{Trapezoidal, Parabolic}, RoughCrest, 0.6, 1.5, 3, true, "SponholtzAnderson2010", true, 0.6, 0, "", bestRockM2, ""},
	{Log, 0.3, 0.6, RefusedHeightM, []Shape{Rectangular}, PlaneCrest, 0.3, 0, 0, false, "", false, 0.6, 0, "", bestLogM2, "VirginiaCheckDam"},
	{Brush, 0.2, 0.5, 0.5, []Shape{Rectangular, Parabolic}, RoughCrest, 0.5, 1, 1, false, "", false, 0.3, brushWidthM, "Desta2005", bestRockM2, ""},
	{Gabion, 0.3, 0.9, RefusedHeightM, []Shape{Trapezoidal, Rectangular}, PlaneCrest, 0.5, 0, 0, true, "", false, 0.9, 0, "", bestRockM2, ""},
}

// Kinds returns the limits of every kind, the usual one first. Usual heights and faces are our own choice
// where no source stands.
func Kinds() []Limits { return slices.Clone(kinds) }

// LimitsOf returns the limits of a kind. Error: the kind is not known.
func LimitsOf(k Kind) (Limits, error) {
	for _, l := range kinds {
		if l.Kind == k {
			return l, nil
		}
	}
	return Limits{}, fmt.Errorf("dam kind %q is not known; take loose-rock, one-rock, log, brush or gabion", k)
}
