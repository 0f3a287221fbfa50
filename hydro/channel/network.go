package channel

import (
	"slices"

	"siltstep/hydro/flow"
)

// Network is all channel of a grid.
type Network struct {
	Links     []Link     // upstream before downstream: by catchment of the first cell, then cell index
	Drainages []Drainage // by catchment, largest first
}

// tree holds the channel cells of a grid, sparse: three slices side by side. A place is a
// position in them.
type tree struct {
	cols int      // columns of the grid
	cell []int    // cell indexes, ascending
	down []int32  // place of the next channel cell downstream, or -1
	area []uint32 // catchment in cells; rises from each place to the next down
}

// collect returns the cells with a catchment of at least startCells.
func collect(f *flow.Field, startCells uint32) tree {
	n := 0
	for _, a := range f.Cells {
		if a >= startCells {
			n++
		}
	}
	t := tree{cols: f.Cols, cell: make([]int, 0, n), down: make([]int32, n), area: make([]uint32, 0, n)}
	for i, a := range f.Cells {
		if a >= startCells {
			t.cell = append(t.cell, i)
			t.area = append(t.area, a)
		}
	}
	for p, i := range t.cell {
		t.down[p] = -1
		if next := f.Down(i); next >= 0 {
			t.down[p] = int32(t.place(next))
		}
	}
	return t
}

// place returns where a cell stands in the tree, or -1 where it is no channel.
func (t tree) place(cell int) int {
	if p, ok := slices.BinarySearch(t.cell, cell); ok {
		return p
	}
	return -1
}

// areaAt returns the catchment of a channel cell, in cells.
func (t tree) areaAt(cell int) uint32 { return t.area[t.place(cell)] }

// inflows returns how many channel cells drain straight into each place.
func (t tree) inflows() []uint8 {
	n := make([]uint8, len(t.cell))
	for _, d := range t.down {
		if d >= 0 {
			n[d]++
		}
	}
	return n
}

// without returns the tree less the places that are set in gone. Whatever drains into a
// place that goes must go too.
func (t tree) without(gone []bool) tree {
	moved := make([]int32, len(t.cell))
	n := int32(0)
	for p := range t.cell {
		moved[p] = -1
		if !gone[p] {
			moved[p] = n
			n++
		}
	}
	rest := tree{cols: t.cols, cell: make([]int, 0, n), down: make([]int32, 0, n), area: make([]uint32, 0, n)}
	for p, cell := range t.cell {
		if gone[p] {
			continue
		}
		down := t.down[p]
		if down >= 0 {
			down = moved[down]
		}
		rest.cell = append(rest.cell, cell)
		rest.down = append(rest.down, down)
		rest.area = append(rest.area, t.area[p])
	}
	return rest
}
