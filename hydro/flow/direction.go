package flow

import "siltstep/raster"

// dirFlat marks a cell without a lower neighbour until flats are drained.
const dirFlat uint8 = 10

// directed is what one band of rows leaves for the rest of the stage.
type directed struct {
	flat   []uint32 // cells without a lower neighbour, ascending
	border []uint32 // cells that touch the border of the grid or a void, ascending
}

// directions gives every cell of a filled surface a direction: the steepest of its eight
// neighbours, an end of flow by the border rule, or the way through a flat. It returns a code a cell,
// and the cells on the border of the grid or beside voids. ends are more cells where flow ends.
// Method: OCallaghanMark1984; flats by Barnes2014Flats; the border rule is our own.
func directions(cols, rows int, filled []int32, ends []int, scratch []uint32, workers int) (dir []uint8, border []uint32) {
	dir = make([]uint8, len(filled))
	bands := layBands(rows, 4*workers)
	found := make([]directed, len(bands))
	eachWorker(len(bands), workers, func(next func() (int, bool)) {
		for k, ok := next(); ok; k, ok = next() {
			for r := bands[k].from; r < bands[k].to; r++ {
				directRow(cols, rows, r, filled, dir, &found[k])
			}
		}
	})
	for _, i := range ends {
		dir[i] = dirEnd
	}
	drainFlats(cols, filled, dir, scratch, bands, found, workers)
	for _, f := range found {
		border = append(border, f.border...)
	}
	return dir, border
}

// band is a run of rows.
type band struct{ from, to int }

// layBands cuts rows into at most n bands of nearly equal height.
func layBands(rows, n int) []band {
	n = max(1, min(n, rows))
	bands := make([]band, n)
	for k := range bands {
		bands[k] = band{rows * k / n, rows * (k + 1) / n}
	}
	return bands
}

// keyShift leaves room for a direction below an elevation, so that the least key is the lowest
// neighbour, and the first in the tie order among equals.
const keyShift = 3

func keyed(z int32, code uint8) int64 { return int64(z)<<keyShift | int64(code) }

// directRow directs the cells of one row. The steepest neighbour is the lowest of the four
// beside a cell or the lowest of the four at its corners, which wins only if its drop over √2 is larger:
// compared in squares, so exactly.
func directRow(cols, rows, r int, z []int32, dir []uint8, out *directed) {
	if r == 0 || r == rows-1 || cols < 3 {
		for c := range cols {
			directBorder(cols, rows, c, r, z, dir, out)
		}
		return
	}
	directBorder(cols, rows, 0, r, z, dir, out)
	n, m, s := z[(r-1)*cols:r*cols], z[r*cols:(r+1)*cols], z[(r+1)*cols:(r+2)*cols]
	codes := dir[r*cols : (r+1)*cols]
	n, m, s, codes = n[:cols], m[:cols], s[:cols], codes[:cols]
	for c := 1; c < cols-1; c++ {
		side := min(keyed(m[c+1], dirE), keyed(s[c], dirS), keyed(m[c-1], dirW), keyed(n[c], dirN))
		corner := min(keyed(s[c+1], dirSE), keyed(s[c-1], dirSW), keyed(n[c-1], dirNW), keyed(n[c+1], dirNE))
		here := int64(m[c])
		if min(side>>keyShift, corner>>keyShift, here) == int64(raster.VoidMM) {
			directBorder(cols, rows, c, r, z, dir, out)
			continue
		}
		a, b := max(0, here-side>>keyShift), max(0, here-corner>>keyShift)
		if a|b == 0 {
			codes[c] = dirFlat
			out.flat = append(out.flat, uint32(r*cols+c))
			continue
		}
		if b*b > 2*a*a {
			side = corner
		}
		codes[c] = uint8(side & (1<<keyShift - 1))
	}
	directBorder(cols, rows, cols-1, r, z, dir, out)
}
