package raster

import (
	"math"
	"slices"
)

// stepCells is how many heights are looked at for steps, at most.
const stepCells = 1 << 20

// stepShare is the share of heights that must lie on a step; the rest may be holes that were filled in.
// Source: our own choice.
const stepShare = 0.99

// shiftHeights is how many heights must differ before their distances alone tell a step: fewer may share a divisor by chance.
// Source: our own choice.
const shiftHeights = 10

// footMM and surveyFootMM are the two feet, mm: 0.3048 m and 1200/3937 m, exact by definition.
const (
	footMM       = 304.8
	surveyFootMM = 1200_000.0 / 3937
)

// stepsMM are the steps in which heights are commonly kept, mm, largest first.
var stepsMM = []float64{
	10_000, 5000, 2000, 1000, 500, surveyFootMM, footMM, 250, 200, surveyFootMM / 2, footMM / 2, 100, 50,
	surveyFootMM / 10, footMM / 10, 20, 10, 5, surveyFootMM / 100, footMM / 100, 2,
}

// Step tells how finely heights are kept.
type Step struct {
	MM       float64 // greatest step of which the heights are whole multiples, mm: 1 at the finest; NaN where fewer than two heights differ
	Distinct int     // number of different heights among those looked at
	Share    float64 // Distinct over the most there could be: cells looked at, or millimetres from lowest to highest
}

// Step returns the greatest step of which 99 in 100 heights are whole multiples, a common one of metres or feet
// rounded to millimetres, or a greater whole one between all of ten or more different heights, as in whole metres after a
// shift. At most about a million heights, evenly spread, are looked at.
func (g *Grid) Step() Step {
	heights := g.spreadHeights(stepCells)
	if len(heights) == 0 {
		return Step{MM: math.NaN(), Share: math.NaN()}
	}
	slices.Sort(heights)
	distinct := slices.Compact(slices.Clone(heights))
	lo, hi := distinct[0], distinct[len(distinct)-1]
	most := min(int64(len(heights)), int64(hi)-int64(lo)+1)
	s := Step{MM: math.NaN(), Distinct: len(distinct), Share: float64(len(distinct)) / float64(most)}
	if len(distinct) < 2 {
		return s
	}
	s.MM = commonStepMM(heights)
	if len(distinct) >= shiftHeights {
		s.MM = max(s.MM, float64(spanDivisor(distinct)))
	}
	return s
}

// spreadHeights returns the heights of about most cells evenly spread, voids left out, mm.
func (g *Grid) spreadHeights(most int) []int32 {
	count := min(len(g.MM), most)
	heights := make([]int32, 0, count)
	for k := range count {
		if z := g.MM[k*len(g.MM)/count]; z != VoidMM {
			heights = append(heights, z)
		}
	}
	return heights
}

// commonStepMM returns the largest of stepsMM on which nearly all heights lie, else 1.
func commonStepMM(heights []int32) float64 {
	for _, step := range stepsMM {
		off, most := 0, int(float64(len(heights))*(1-stepShare))
		for k := 0; k < len(heights) && off <= most; k++ {
			z := float64(heights[k])
			if math.Abs(z-math.Round(z/step)*step) > 0.5+1e-6 { // rounded to millimetres
				off++
			}
		}
		if off <= most {
			return step
		}
	}
	return 1
}

// spanDivisor returns the greatest number of millimetres that divides the distance between any two heights;
// distinct is sorted and holds two or more.
func spanDivisor(distinct []int32) int64 {
	divisor := int64(0)
	for _, z := range distinct[1:] {
		a := int64(z) - int64(distinct[0])
		for a != 0 {
			divisor, a = a, divisor%a
		}
		if divisor == 1 {
			break
		}
	}
	return divisor
}
