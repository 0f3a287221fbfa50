package flow

import (
	"math/bits"

	"siltstep/raster"
)

// directBorder directs a cell that touches the border of the grid or a void.
//
// The slope beyond is guessed from the gradient at the cell: central where both neighbours on an
// axis exist, one-sided where one does. A direction that leaves the data counts if the ground falls
// along an axis on which it leaves; one through a gap at a corner only counts if it falls. Flow ends
// here if no neighbour is lower, or if the way out is at least as steep as the steepest way in.
func directBorder(cols, rows, c, r int, z []int32, dir []uint8, out *directed) {
	i := r*cols + c
	if z[i] == raster.VoidMM {
		dir[i] = dirVoid
		return
	}
	out.border = append(out.border, uint32(i))
	v := look(cols, rows, c, r, z)
	in, best := steepness{}, dirEnd
	for d := range stepCol {
		if drop := v.drop(d); v.has[d] && drop > 0 {
			if s := steepnessOf(2*drop, d); in.less(s) {
				in, best = s, uint8(d)
			}
		}
	}
	if best == dirEnd || !v.steepestOut().less(in) {
		dir[i] = dirEnd
		return
	}
	dir[i] = best
}

// view is a cell on the border with its neighbours.
type view struct {
	here int32
	has  [8]bool
	z    [8]int32
}

func look(cols, rows, c, r int, z []int32) view {
	v := view{here: z[r*cols+c]}
	for d := range stepCol {
		col, row := c+stepCol[d], r+stepRow[d]
		if col < 0 || row < 0 || col >= cols || row >= rows {
			continue
		}
		if n := z[row*cols+col]; n != raster.VoidMM {
			v.has[d], v.z[d] = true, n
		}
	}
	return v
}

func (v *view) drop(d int) int64 { return int64(v.here) - int64(v.z[d]) }

// fall returns how far the ground falls over one cell towards a side (E, S, W or N), in half
// millimetres, by the gradient along that axis.
func (v *view) fall(d uint8) int64 {
	back := d ^ 2 // the codes of opposite sides differ by 2
	switch {
	case v.has[d] && v.has[back]:
		return v.drop(int(d)) - v.drop(int(back))
	case v.has[d]:
		return 2 * v.drop(int(d))
	case v.has[back]:
		return -2 * v.drop(int(back))
	}
	return 0
}

// sides lists, for each direction, the sides it goes towards: one, or two for a corner.
var sides = [8][]uint8{{dirE}, {dirS}, {dirW}, {dirN}, {dirE, dirS}, {dirW, dirS}, {dirW, dirN}, {dirE, dirN}}

// steepestOut returns the steepest way out of the data that counts; zero where none does.
func (v *view) steepestOut() steepness {
	best := steepness{}
	for d := range stepCol {
		if v.has[d] {
			continue
		}
		var fall int64
		leaves, falls := false, false
		for _, side := range sides[d] {
			f := v.fall(side)
			fall += f
			if !v.has[side] {
				leaves = true
				falls = falls || f > 0
			}
		}
		if fall > 0 && (falls || !leaves) {
			if s := steepnessOf(fall, d); best.less(s) {
				best = s
			}
		}
	}
	return best
}

// risesOutside reports whether the ground seems to rise beyond a side on which the data ends.
func (v *view) risesOutside() bool {
	for side := dirE; side <= dirN; side++ {
		if !v.has[side] && v.fall(side) < 0 {
			return true
		}
	}
	return false
}

// steepness orders slopes exactly: twice the square of the drop over one cell, in 128 bits.
type steepness struct{ hi, lo uint64 }

// steepnessOf returns the steepness of a positive drop in half millimetres in a direction.
func steepnessOf(drop int64, d int) steepness {
	hi, lo := bits.Mul64(uint64(drop), uint64(drop))
	if uint8(d) <= dirN {
		return steepness{hi<<1 | lo>>63, lo << 1}
	}
	return steepness{hi, lo}
}

func (s steepness) less(t steepness) bool {
	return s.hi < t.hi || s.hi == t.hi && s.lo < t.lo
}
