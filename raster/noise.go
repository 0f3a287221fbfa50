package raster

import (
	"math"
	"slices"
)

// Where noise is looked for.
const (
	noisePatch    = 32      // side of a patch, cells: some 1,800 differences tell its noise to 5 %
	noiseCells    = 1 << 21 // most cells looked at
	noiseLeast    = 64      // fewest differences that tell the noise of a patch. Source: our own choice
	smoothestPart = 4       // one patch in so many is smooth ground. Source: our own choice
)

// Noise is read from third differences along rows and columns, z₀ − 3z₁ + 3z₂ − z₃. Planes and
// parabolas give none, so the land's slope and curvature do not count. Where each cell errs by itself
// with standard deviation s, a difference has the variance (1 + 9 + 9 + 1)·s², hence the scatter √20·s,
// and the middle of the sizes of normal differences is 0.6745 of their scatter: half of a normal
// distribution lies within 0.6745 standard deviations.
const (
	thirdDifferenceScatter = 4.47213595499958  // √20
	normalMiddle           = 0.674489750196082 // 75th percentile of the standard normal distribution
)

// NoiseM returns the standard deviation of a cell's own random error in metres: the scatter of heights
// from one cell to the next on the smoothest quarter of the ground, the roughness of grass and stones included.
// NaN where no four cells in a row hold data. Level stretches are left out: lakes are drawn, not measured.
// Errors that neighbours share are seen in part only: with correlations r₁, r₂, r₃ of cells one, two and
// three apart the result is s·√((20 − 30r₁ + 12r₂ − 2r₃)/20), 45 % of s for means of three cells.
// At most about two million cells are looked at.
func (g *Grid) NoiseM() float64 {
	var patches []float64
	var sizes, pooled []int32
	for _, w := range g.patches(noisePatch, noiseCells) {
		sizes = g.thirdDifferences(sizes[:0], w)
		if len(sizes) >= noiseLeast {
			patches = append(patches, noiseMM(sizes))
		} else {
			pooled = append(pooled, sizes...)
		}
	}
	switch {
	case len(patches) > 0:
		slices.Sort(patches)
		return patches[(len(patches)-1)/smoothestPart] / mmPerM
	case len(pooled) > 0:
		return noiseMM(pooled) / mmPerM
	}
	return math.NaN()
}

// noiseMM returns the standard deviation of a cell that belongs to the sizes of third differences,
// whose order it changes. Sizes are whole; the middle is placed within its millimetre by the share of
// sizes below it, unless it is zero.
func noiseMM(sizes []int32) float64 {
	mid := median(sizes)
	if mid == 0 {
		return 0
	}
	below, equal := 0, 0
	for _, d := range sizes {
		switch {
		case d < mid:
			below++
		case d == mid:
			equal++
		}
	}
	within := (float64(len(sizes))/2 - float64(below)) / float64(equal)
	return (float64(mid) - 0.5 + within) / normalMiddle / thirdDifferenceScatter
}

// thirdDifferences appends the sizes of all third differences of a window, mm, but for those that touch a
// void and those of four equal heights. Differences over 2,147 km count as that.
func (g *Grid) thirdDifferences(sizes []int32, w Window) []int32 {
	for row := w.Row; row < w.Row+w.Rows; row++ {
		for col := w.Col; col < w.Col+w.Cols; col++ {
			i := row*g.Cols + col
			if col+3 < w.Col+w.Cols {
				sizes = appendThird(sizes, g.MM[i], g.MM[i+1], g.MM[i+2], g.MM[i+3])
			}
			if row+3 < w.Row+w.Rows {
				sizes = appendThird(sizes, g.MM[i], g.MM[i+g.Cols], g.MM[i+2*g.Cols], g.MM[i+3*g.Cols])
			}
		}
	}
	return sizes
}

func appendThird(sizes []int32, a, b, c, d int32) []int32 {
	if min(a, b, c, d) == VoidMM || a == b && b == c && c == d {
		return sizes
	}
	third := int64(a) - 3*int64(b) + 3*int64(c) - int64(d)
	return append(sizes, int32(min(max(third, -third), math.MaxInt32)))
}
