package raster

import "math"

// lineParts is into how many parts a line is cut: what a line has in all of them is of the data, what
// it has in one may be of the land. Source: our own choice.
const lineParts = 8

// partLeast is the fewest cells with data that speak for a part of a line. Source: our own choice.
const partLeast = 8

// partValues holds one value for each part of a line, mm; NaN where too few cells hold data.
type partValues [lineParts]float64

// lines are the rows or the columns of a grid, one after the other.
type lines struct {
	mm           []int32
	count, cells int // number of lines, and of cells in each
	line, cell   int // distance in mm from a line to the next, and from a cell of a line to the next
}

// rowLines and columnLines return a grid as lines.
func (g *Grid) rowLines() lines    { return lines{g.MM, g.Rows, g.Cols, g.Cols, 1} }
func (g *Grid) columnLines() lines { return lines{g.MM, g.Cols, g.Rows, 1, g.Cols} }

// differences returns for each stretch of len(weights) lines, by its first line, the middle over the cells of each
// part of the weighted sum across the lines. It looks at no more than most cells a part, evenly spread.
func (l lines) differences(weights []int64, most int) []partValues {
	if l.count < len(weights) {
		return nil
	}
	out := make([]partValues, l.count-len(weights)+1)
	sums := make([]int32, 0, most)
	for first := range out {
		for p := range lineParts {
			from, to := p*l.cells/lineParts, (p+1)*l.cells/lineParts
			count := min(most, to-from)
			sums = sums[:0]
			for k := range count {
				at := first*l.line + (from+k*(to-from)/count)*l.cell
				if sum, ok := l.across(at, weights); ok {
					sums = append(sums, sum)
				}
			}
			out[first][p] = math.NaN()
			if len(sums) >= partLeast {
				out[first][p] = float64(median(sums))
			}
		}
	}
	return out
}

// across returns the weighted sum of the cells across lines from the one at index at, held within int32; ok is
// false where one is void.
func (l lines) across(at int, weights []int64) (sum int32, ok bool) {
	var s int64
	for _, w := range weights {
		z := l.mm[at]
		if z == VoidMM {
			return 0, false
		}
		s += w * int64(z)
		at += l.line
	}
	return int32(min(max(s, -math.MaxInt32), math.MaxInt32)), true
}
