package storm

import (
	"errors"
	"fmt"
	"math"
)

// Peak factors of a unit hydrograph: peak = factor × area × depth / time to peak in ft³/s, square
// miles, inches, hours. Source: NRCSNEH630, chapter 16; the range as NWSUnitHydrograph has it, read in part.
const (
	PeakFactor      = 484.0   // the usual shape
	LeastPeakFactor = 100.0   // flat and swampy land is near 300. The limit is our own
	MostPeakFactor  = 600.0   // steep land
	evenPeakFactor  = 645.333 // of a block one time to peak long: ft³/s in a square mile times an inch an hour
)

// stepShare is the best step of a unit hydrograph as a share of the time of concentration. Source:
// NRCSNEH630, chapter 16, from memory.
const stepShare = 0.133

// Shape is the form of a unit hydrograph.
type Shape string

// The shapes.
const (
	ShapeCurvilinear Shape = "curvilinear" // the handbook's curve at factor 484, a gamma curve at others
	ShapeTriangular  Shape = "triangular"
)

// Hydrograph is flow at equal steps, the first value at time zero, straight between values.
type Hydrograph struct {
	StepS   float64   // s
	FlowM3s []float64 // m³/s
}

// PeakM3s returns the highest flow in m³/s, 0 for none.
func (h Hydrograph) PeakM3s() float64 {
	peak := 0.0
	for _, q := range h.FlowM3s {
		peak = max(peak, q)
	}
	return peak
}

// PeakS returns the time of the highest flow in s.
func (h Hydrograph) PeakS() float64 {
	for i, peak := 0, h.PeakM3s(); i < len(h.FlowM3s); i++ {
		if h.FlowM3s[i] == peak {
			return float64(i) * h.StepS
		}
	}
	return 0
}

// VolumeM3 returns the volume in m³.
func (h Hydrograph) VolumeM3() float64 {
	sum := 0.0
	for _, q := range h.FlowM3s {
		sum += q
	}
	return sum * h.StepS
}

// UnitHydrograph is the flow that follows 1 mm of runoff falling evenly in one step.
type UnitHydrograph struct {
	StepS        float64   // s
	OrdinatesM3s []float64 // m³/s per mm at whole steps, from 0 to 0
}

// UnitPeakM3s returns the peak of the triangular unit hydrograph in m³/s per mm of runoff: 0.2083 A/Tp
// at factor 484, A in km² and Tp in hours. The peak of a storm whose runoff comes in one step at most.
func UnitPeakM3s(areaM2, timeToPeakS, factor float64) float64 {
	return factor / evenPeakFactor * areaM2 / 1000 / timeToPeakS
}

// NewUnitHydrograph returns the unit hydrograph of a catchment in m² with a time of concentration in s,
// in steps of stepS seconds. Time to peak is half a step plus lag, 0.6 of the time of concentration.
// Ordinates are scaled so that their volume is 1 mm over the catchment. A step over a quarter of
// the time to peak is an error. Factor 0 is PeakFactor; an empty shape is ShapeCurvilinear.
// Source: NRCSNEH630, chapter 16.
func NewUnitHydrograph(shape Shape, areaM2, concentrationS, stepS, factor float64) (UnitHydrograph, error) {
	if factor == 0 {
		factor = PeakFactor
	}
	if err := errors.Join(above("catchment", areaM2, "m²"), above("time of concentration", concentrationS, "s"), above("step", stepS, "s"),
		within("peak factor", factor, LeastPeakFactor, MostPeakFactor, "")); err != nil {
		return UnitHydrograph{}, err
	}
	peakS := stepS/2 + 0.6*concentrationS
	if stepS > peakS/4*(1+1e-9) {
		return UnitHydrograph{}, fmt.Errorf("steps of %.4g s for a time to peak of %.4g s; take a quarter of it or less", stepS, peakS)
	}
	curve, end, err := shapeOf(shape, factor)
	if err != nil {
		return UnitHydrograph{}, err
	}
	if end*peakS/stepS > MaxSteps {
		return UnitHydrograph{}, fmt.Errorf("steps of %.4g s for a time to peak of %.4g s are too fine; take longer ones", stepS, peakS)
	}
	n := int(math.Ceil(end*peakS/stepS)) + 1
	out := UnitHydrograph{StepS: stepS, OrdinatesM3s: make([]float64, n)}
	sum := 0.0
	for i := range n - 1 {
		out.OrdinatesM3s[i] = curve(float64(i) * stepS / peakS)
		sum += out.OrdinatesM3s[i]
	}
	for i := range out.OrdinatesM3s {
		out.OrdinatesM3s[i] *= areaM2 / 1000 / stepS / sum
	}
	return out, nil
}

// Convolve returns the hydrograph of runoff in mm, step by step in the steps of the unit hydrograph.
func (u UnitHydrograph) Convolve(runoffMM []float64) Hydrograph {
	if len(runoffMM) == 0 || len(u.OrdinatesM3s) == 0 {
		return Hydrograph{StepS: u.StepS}
	}
	flow := make([]float64, len(runoffMM)+len(u.OrdinatesM3s)-1)
	for i, mm := range runoffMM {
		if mm == 0 {
			continue
		}
		for j, q := range u.OrdinatesM3s {
			flow[i+j] += mm * q
		}
	}
	return Hydrograph{StepS: u.StepS, FlowM3s: flow}
}

// shapeOf returns flow over peak by time over time to peak, and where it ends.
func shapeOf(shape Shape, factor float64) (curve func(t float64) float64, end float64, err error) {
	switch {
	case shape == ShapeTriangular:
		end := 2 * evenPeakFactor / factor
		return func(t float64) float64 {
			if t <= 1 {
				return t
			}
			return max(0, (end-t)/(end-1))
		}, end, nil
	case shape != "" && shape != ShapeCurvilinear:
		return nil, 0, fmt.Errorf("shape %q of a unit hydrograph; give %s or %s", shape, ShapeCurvilinear, ShapeTriangular)
	case factor == PeakFactor:
		return curvilinear, curveEnd, nil
	}
	m := gammaShape(factor)
	curve = func(t float64) float64 { return math.Pow(t, m) * math.Exp(m*(1-t)) }
	end = 2
	for curve(end) > 1e-5 {
		end += 0.5
	}
	return curve, end, nil
}

// gammaShape returns m of the gamma curve t^m e^(m(1-t)) with a peak factor, by halving.
func gammaShape(factor float64) float64 {
	lo, hi := 0.01, 50.0
	for range 100 {
		m := (lo + hi) / 2
		gamma, _ := math.Lgamma(m + 1)
		area := math.Exp(m + gamma - (m+1)*math.Log(m))
		if evenPeakFactor/area < factor {
			lo = m
		} else {
			hi = m
		}
	}
	return (lo + hi) / 2
}

// curveEnd is where the curvilinear unit hydrograph ends, in times to peak.
const curveEnd = 5.0

// curveRows hold q/qp of the curvilinear unit hydrograph: by 0.1 to 2.0, by 0.2 to 4.0, then 4.5 and 5.
// Source: NRCSNEH630, chapter 16, table 16-1, seen in a copy. Their area is 1.336, which is a peak factor
// of 483.05 and the reason for scaling.
var curveRows = [33]float64{
	0, .030, .100, .190, .310, .470, .660, .820, .930, .990, 1.000, .990, .930, .860, .780, .680, .560, .460, .390, .330, .280,
	.207, .147, .107, .077, .055, .040, .029, .021, .015, .011, .005, 0,
}

// rowTime returns t/Tp of a row.
func rowTime(i int) float64 {
	switch {
	case i <= 20:
		return float64(i) / 10
	case i <= 30:
		return 2 + float64(i-20)/5
	}
	return 4 + float64(i-30)/2
}

// curvilinear returns q/qp at t/Tp, on straight lines between the rows.
func curvilinear(t float64) float64 {
	for i := 1; i < len(curveRows); i++ {
		if a, b := rowTime(i-1), rowTime(i); t <= b {
			return curveRows[i-1] + (curveRows[i]-curveRows[i-1])*(t-a)/(b-a)
		}
	}
	return 0
}
