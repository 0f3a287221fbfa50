package flow

import (
	"errors"
	"fmt"
	"math"
	"slices"

	"siltstep/raster"
)

// inflowSnapM is how far from where it was given an inflow may enter, m. Own choice, as for other points given by hand.
const inflowSnapM = 25.0

// Settled says where a declared inflow enters.
type Settled struct {
	Inflow  Inflow
	Cell    int     // the border cell where it enters: the first one up the main stem from Through
	Through int     // the largest catchment within 25 m of the place given that water enters over the edge of the data
	MovedM  float64 // from the place given to the stem between Cell and Through
	Cells   uint32  // whole cells added to Cell and everything downstream of it
	Borders int     // border cells of inflow that drain through Through and are settled by this
}

// ErrInflow marks an error whose cause is a declared inflow: errors.Is(err, ErrInflow) is true. It is never returned
// by itself.
var ErrInflow = errors.New("flow: a declared inflow does not fit the data")

type inflowError string

func (e inflowError) Error() string        { return string(e) }
func (e inflowError) Is(target error) bool { return target == ErrInflow }

func inflowFault(format string, args ...any) error { return inflowError(fmt.Sprintf(format, args...)) }

// settle adds the catchments of declared inflows, and takes the border cells upstream of where they enter off
// Inflow: what is left of truncation is marked anew. All are placed before any is added; catchments add up, so each is
// to be given once. Errors name the inflow by its number.
func (f *Field) settle(t raster.Transform, inflows []Inflow) error {
	if len(inflows) == 0 {
		return nil
	}
	settled := newMask(len(f.dir))
	for k, in := range inflows {
		s, ok := f.enter(t, in)
		if !ok {
			return inflowFault("inflow %d at x %.1f, y %.1f m: no water enters over the edge of the data in a drainage within %g m; move the point to the channel, or take it out", k+1, in.X, in.Y, inflowSnapM)
		}
		f.Settled = append(f.Settled, s)
	}
	for k := range f.Settled {
		s := &f.Settled[k]
		s.Borders = f.settleAbove(s.Through, settled)
		for i := s.Cell; i >= 0; i = f.Down(i) {
			if uint64(f.Cells[i])+uint64(s.Cells) > math.MaxUint32 {
				return inflowFault("inflow %d: a catchment of %g m² is more cells than can be counted", k+1, s.Inflow.CatchmentM2)
			}
			f.Cells[i] += s.Cells
		}
	}
	f.Inflow = slices.DeleteFunc(f.Inflow, settled.has)
	f.markTruncated()
	return nil
}

// enter finds where an inflow enters.
func (f *Field) enter(t raster.Transform, in Inflow) (Settled, bool) {
	s := Settled{Inflow: in, Through: -1}
	cells := math.Round(in.CatchmentM2 / (t.CellM * t.CellM))
	s.Cells = uint32(min(cells, math.MaxUint32))
	away := func(i int) float64 {
		x, y := t.Center(i%f.Cols, i/f.Cols)
		return math.Hypot(x-in.X, y-in.Y)
	}
	col, row := t.ColRow(in.X, in.Y)
	reach := int(inflowSnapM/t.CellM) + 1
	for r := max(row-reach, 0); r <= min(row+reach, f.Rows-1); r++ {
		for c := max(col-reach, 0); c <= min(col+reach, f.Cols-1); c++ {
			if i := r*f.Cols + c; f.Truncated(i) && away(i) <= inflowSnapM && (s.Through < 0 || f.Cells[i] > f.Cells[s.Through]) {
				s.Through = i
			}
		}
	}
	if s.Through < 0 {
		return s, false
	}
	s.MovedM = away(s.Through)
	for i, ok := s.Through, true; ok; i, ok = f.mainInflow(i) {
		s.Cell, s.MovedM = i, min(s.MovedM, away(i))
		if _, enters := slices.BinarySearch(f.Inflow, i); enters {
			break
		}
	}
	return s, true
}

// mainInflow returns the neighbour with the largest catchment that drains to a cell and is truncated.
func (f *Field) mainInflow(i int) (up int, ok bool) {
	up = -1
	f.eachInflow(i, func(n int) {
		if up < 0 || f.Cells[n] > f.Cells[up] {
			up = n
		}
	})
	return up, up >= 0
}

// eachInflow visits the truncated neighbours that drain to a cell.
func (f *Field) eachInflow(i int, visit func(up int)) {
	col, row := i%f.Cols, i/f.Cols
	for d := range stepCol {
		c, r := col+stepCol[d], row+stepRow[d]
		if c < 0 || r < 0 || c >= f.Cols || r >= f.Rows {
			continue
		}
		if up := r*f.Cols + c; f.Truncated(up) && f.Down(up) == i {
			visit(up)
		}
	}
}

// settleAbove marks the border cells of inflow that drain through a cell and counts them.
func (f *Field) settleAbove(cell int, settled mask) (n int) {
	above := []int{cell}
	for len(above) > 0 {
		i := above[len(above)-1]
		above = above[:len(above)-1]
		if _, enters := slices.BinarySearch(f.Inflow, i); enters {
			settled.set(i)
			n++
		}
		f.eachInflow(i, func(up int) { above = append(above, up) })
	}
	return n
}

// markTruncated marks what lies downstream of Inflow, and nothing else.
func (f *Field) markTruncated() {
	for i := range f.dir {
		f.dir[i] &^= truncatedBit
	}
	for _, i := range f.Inflow {
		for at := i; at >= 0 && !f.Truncated(at); at = f.Down(at) {
			f.dir[at] |= truncatedBit
		}
	}
}
