package flow

import (
	"errors"
	"fmt"
	"math/bits"
)

// ErrWeights marks an error whose cause is that weights add up to more than 64 bits hold: errors.Is(err, ErrWeights) is true.
var ErrWeights = errors.New("flow: weights add up to more than 64 bits hold")

// doneBit marks, in the working copy of a direction, a cell whose water was handed on.
const doneBit = truncatedBit

// AccumulateWeights returns, for every cell, the sum of the weights of the cells that drain through it, its own
// included; 0 where there is no data. Weights are whole numbers, say runoff in mm: sums are exact and do not depend on the number
// of workers; 0 workers is one. inflows are the weights of the land above each of Settled, in its order, say its Cells times a
// mean runoff; nil where none is to be added. Errors: ErrWeights. It panics where there is not one weight a cell, or one a declared
// inflow. Method and cost as for plain catchments: ZhouWeiFu2019, linear; 9 bytes a cell.
func (f *Field) AccumulateWeights(weights []uint32, inflows []uint64, workers int) ([]uint64, error) {
	if len(weights) != len(f.dir) {
		panic(fmt.Sprintf("flow: %d weights for %d cells", len(weights), len(f.dir)))
	}
	if inflows != nil && len(inflows) != len(f.Settled) {
		panic(fmt.Sprintf("flow: %d weights for %d inflows", len(inflows), len(f.Settled)))
	}
	w := weighing{dir: make([]uint8, len(f.dir)), sums: make([]uint64, len(f.dir))}
	for d := range w.off {
		w.off[d] = stepRow[d]*f.Cols + stepCol[d]
	}
	w.run(f, weights, max(workers, 1))
	for k, add := range inflows {
		for i := f.Settled[k].Cell; i >= 0; i = f.Down(i) {
			sum, carry := bits.Add64(w.sums[i], add, 0)
			if carry != 0 {
				return nil, fmt.Errorf("inflow %d of weight %d: %w", k+1, add, ErrWeights)
			}
			w.sums[i] = sum
		}
	}
	return w.sums, nil
}

// weighing adds up weights. Sums of cells alone fit: 2^31 of at most 2^32.
type weighing struct {
	dir  []uint8
	sums []uint64
	off  [8]int
}

// handing is weight that leaves one band of rows for another.
type handing struct {
	to  int
	sum uint64
}

// run walks bands of rows apart and joins them by what crosses between them, as accumulate does.
func (w *weighing) run(f *Field, weights []uint32, workers int) {
	bands := layBands(f.Rows, min(workers, f.Rows/16))
	each := func(work func(k int, b band)) {
		eachWorker(len(bands), workers, func(next func() (int, bool)) {
			for k, ok := next(); ok; k, ok = next() {
				work(k, band{bands[k].from * f.Cols, bands[k].to * f.Cols})
			}
		})
	}
	each(func(_ int, b band) {
		for i := b.from; i < b.to; i++ {
			if w.dir[i] = f.dir[i] & dirMask; w.dir[i] != dirVoid {
				w.sums[i] = uint64(weights[i])
			}
		}
	})
	each(func(_ int, b band) { // rows whose water stays in the band
		w.await(band{b.from + f.Cols, b.to - f.Cols})
	})
	for _, b := range bands {
		w.await(band{b.from * f.Cols, (b.from + 1) * f.Cols})
		if b.to-1 > b.from {
			w.await(band{(b.to - 1) * f.Cols, b.to * f.Cols})
		}
	}
	left := make([][]handing, len(bands))
	each(func(k int, b band) {
		for i := b.from; i < b.to; i++ {
			if w.dir[i]&(waitMask|doneBit) != 0 || w.dir[i] == dirVoid {
				continue
			}
			if h, crossed := w.walk(i, b); crossed {
				left[k] = append(left[k], h)
			}
		}
	})
	for _, some := range left {
		for _, h := range some {
			if w.hand(h) {
				w.walk(h.to, band{0, len(w.dir)})
			}
		}
	}
}

// await counts, on each cell, the neighbours in a run of cells that drain to it. An end of flow waits for nothing.
func (w *weighing) await(b band) {
	for i := b.from; i < b.to; i++ {
		if d := w.dir[i] & dirMask; d <= dirNE {
			if to := i + w.off[d]; w.dir[to]&dirMask != dirEnd {
				w.dir[to] += waitOne
			}
		}
	}
}

// walk hands weight on from a cell that waits for nothing, until it ends, must wait, or leaves the run of cells.
func (w *weighing) walk(i int, b band) (handing, bool) {
	for {
		w.dir[i] |= doneBit
		d := w.dir[i] & dirMask
		if d > dirNE {
			return handing{}, false
		}
		h := handing{i + w.off[d], w.sums[i]}
		if h.to < b.from || h.to >= b.to {
			return h, true
		}
		if !w.hand(h) {
			return handing{}, false
		}
		i = h.to
	}
}

// hand gives weight to a cell and reports whether it waits for no more.
func (w *weighing) hand(h handing) bool {
	w.sums[h.to] += h.sum
	if w.dir[h.to]&dirMask == dirEnd {
		return false
	}
	w.dir[h.to] -= waitOne
	return w.dir[h.to]&waitMask == 0
}
