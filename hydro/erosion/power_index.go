package erosion

import (
	"fmt"
	"math"
)

// squareMPerHa is how many square metres a hectare has.
const squareMPerHa = 10_000

// slopeAreaPower is the exponent of the catchment in slope-area thresholds of gully heads. Source:
// TorriPoesen2014, from memory; field studies lie around 0.4 (Vandaele1996).
const slopeAreaPower = 0.38

// slopeArea returns bed slope times catchment in hectares to the power 0.38. NaN slope gives NaN.
func slopeArea(slope, areaM2 float64) float64 {
	return slope * math.Pow(areaM2/squareMPerHa, slopeAreaPower)
}

// Chi returns the distance along a channel stretched so that a bed in balance rises straight with it, in metres: the integral of
// (a0/area)^theta from the first place, by the trapezoid rule. distanceM rises upstream. An area that is not positive gives
// infinity or NaN from there on. It panics where the slices differ in length. Source: PerronRoyden2013.
func Chi(distanceM, areaM2 []float64, theta, a0 float64) []float64 {
	if len(distanceM) != len(areaM2) {
		panic(fmt.Sprintf("erosion: %d distances and %d areas; want as many of both", len(distanceM), len(areaM2)))
	}
	out := make([]float64, len(distanceM))
	last := 0.0
	for i, a := range areaM2 {
		stretch := math.Pow(a0/a, theta)
		if i > 0 {
			out[i] = out[i-1] + (last+stretch)/2*(distanceM[i]-distanceM[i-1])
		}
		last = stretch
	}
	return out
}

// Steepness returns the slope of a bed with the effect of its catchment taken out: slope times areaM2 to the power
// theta, m^(2·theta). Where a bed is in balance it is the same all along. Source: Flint1974, from memory.
func Steepness(slope, areaM2, theta float64) float64 { return slope * math.Pow(areaM2, theta) }
