package raster

import "math"

// Where level cells are looked for.
const (
	levelPatch = 64      // side of a patch, cells
	levelCells = 1 << 22 // most cells looked at
)

// LevelShare returns the share, 0 to 1, of the cells with eight neighbours that are exactly as high as all of
// them: lakes, and ground that was filled in. Cells on the border, void or beside a void are not
// counted; NaN where none is left. Up to about four million cells are looked at, in patches.
func (g *Grid) LevelShare() float64 {
	level, counted := 0, 0
	for _, w := range g.patches(levelPatch, levelCells) {
		for row := max(1, w.Row); row < min(g.Rows-1, w.Row+w.Rows); row++ {
			for col := max(1, w.Col); col < min(g.Cols-1, w.Col+w.Cols); col++ {
				lo, hi := g.aroundMM(col, row)
				if lo == VoidMM {
					continue
				}
				counted++
				if lo == hi {
					level++
				}
			}
		}
	}
	if counted == 0 {
		return math.NaN()
	}
	return float64(level) / float64(counted)
}

// aroundMM returns the lowest and highest of a cell and its eight neighbours, mm; VoidMM as the lowest where one is void.
func (g *Grid) aroundMM(col, row int) (lo, hi int32) {
	i := row*g.Cols + col
	lo, hi = g.MM[i], g.MM[i]
	for _, k := range [3]int{i - g.Cols, i, i + g.Cols} {
		three := g.MM[k-1 : k+2]
		lo, hi = min(lo, three[0], three[1], three[2]), max(hi, three[0], three[1], three[2])
	}
	return lo, hi
}
