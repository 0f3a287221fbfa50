package checkdam

import (
	"fmt"
	"math"
)

const gravity = 9.81 // m/s²

// Notch is the low middle of a dam, over which the storm passes.
type Notch struct {
	Shape       Shape
	WidthM      float64 // at the sill; of a parabola at DepthM
	SideSlope   float64 // horizontal run a metre of height; 0 for a rectangle and a parabola
	HeadM       float64 // of the peak above the sill, pond level to sill
	DepthM      float64 // sill to the top of the wings
	FreeboardM  float64 // DepthM less HeadM
	CapacityM3s float64 // at the depth less the least freeboard
	CriticalMs  float64 // velocity of the peak at critical depth
	coefficient float64
}

// Least depth and freeboard of a notch, m. Source: our own choice, within what handbooks print: ends 0.15 m or more above
// the crest (read in a check-dam fact sheet), 9 in in some state manuals (from memory).
const (
	LeastDepthM     = 0.15
	LeastFreeboardM = 0.10
)

// topWidthM returns the width of the water at a depth over the sill.
func (n Notch) topWidthM(y float64) float64 {
	if n.Shape == Parabolic {
		return n.WidthM * math.Sqrt(y/n.DepthM)
	}
	return n.WidthM + 2*n.SideSlope*y
}

// areaM2 returns the flow area at a depth over the sill.
func (n Notch) areaM2(y float64) float64 {
	if n.Shape == Parabolic {
		return 2.0 / 3 * n.topWidthM(y) * y
	}
	return (n.WidthM + n.SideSlope*y) * y
}

// criticalM returns the critical depth under a head above the sill: the root of H = y + A/(2T). A parabola has 3H/4.
func (n Notch) criticalM(headM float64) float64 {
	return root(0, headM, func(y float64) float64 {
		if y == 0 {
			return -headM
		}
		return y + n.areaM2(y)/(2*n.topWidthM(y)) - headM
	})
}

// FlowM3s returns the flow through the notch under a head above the sill: critical flow, √(g·A³/T), lowered by the share that
// the coefficient of the crest is of the theory. A head of 0 or less gives 0; above the wings water is taken to stay between
// the notch's own sides.
func (n Notch) FlowM3s(headM float64) float64 {
	if !(headM > 0) {
		return 0
	}
	y := n.criticalM(headM)
	a := n.areaM2(y)
	return n.coefficient / BroadCrest * math.Sqrt(gravity*a*a*a/n.topWidthM(y))
}

// headFor returns the head at which the notch passes a flow.
func (n Notch) headFor(peakM3s float64) float64 {
	most := 1.0
	for n.FlowM3s(most) < peakM3s {
		most *= 2
	}
	return root(0, most, func(h float64) float64 { return n.FlowM3s(h) - peakM3s })
}

// root finds where a function that rises from lo to hi crosses zero, by halving.
func root(lo, hi float64, f func(float64) float64) float64 {
	for range 100 {
		mid := (lo + hi) / 2
		if f(mid) < 0 {
			lo = mid
		} else {
			hi = mid
		}
	}
	return (lo + hi) / 2
}

// NotchRequest is what is fixed of a notch. Zero values leave the choice open.
type NotchRequest struct {
	Shape      Shape   // empty: the usual one of the kind
	WidthM     float64 // at the sill; zero: as wide as the bed, so that water lands on bed and apron, or narrower to stay between the banks
	SideSlope  float64 // of a trapezoid, horizontal run a metre of height; zero: 1
	FreeboardM float64 // zero: LeastFreeboardM
}

// solveNotch sizes a notch for a peak. A parabola keeps its form, and grows as it deepens. Error: a value out of range.
func solveNotch(ask NotchRequest, l Limits, bedWidthM, peakM3s float64) (Notch, error) {
	n := Notch{Shape: ask.Shape, WidthM: ask.WidthM, SideSlope: ask.SideSlope, coefficient: l.Coefficient}
	if n.Shape == "" {
		n.Shape = l.Shapes[0]
	}
	if n.WidthM == 0 {
		n.WidthM = bedWidthM
	}
	switch n.Shape {
	case Trapezoidal:
		if n.SideSlope == 0 {
			n.SideSlope = 1
		}
	case Rectangular, Parabolic:
		if n.SideSlope != 0 {
			return Notch{}, fmt.Errorf("notch side slope %g: a %s notch has none", n.SideSlope, n.Shape)
		}
	default:
		return Notch{}, fmt.Errorf("notch shape %q is not known; take trapezoidal, rectangular or parabolic", n.Shape)
	}
	if n.WidthM == 0 && n.Shape != Trapezoidal {
		return Notch{}, fmt.Errorf("notch width 0 m: the bed has no width to take it from; give one")
	}
	freeboardM := ask.FreeboardM
	if freeboardM == 0 {
		freeboardM = LeastFreeboardM
	}
	n.DepthM = LeastDepthM
	if n.Shape == Parabolic {
		n.DepthM = root(LeastDepthM, mostM, func(depth float64) float64 {
			deeper := n
			deeper.DepthM = depth
			return depth - freeboardM - deeper.headFor(peakM3s)
		})
	}
	n.HeadM = n.headFor(peakM3s)
	n.DepthM = max(n.DepthM, n.HeadM+freeboardM)
	n.FreeboardM = n.DepthM - n.HeadM
	n.CapacityM3s = n.FlowM3s(n.DepthM - freeboardM)
	n.CriticalMs = peakM3s / n.areaM2(n.criticalM(n.HeadM))
	return n, nil
}

// opensM returns the width of the notch at the top of the wings.
func (n Notch) opensM() float64 { return n.topWidthM(n.DepthM) }
