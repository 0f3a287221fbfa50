package channel

import "math"

// trapezoidOf returns the trapezoid of a given area, top width and depth, all above zero: b = 2A/d − T,
// m = (T − b)/(2d). Where that needs a bed narrower than nothing it is a V with m = A/d²; where it needs banks
// that overhang it is a rectangle. The residual is left out. Derived from A = d(b + T)/2.
func trapezoidOf(areaM2, topWidthM, depthM float64) Trapezoid {
	bed := 2*areaM2/depthM - topWidthM
	switch {
	case bed < 0:
		return Trapezoid{SideSlope: areaM2 / (depthM * depthM), DepthM: depthM}
	case bed > topWidthM:
		return Trapezoid{BedWidthM: topWidthM, DepthM: depthM}
	}
	return Trapezoid{BedWidthM: bed, SideSlope: (topWidthM - bed) / (2 * depthM), DepthM: depthM}
}

// heightM returns the height of the shape above its bed at a distance from its middle, m, no higher than its top.
func (t Trapezoid) heightM(fromMiddleM float64) float64 {
	out := math.Abs(fromMiddleM) - t.BedWidthM/2
	if out <= 0 {
		return 0
	}
	if t.SideSlope <= 0 {
		return t.DepthM
	}
	return min(t.DepthM, out/t.SideSlope)
}
