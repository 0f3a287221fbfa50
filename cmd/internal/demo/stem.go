package demo

import (
	"cmp"
	"slices"
)

// stemAreaM2 is the catchment at which a stem begins, m².
const stemAreaM2 = 2500.0

// stem is a valley line of the coarse ground from where it gathers stemAreaM2 down to the
// cell where it meets a larger one, or to where water leaves.
type stem struct {
	cells []int32 // coarse cells running downstream; the last may belong to the receiving stem
	into  int     // position of the receiving stem in the list, or -1
}

// findStems returns the stems of the ground, largest catchment first. At a meeting the
// branch with more land goes on; of equal ones the cell that comes first.
func findStems(r *routing) []stem {
	donor := mainDonors(r)
	var stems []stem
	var ends []float64
	owner := make([]int32, len(r.down))
	for i := range owner {
		owner[i] = -1
	}
	for _, head := range headCells(r, donor) {
		cells := walkStem(r, donor, head)
		for k, c := range cells {
			if k == len(cells)-1 && r.down[c] >= 0 {
				break // the cell of the receiving stem
			}
			owner[c] = int32(len(stems))
		}
		last := max(len(cells)-2, 0)
		if r.down[cells[len(cells)-1]] < 0 {
			last = len(cells) - 1
		}
		stems, ends = append(stems, stem{cells, -1}), append(ends, r.areaM2[cells[last]])
	}
	for k, s := range stems {
		if o := owner[s.cells[len(s.cells)-1]]; o != int32(k) {
			stems[k].into = int(o)
		}
	}
	return bySize(stems, ends)
}

// mainDonors returns, for each cell, the stem cell with most land among those that drain
// to it, or -1.
func mainDonors(r *routing) []int32 {
	donor := make([]int32, len(r.down))
	for i := range donor {
		donor[i] = -1
	}
	for i, d := range r.down {
		if d >= 0 && r.areaM2[i] >= stemAreaM2 && (donor[d] < 0 || r.areaM2[i] > r.areaM2[donor[d]]) {
			donor[d] = int32(i)
		}
	}
	return donor
}

// headCells returns the stem cells that no stem cell drains to.
func headCells(r *routing, donor []int32) []int32 {
	var heads []int32
	for i, a := range r.areaM2 {
		if a >= stemAreaM2 && donor[i] < 0 {
			heads = append(heads, int32(i))
		}
	}
	return heads
}

// walkStem follows a stem from its head to the first cell of the stem it meets, that cell
// included, or to where water leaves.
func walkStem(r *routing, donor []int32, head int32) []int32 {
	cells := []int32{head}
	for c := head; r.down[c] >= 0; c = r.down[c] {
		d := r.down[c]
		cells = append(cells, d)
		if donor[d] != c {
			break
		}
	}
	return cells
}

// bySize sorts stems by catchment and renumbers what they flow into.
func bySize(stems []stem, ends []float64) []stem {
	rank := make([]int, len(stems))
	for k := range rank {
		rank[k] = k
	}
	slices.SortStableFunc(rank, func(a, b int) int { return cmp.Compare(ends[b], ends[a]) })
	place := make([]int, len(stems))
	for k, old := range rank {
		place[old] = k
	}
	sorted := make([]stem, len(stems))
	for k, old := range rank {
		sorted[k] = stems[old]
		if sorted[k].into >= 0 {
			sorted[k].into = place[sorted[k].into]
		}
	}
	return sorted
}
