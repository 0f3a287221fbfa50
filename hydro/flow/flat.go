package flow

// Ranks of flat cells are kept above zero, which stands for "not a flat cell".
const rankBase uint32 = 1 << 31

// dirWaiting marks a flat cell whose distance from the low edge is known.
const dirWaiting uint8 = 11

// flats drains the cells that have no lower neighbour. Each flat (touching cells of one
// level) has a low edge: cells that already have a direction. With T the distance from low edges
// and A the distance from higher ground that never enters a low edge, both in cells, every
// other cell goes to the neighbour in the flat where 2T − A is least; low edges
// rank below all. Equal ranks are settled by the tie order. Method: Barnes2014Flats, after
// GarbrechtMartz1997, without the constant of each flat.
//
// A flat cell never lies on the border of the grid or beside a void, so all its neighbours exist.
type flats struct {
	z     []int32
	dir   []uint8
	rank  []uint32 // rankBase + 2T − A of flat cells, zero elsewhere
	cells []uint32 // the flat cells, ascending
	queue []uint32
	off   [8]int
}

// drainFlats directs the listed cells. rank is memory of one word a cell, all zero; it is left so.
func drainFlats(cols int, z []int32, dir []uint8, rank []uint32, cells []uint32, workers int) {
	if len(cells) == 0 {
		return
	}
	f := flats{z: z, dir: dir, rank: rank, cells: cells, queue: make([]uint32, 0, len(cells))}
	for d := range f.off {
		f.off[d] = stepRow[d]*cols + stepCol[d]
	}
	f.fromHigh()
	f.fromLow()
	parts := layBands(len(cells), 16*workers)
	eachWorker(len(parts), workers, func(next func() (int, bool)) {
		for k, ok := next(); ok; k, ok = next() {
			for _, i := range cells[parts[k].from:parts[k].to] {
				dir[i] = f.leastRank(int(i))
			}
		}
	})
	for _, i := range cells {
		rank[i] = 0
	}
}

// fromHigh sets rank to rankBase − A, where A is 1 beside higher ground.
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
		level, next := f.z[i], f.rank[i]-1
		for _, o := range f.off {
			n := i + o
			if f.z[n] == level && f.rank[n] == 0 && f.dir[n] == dirFlat {
				f.rank[n] = next
				q = append(q, uint32(n))
			}
		}
	}
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
		to := len(q)
		for ; from < to; from++ {
			i := int(q[from])
			if f.rank[i] == 0 {
				f.rank[i] = rankBase
			}
			f.rank[i] += 2 * t
			for _, o := range f.off {
				n := i + o
				if f.dir[n] == dirFlat && f.z[n] == f.z[i] {
					f.dir[n] = dirWaiting
					q = append(q, uint32(n))
				}
			}
		}
	}
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

// leastRank returns the direction of the lowest-ranking neighbour on the same level. Ranks
// tell flat cells from low edges here, as directions are being written by other workers.
func (f *flats) leastRank(i int) uint8 {
	best, code := ^uint32(0), dirFlat
	for d, o := range f.off {
		if n := i + o; f.z[n] == f.z[i] && f.rank[n] < best {
			best, code = f.rank[n], uint8(d)
		}
	}
	return code
}
