package raster

import "math"

// Where stripes are looked for. Source: our own choices.
const (
	stripeSample = 64  // cells looked at in each part of a line
	stripeLines  = 64  // fewest lines in which stripes can be told
	stripeSure   = 3.0 // standard errors by which stripes must stand out
	stripeSpread = 0.1 // least middle over mean of what lines share: stripes are all over, a ridge along a line is not
	stripeFinest = 5.0 // mm; weaker stripes are not told from none
)

// parabola holds the weights by which the middle of a parabola through 11 evenly spaced values follows from them, least
// squares, times 429. Source: Savitzky and Golay 1964, Smoothing and differentiation of data by simplified least
// squares procedures, table I (from memory; that they keep every parabola is tested).
var parabola = [11]float64{-36, 9, 44, 69, 84, 89, 84, 69, 44, 9, -36}

const parabolaSum = 429

// StripeM returns how far rows, and columns, stand above and below their neighbours as wholes: the
// standard deviation of an offset that a whole line shares, in metres. 0 where there is no sign of
// one, NaN where the grid is too small to tell.
// From line to line the middle of the height differences is taken in each of eight parts of the line, and summed
// along the lines to a profile, of which the local parabola over 11 lines is taken away. What stays in all
// parts at once, by the mean product of pairs of parts, is offset: noise and land differ between parts. Stripes
// wider than about five lines, and those that do not run along rows or columns, are not seen. Offsets under 5 mm are taken for none.
// Cost: at most 512 cells a line.
func (g *Grid) StripeM() (rowsM, colsM float64) {
	return g.rowLines().stripeMM() / mmPerM, g.columnLines().stripeMM() / mmPerM
}

func (l lines) stripeMM() float64 {
	if l.count < stripeLines || l.cells < lineParts*partLeast {
		return math.NaN()
	}
	shared := sharedOffsets(l.differences([]int64{-1, 1}, stripeSample))
	if len(shared) < stripeLines/2 {
		return math.NaN()
	}
	mean, scatter := meanScatter(shared)
	// Offsets of lines within reach of one parabola are not independent.
	sure := stripeSure * scatter / math.Sqrt(float64(len(shared))/float64(len(parabola)))
	if mean <= sure || middle(shared) < stripeSpread*mean {
		return 0
	}
	// An offset of its own loses the weight of the middle to its parabola.
	offset := math.Sqrt(mean / (1 - parabola[len(parabola)/2]/parabolaSum))
	if offset < stripeFinest {
		return 0
	}
	return offset
}

// sharedOffsets returns, for each line that has them, the mean product of the offsets of two parts, mm². Steps are
// those from each line to the next.
func sharedOffsets(steps []partValues) (shared []float64) {
	profile := make([]partValues, len(steps)+1)
	for i, s := range steps {
		for p := range s {
			if profile[i+1][p] = profile[i][p]; !math.IsNaN(s[p]) {
				profile[i+1][p] += s[p]
			}
		}
	}
	half := len(parabola) / 2
	for i := half; i < len(profile)-half; i++ {
		sum, squares, parts := 0.0, 0.0, 0.0
		for p := range lineParts {
			if off, ok := offset(profile, steps, i, p); ok {
				sum += off
				squares += off * off
				parts++
			}
		}
		if parts >= 2 {
			shared = append(shared, (sum*sum-squares)/(parts*(parts-1)))
		}
	}
	return shared
}

// offset returns how far a part of line i stands above the parabola of the lines around; ok is false where a step
// between them is not known.
func offset(profile, steps []partValues, i, p int) (mm float64, ok bool) {
	half := len(parabola) / 2
	for k := i - half; k < i+half; k++ {
		if math.IsNaN(steps[k][p]) {
			return 0, false
		}
	}
	fit := 0.0
	for k, w := range parabola {
		fit += w * (profile[i-half+k][p] - profile[i][p])
	}
	return -fit / parabolaSum, true
}

// meanScatter returns the mean and the standard deviation of values, of which there is at least one.
func meanScatter(values []float64) (mean, scatter float64) {
	for _, v := range values {
		mean += v
	}
	mean /= float64(len(values))
	for _, v := range values {
		scatter += (v - mean) * (v - mean)
	}
	return mean, math.Sqrt(scatter / float64(len(values)))
}
