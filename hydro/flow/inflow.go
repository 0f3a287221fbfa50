package flow

import "siltstep/raster"

// inflowCells lists the cells on the border of the data over which water seems to enter: those that
// drain inward while the ground beyond rises, except local ridges of a straight border.
func inflowCells(cols, rows int, z []int32, dir []uint8, border []uint32) []int {
	var in []int
	for _, i := range border {
		if dir[i]&dirMask > dirNE {
			continue
		}
		c, r := int(i)%cols, int(i)/cols
		if v := look(cols, rows, c, r, z); v.risesOutside() && !v.localRidge() {
			in = append(in, int(i))
		}
	}
	return in
}

// localRidge reports whether the data ends on one side only and both neighbours along that side lie lower:
// the crest of a spur sheds its water to both flanks. Where the border turns there is no profile to judge by.
func (v *view) localRidge() bool {
	for side := dirE; side <= dirN; side++ {
		if v.has[side] {
			continue
		}
		left, right := side^1, side^3 // the two sides across
		return v.has[left] && v.has[right] && v.drop(int(left)) > 0 && v.drop(int(right)) > 0
	}
	return false
}

// edgeSpills lists the ends of flow on the border of the data over which standing water leaves: of the cells
// that drain to them on their own level at least one was filled, or a cut lowered the end itself.
func edgeSpills(g *raster.Grid, f *Field, border []uint32) []int {
	var spills []int
	var above []int // cells of one level, from an end upstream
	for _, end := range border {
		if f.dir[end]&dirMask != dirEnd {
			continue
		}
		above = append(above[:0], int(end))
		for k := 0; k < len(above); k++ {
			i := above[k]
			if f.FilledMM[i] > g.MM[i] || k == 0 && f.FilledMM[i] < g.MM[i] {
				spills = append(spills, int(end))
				break
			}
			c, r := g.ColRow(i)
			for d := range stepCol {
				col, row := c+stepCol[d], r+stepRow[d]
				if n := row*g.Cols + col; g.Inside(col, row) && f.FilledMM[n] == f.FilledMM[i] && f.Down(n) == i {
					above = append(above, n)
				}
			}
		}
	}
	return spills
}
