package channel

import "siltstep/hydro/flow"

// markTruncated counts, for each drainage, the border cells over which water enters its
// catchment. Each is followed down to the first channel cell; it counts for the drainage
// there and for every drainage that one leads into, since catchments nest. Water that
// meets no channel counts for none. The count is above zero exactly where
// flow.Field.Truncated holds at the last cell.
func (t tree) markTruncated(drainages []Drainage, f *flow.Field) {
	if len(f.Inflow) == 0 {
		return
	}
	owner := t.owners(drainages)
	for _, i := range f.Inflow {
		if p := t.entry(f, i); p >= 0 {
			drainages[owner[p]].TruncatedCells++
		}
	}
	passDown(drainages)
}

// owners returns the drainage of every place.
func (t tree) owners(drainages []Drainage) []int32 {
	owner := make([]int32, len(t.cell))
	for n := range drainages {
		for _, cell := range drainages[n].Cells {
			owner[t.place(cell)] = int32(n)
		}
	}
	return owner
}

// entry returns the place at which water of a cell first meets channel, or -1.
func (t tree) entry(f *flow.Field, cell int) int {
	for ; cell >= 0; cell = f.Down(cell) {
		if f.Cells[cell] < MinStartCells {
			continue
		}
		if p := t.place(cell); p >= 0 {
			return p
		}
	}
	return -1
}

// passDown adds the count of each drainage to the one it leads into. The receiving one has
// the larger catchment, so it stands before its tributaries.
func passDown(drainages []Drainage) {
	for n := len(drainages) - 1; n >= 0; n-- {
		d := &drainages[n]
		d.Truncated = d.TruncatedCells > 0
		if d.Into >= 0 {
			drainages[d.Into].TruncatedCells += d.TruncatedCells
		}
	}
}
