package flow

// Ranks of flat cells; zero stands for a cell that is in no flat.
const (
	rankFound uint32 = 1       // in the flat, nothing known yet
	rankLater uint32 = 2       // in a flat that was put off
	rankBase  uint32 = 1 << 31 // plus 2T − A
)

// dirWaiting marks a flat cell whose distance from the low edge is known.
const dirWaiting uint8 = 11

// flats drains cells that have no lower neighbour, one flat after the other. A flat (touching cells
// of one level) has a low edge: cells that already have a direction. With T the distance from low
// edges and A the distance from higher ground that never enters a low edge, both in cells, every
// other cell goes to the neighbour in the flat where 2T − A is least; low edges
// rank below all. Equal ranks are settled by the tie order. Method: Barnes2014Flats, after
// GarbrechtMartz1997, without the constant of each flat.
//
// A cell without a lower neighbour never lies on the border of the grid or beside a void, so all its
// neighbours exist.
type flats struct {
	z     []int32
	dir   []uint8
	rank  []uint32 // of the cells of the flat at hand; zero elsewhere
	cells []uint32 // the flat at hand
	queue []uint32
	off   [8]int
}

// drainFlats directs the cells that were found without a lower neighbour. rank is memory of one word
// a cell, all zero; it is left so. Flats inside one band of rows are drained band by band, the others after.
func drainFlats(cols int, z []int32, dir []uint8, rank []uint32, bands []band, found []directed, workers int) {
	var off [8]int
	for d := range off {
		off[d] = stepRow[d]*cols + stepCol[d]
	}
	later := make([][]uint32, len(bands))
	eachWorker(len(bands), workers, func(next func() (int, bool)) {
		f := flats{z: z, dir: dir, rank: rank, off: off}
		for k, ok := next(); ok; k, ok = next() {
			within := band{bands[k].from * cols, bands[k].to * cols}
			for _, i := range found[k].flat {
				if !f.drain(i, within) {
					later[k] = append(later[k], i)
				}
			}
		}
	})
	f := flats{z: z, dir: dir, rank: rank, off: off}
	for _, some := range later {
		for _, i := range some {
			f.drain(i, f.whole())
		}
	}
}

// drain directs the flat of a cell, unless that was done or put off before. Where the flat leaves the
// run of cells it reports false and puts it off.
func (f *flats) drain(i uint32, within band) bool {
	if f.dir[i] != dirFlat || f.rank[i] == rankLater && within != f.whole() {
		return true
	}
	inside := f.gather(i, within)
	leave := rankLater
	if inside {
		leave = 0
		f.fromHigh()
		f.fromLow()
		for _, i := range f.cells {
			f.dir[i] = f.leastRank(int(i))
		}
	}
	for _, i := range f.cells {
		f.rank[i] = leave
	}
	return inside
}

func (f *flats) whole() band { return band{0, len(f.z)} }

// gather lists the flat of a cell within a run of cells; false where it goes on beyond. Nothing outside
// the run is being written where it looks: a flat that reaches into two runs is put off by both.
func (f *flats) gather(i uint32, within band) bool {
	f.cells = append(f.cells[:0], i)
	f.rank[i] = rankFound
	level, inside := f.z[i], true
	for k := 0; k < len(f.cells); k++ {
		for _, o := range f.off {
			n := int(f.cells[k]) + o
			switch {
			case f.z[n] != level:
			case n < within.from || n >= within.to:
				inside = inside && f.dir[n] != dirFlat
			case f.dir[n] == dirFlat && f.rank[n] != rankFound:
				f.rank[n] = rankFound
				f.cells = append(f.cells, uint32(n))
			}
		}
	}
	return inside
}

// fromHigh sets rank to rankBase − A, where A is 1 beside higher ground, and to rankBase where no such
// ground is reached.
func (f *flats) fromHigh() {
	q := f.queue[:0]
	for _, i := range f.cells {
		if f.besideHigher(int(i)) {
			f.rank[i] = rankBase - 1
			q = append(q, i)
		}
	}
	for k := 0; k < len(q); k++ {
		i := int(q[k])
		next := f.rank[i] - 1
		for _, o := range f.off {
			if n := i + o; f.rank[n] == rankFound {
				f.rank[n] = next
				q = append(q, uint32(n))
			}
		}
	}
	for _, i := range f.cells {
		if f.rank[i] == rankFound {
			f.rank[i] = rankBase
		}
	}
	f.queue = q
}

// fromLow adds 2T to rank, where T is 1 on low edges.
func (f *flats) fromLow() {
	q := f.queue[:0]
	for _, i := range f.cells {
		if f.besideLowEdge(int(i)) {
			q = append(q, i)
		}
	}
	for _, i := range q {
		f.dir[i] = dirWaiting
	}
	for from, t := 0, uint32(2); from < len(q); t++ {
		for to := len(q); from < to; from++ {
			i := int(q[from])
			f.rank[i] += 2 * t
			for _, o := range f.off {
				if n := i + o; f.dir[n] == dirFlat && f.z[n] == f.z[i] {
					f.dir[n] = dirWaiting
					q = append(q, uint32(n))
				}
			}
		}
	}
	f.queue = q
}

func (f *flats) besideHigher(i int) bool {
	for _, o := range f.off {
		if f.z[i+o] > f.z[i] {
			return true
		}
	}
	return false
}

func (f *flats) besideLowEdge(i int) bool {
	for _, o := range f.off {
		if f.z[i+o] == f.z[i] && f.dir[i+o] <= dirEnd {
			return true
		}
	}
	return false
}

// leastRank returns the direction of the lowest-ranking neighbour on the same level; low edges, with
// rank zero, come before the cells of the flat.
func (f *flats) leastRank(i int) uint8 {
	best, code := ^uint32(0), dirFlat
	for d, o := range f.off {
		if n := i + o; f.z[n] == f.z[i] && f.rank[n] < best {
			best, code = f.rank[n], uint8(d)
		}
	}
	return code
}
