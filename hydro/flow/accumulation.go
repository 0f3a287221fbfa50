package flow

// While flow is added up a direction byte also holds, above its code, how many neighbours
// still have to hand on their water: 7 at most, since a cell that all eight drain to is an end of flow, and those wait
// for nothing.
const (
	waitShift = 4
	waitOne   = uint8(1) << waitShift
	waitMask  = uint8(7) << waitShift
)

// crossing is water that leaves one band of rows for another.
type crossing struct {
	to    int
	cells uint32
	flag  uint8
}

// accumulate adds up, for every cell, the cells that drain through it, and carries the
// truncated flag of the inflow cells down with them. cells must be zero and is filled in. From each cell
// without inflow the water is followed down for as long as nothing else is awaited. Method:
// ZhouWeiFu2019; bands of rows are walked apart and joined by what crosses between them. Sums of whole
// numbers do not depend on order.
func accumulate(cols, rows int, dir []uint8, cells []uint32, inflow []int, workers int) {
	for _, i := range inflow {
		dir[i] |= truncatedBit
	}
	a := accumulation{dir: dir, cells: cells}
	for d := range a.off {
		a.off[d] = stepRow[d]*cols + stepCol[d]
	}
	n := min(workers, rows/16)
	bands := layBands(rows, n)
	inner := func(b band) band { return band{(b.from + 1) * cols, (b.to - 1) * cols} }
	eachWorker(len(bands), workers, func(next func() (int, bool)) {
		for k, ok := next(); ok; k, ok = next() {
			if b := inner(bands[k]); b.from < b.to {
				a.await(b)
			}
		}
	})
	for _, b := range bands { // rows whose water may go into another band
		a.await(band{b.from * cols, (b.from + 1) * cols})
		if b.to-1 > b.from {
			a.await(band{(b.to - 1) * cols, b.to * cols})
		}
	}
	left := make([][]crossing, len(bands))
	eachWorker(len(bands), workers, func(next func() (int, bool)) {
		for k, ok := next(); ok; k, ok = next() {
			left[k] = a.walkBand(band{bands[k].from * cols, bands[k].to * cols})
		}
	})
	whole := band{0, len(dir)}
	for _, some := range left {
		for _, c := range some {
			if a.hand(c) {
				a.walk(c.to, whole)
			}
		}
	}
}

type accumulation struct {
	dir   []uint8
	cells []uint32
	off   [8]int
}

// await counts, on each cell, the neighbours in a run of cells that drain to it.
func (a *accumulation) await(b band) {
	for i := b.from; i < b.to; i++ {
		if d := a.dir[i] & dirMask; d <= dirNE {
			if to := i + a.off[d]; a.dir[to]&dirMask != dirEnd {
				a.dir[to] += waitOne
			}
		}
	}
}

// walkBand follows water from every source of a run of cells and returns what leaves it.
func (a *accumulation) walkBand(b band) []crossing {
	var left []crossing
	for i := b.from; i < b.to; i++ {
		if a.dir[i]&waitMask == 0 && a.cells[i] == 0 && a.dir[i]&dirMask != dirVoid {
			if c, crossed := a.walk(i, b); crossed {
				left = append(left, c)
			}
		}
	}
	return left
}

// walk follows the water of a cell that awaits nothing, until it ends, must wait, or leaves
// the run of cells.
func (a *accumulation) walk(i int, b band) (crossing, bool) {
	for {
		a.cells[i]++
		d := a.dir[i] & dirMask
		if d > dirNE {
			return crossing{}, false
		}
		c := crossing{i + a.off[d], a.cells[i], a.dir[i] & truncatedBit}
		if c.to < b.from || c.to >= b.to {
			return c, true
		}
		if !a.hand(c) {
			return crossing{}, false
		}
		i = c.to
	}
}

// hand gives water to a cell and reports whether it awaits no more.
func (a *accumulation) hand(c crossing) bool {
	if a.dir[c.to]&dirMask == dirEnd {
		if a.cells[c.to] == 0 {
			a.cells[c.to] = 1
		}
		a.cells[c.to] += c.cells
		a.dir[c.to] |= c.flag
		return false
	}
	a.cells[c.to] += c.cells
	a.dir[c.to] = (a.dir[c.to] - waitOne) | c.flag
	return a.dir[c.to]&waitMask == 0
}
