package raster

import (
	"cmp"
	"math"
	"slices"
)

// Where seams are looked for. Source: our own choices.
const (
	seamSample = 128  // cells looked at in each part of a line
	seamCells  = 128  // fewest cells along a line; in shorter ones the wall of a gully passes for a seam
	seamApart  = 12   // lines; no tile is narrower, but banks and gullies are
	seamFinest = 30.0 // mm; smaller jumps are not told from the land
	seamSure   = 8.0  // standard deviations by which a seam stands out from the other lines
	seamParts  = 4    // fewest parts of a line that hold data
	seamLeast  = 0.25 // share of a line's jump that all of its parts but one must reach
	seamBeside = 0.5  // share of it that no line within seamApart may reach, its neighbours left out
)

// Seam is a step in the data along a whole row or column, as where two tiles meet whose heights do not agree.
type Seam struct {
	Columns bool    // the line runs between two columns, else between two rows
	After   int     // number of columns, or rows, before the line
	JumpM   float64 // middle size of the jump along the line, m
}

// Seams returns the full-length seams, the highest first; told is false where the grid is too small to tell of rows or of
// columns (under 128 cells along a line, under 25 lines).
// At each line the jump is that of two parabolas' worth of ground, ½(z₀ − 3z₁ + 3z₂ − z₃) across
// it, as the middle over the cells of each of eight parts; a line's jump is the middle of the sizes in its parts, so that
// jumps may differ from tile to tile, in sign too. A seam stands eight standard deviations above the usual line, and at
// 0.03 m or more, in all parts but one, without another jump near, and has the form of a jump: the lines beside it see
// −½ of it, where at a kink or a ridge they see −1 or 0.
// Tiles that do not meet along a full row or column are not seen, and jumps lower than the noise of a cell may be missed. Cost: at most 1,024 cells a line.
func (g *Grid) Seams() (seams []Seam, told bool) {
	seams, rows := g.rowLines().seams(false)
	more, cols := g.columnLines().seams(true)
	seams = append(seams, more...)
	slices.SortStableFunc(seams, func(a, b Seam) int { return cmp.Compare(b.JumpM, a.JumpM) })
	return seams, rows && cols
}

func (l lines) seams(columns bool) (found []Seam, told bool) {
	if l.cells < seamCells || l.count < 2*seamApart+1 {
		return nil, false
	}
	jumps := l.differences([]int64{1, -3, 3, -1}, seamSample) // twice the jump
	sizes, smallest := make([]float64, len(jumps)), make([]float64, len(jumps))
	for i := range jumps {
		sizes[i], smallest[i] = lineJump(jumps[i])
	}
	least := standsOut(sizes)
	for i := 1; i < len(jumps)-1; i++ {
		if sizes[i] >= least && smallest[i] >= seamLeast*sizes[i] && alone(sizes, i) &&
			halfBack(jumps[i], jumps[i-1]) && halfBack(jumps[i], jumps[i+1]) {
			found = append(found, Seam{Columns: columns, After: i + 2, JumpM: sizes[i] / mmPerM})
		}
	}
	return found, true
}

// standsOut returns the size from which a line stands out from the others, mm.
func standsOut(sizes []float64) float64 {
	usual := middle(sizes)
	away := make([]float64, len(sizes))
	for i, size := range sizes {
		away[i] = math.Abs(size - usual)
	}
	return max(seamFinest, usual+seamSure*middle(away)/normalMiddle)
}

// alone reports whether no line near jumps by much, but for the two on each side that see a part of the same jump.
func alone(sizes []float64, i int) bool {
	for k := max(0, i-seamApart); k <= min(len(sizes)-1, i+seamApart); k++ {
		near := k >= i-2 && k <= i+2
		if near && sizes[k] > sizes[i] || !near && sizes[k] > seamBeside*sizes[i] {
			return false
		}
	}
	return true
}

// lineJump returns the middle size of the jumps in the parts of a line, and the smallest but one, mm; 0 where too few hold data.
func lineJump(twice partValues) (mid, smallest float64) {
	var sizes []float64
	for _, v := range twice {
		if !math.IsNaN(v) {
			sizes = append(sizes, math.Abs(v)/2)
		}
	}
	if len(sizes) < seamParts {
		return 0, 0
	}
	slices.Sort(sizes)
	return (sizes[(len(sizes)-1)/2] + sizes[len(sizes)/2]) / 2, sizes[1]
}

// halfBack reports whether the line beside sees about −½ of the jumps: −0.25 to −0.75, by least squares over the parts.
func halfBack(jump, beside partValues) bool {
	product, square := 0.0, 0.0
	for p := range jump {
		if !math.IsNaN(jump[p]) && !math.IsNaN(beside[p]) {
			product += jump[p] * beside[p]
			square += jump[p] * jump[p]
		}
	}
	return product <= -0.25*square && product >= -0.75*square
}
