package erosion

import (
	"math"

	"siltstep/hydro/channel"
)

// waterNm3 is the weight of water, N/m³: 1000 kg/m³ times 9.81 m/s².
const waterNm3 = 9810

// deepestM ends the search for a depth, m: no stream is that deep, so the numbers given are wrong.
const deepestM = 10_000

// stream is steady, even flow in a trapezoid.
type stream struct {
	depthM, areaM2, wettedM, topM float64 // wettedM is the length of bed and banks under water, topM the water's width
}

// streamAt returns the flow at a depth. The banks go on beyond the depth of the trapezoid.
func streamAt(t channel.Trapezoid, depthM float64) stream {
	return stream{
		depthM:  depthM,
		areaM2:  (t.BedWidthM + t.SideSlope*depthM) * depthM,
		wettedM: t.BedWidthM + 2*depthM*math.Hypot(1, t.SideSlope),
		topM:    t.BedWidthM + 2*t.SideSlope*depthM,
	}
}

// normal returns the flow that carries flowM3s at normal depth by Manning's formula, Q = A·R^(2/3)·√S/n: no flow for
// zero; NaN where an input is not a number, is below zero or gives no finite depth. Found by bisection, to a billionth of the depth.
func normal(t channel.Trapezoid, flowM3s, slope, n float64) stream {
	nowhere := stream{math.NaN(), math.NaN(), math.NaN(), math.NaN()}
	// Q·n/√S = A^(5/3)/P^(2/3), to the third power.
	need := math.Pow(flowM3s*n/math.Sqrt(slope), 3)
	if !(need >= 0 && need <= math.MaxFloat64) || !(t.BedWidthM >= 0 && t.SideSlope >= 0 && t.BedWidthM+t.SideSlope > 0) {
		return nowhere
	}
	if need == 0 {
		return streamAt(t, 0)
	}
	carries := func(depthM float64) bool {
		s := streamAt(t, depthM)
		return s.areaM2*s.areaM2*s.areaM2*s.areaM2*s.areaM2 >= need*s.wettedM*s.wettedM
	}
	low, high := 0.0, 1.0
	for !carries(high) {
		if high > deepestM {
			return nowhere
		}
		low, high = high, 2*high
	}
	for high-low > 1e-9*high {
		if mid := (low + high) / 2; carries(mid) {
			high = mid
		} else {
			low = mid
		}
	}
	return streamAt(t, high)
}

// bedShearPa returns the greatest shear on the bed, γ·d·S, in pascals.
func (s stream) bedShearPa(slope float64) float64 { return waterNm3 * s.depthM * slope }

// unitPowerWm2 returns the power of the stream over the width of its surface, γ·Q·S/T, in W/m²; 0 without flow.
func (s stream) unitPowerWm2(flowM3s, slope float64) float64 {
	if flowM3s == 0 {
		return 0
	}
	return waterNm3 * flowM3s * slope / s.topM
}
