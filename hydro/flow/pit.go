package flow

import (
	"slices"

	"siltstep/raster"
)

// pitKey orders pits by elevation, then by index.
type pitKey uint64

func keyOfPit(i int, z int32) pitKey { return pitKey(uint32(z)^1<<31)<<32 | pitKey(uint32(i)) }

func (k pitKey) cell() int { return int(uint32(k)) }

func (k pitKey) level() int32 { return int32(uint32(k>>32) ^ 1<<31) }

// pits is what one band of rows holds.
type pits struct {
	keys []pitKey
	edge []uint32 // cells beside a void
}

// listPits returns, in order, the cells without a lower neighbour that may be the first of a closed depression, and
// marks the cells where flow ends in ends: the border of the grid and cells beside voids.
func listPits(cols, rows int, z []int32, ends mask, workers int) []pitKey {
	bands := layBands(rows, 4*workers)
	found := make([]pits, len(bands))
	eachWorker(len(bands), workers, func(next func() (int, bool)) {
		for k, ok := next(); ok; k, ok = next() {
			for r := max(bands[k].from, 1); r < min(bands[k].to, rows-1); r++ {
				found[k].row(cols, r, z)
			}
			slices.Sort(found[k].keys)
		}
	})
	for c := range cols {
		ends.set(c)
		ends.set((rows-1)*cols + c)
	}
	for r := range rows {
		ends.set(r * cols)
		ends.set(r*cols + cols - 1)
	}
	lists := make([][]pitKey, len(found))
	for k := range found {
		for _, i := range found[k].edge {
			ends.set(int(i))
		}
		lists[k] = found[k].keys
	}
	return merged(lists)
}

// merged returns lists that are in order as one.
func merged(lists [][]pitKey) []pitKey {
	for len(lists) > 1 {
		var half [][]pitKey
		for k := 0; k+1 < len(lists); k += 2 {
			half = append(half, mergedPair(lists[k], lists[k+1]))
		}
		if len(lists)%2 == 1 {
			half = append(half, lists[len(lists)-1])
		}
		lists = half
	}
	return lists[0]
}

func mergedPair(a, b []pitKey) []pitKey {
	out := make([]pitKey, 0, len(a)+len(b))
	for len(a) > 0 && len(b) > 0 {
		if a[0] < b[0] {
			out, a = append(out, a[0]), a[1:]
		} else {
			out, b = append(out, b[0]), b[1:]
		}
	}
	return append(append(out, a...), b...)
}

// row lists the pits of one row that is not the first or last. Of a level place only cells are listed that have no
// cell of it before them; the first one of each is among them.
func (p *pits) row(cols, r int, z []int32) {
	n, m, s := z[(r-1)*cols:r*cols], z[r*cols:(r+1)*cols], z[(r+1)*cols:(r+2)*cols]
	n, m, s = n[:cols], m[:cols], s[:cols]
	for c := 1; c < cols-1; c++ {
		here := m[c]
		before := min(n[c-1], n[c], n[c+1], m[c-1])
		lowest := min(before, m[c+1], s[c-1], s[c], s[c+1])
		if lowest == raster.VoidMM {
			if here != raster.VoidMM {
				p.edge = append(p.edge, uint32(r*cols+c))
			}
			continue
		}
		if here < before && here <= lowest && here != raster.VoidMM {
			p.keys = append(p.keys, keyOfPit(r*cols+c, here))
		}
	}
}
