package flow

import "siltstep/raster"

// inflowCells lists the cells on the border of the data over which water seems to enter: those that
// drain inward while the ground beyond rises, except local ridges of the border, whose two or more
// neighbours on the border all lie lower.
func inflowCells(cols, rows int, z []int32, dir []uint8, border []uint32) []int {
	var in []int
	for _, i := range border {
		if dir[i]&dirMask > dirNE {
			continue
		}
		c, r := int(i)%cols, int(i)/cols
		v := look(cols, rows, c, r, z)
		if v.risesOutside() && !localRidge(cols, rows, c, r, z) {
			in = append(in, int(i))
		}
	}
	return in
}

func localRidge(cols, rows, c, r int, z []int32) bool {
	v := look(cols, rows, c, r, z)
	beside := 0
	for d := range stepCol {
		if !v.has[d] {
			continue
		}
		n := look(cols, rows, c+stepCol[d], r+stepRow[d], z)
		if n.has == [8]bool{true, true, true, true, true, true, true, true} {
			continue
		}
		if v.z[d] >= v.here {
			return false
		}
		beside++
	}
	return beside >= 2
}

// edgeSpills lists the ends of flow on the border over which standing water leaves: a neighbour on the same
// level that was filled drains to them.
func edgeSpills(cols, rows int, g *raster.Grid, filled []int32, dir []uint8, border []uint32) []int {
	var spills []int
	for _, i := range border {
		if dir[i]&dirMask != dirEnd {
			continue
		}
		c, r := int(i)%cols, int(i)/cols
		v := look(cols, rows, c, r, filled)
		for d := range stepCol {
			n := int(i) + stepRow[d]*cols + stepCol[d]
			if v.has[d] && v.z[d] == v.here && filled[n] > g.MM[n] {
				spills = append(spills, int(i))
				break
			}
		}
	}
	return spills
}
