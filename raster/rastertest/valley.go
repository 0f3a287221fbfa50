package rastertest

import "siltstep/raster"

// Valley returns a V valley along its middle column (the eastern of two where cols is
// even): the bed is bedMM at row 0 and falls by dropMM a row, the sides rise by sideMM a
// column. On 1 m cells water leaves the sides square to the bed where drop < (√2−1)·side;
// a bed cell of row r then gathers cols·(r+1) cells.
func Valley(cols, rows int, bedMM, sideMM, dropMM int32) *raster.Grid {
	mid := cols / 2
	return Surface(cols, rows, 1, func(col, row int) int32 {
		return bedMM + sideMM*int32(abs(col-mid)) - dropMM*int32(row)
	})
}

// Channel returns a V channel of uniform slope along its middle column, running south:
// bed bedM metres at row 0, slope and side as rise over run, cells of cellM metres,
// rounded to whole millimetres. Dams of effective height h stand h/slope apart on it when
// each toe is level with the sill below.
func Channel(cols, rows int, cellM, bedM, slope, side float64) *raster.Grid {
	mid := cols / 2
	return Surface(cols, rows, cellM, func(col, row int) int32 {
		return millimetres(bedM + cellM*(side*float64(abs(col-mid))-slope*float64(row)))
	})
}

// RaiseRow lifts every lower cell of a row to crestMM, as a bank across a valley does.
// Voids stay void. It changes g and returns it.
func RaiseRow(g *raster.Grid, row int, crestMM int32) *raster.Grid {
	for col := range g.Cols {
		if i := g.Index(col, row); g.MM[i] != raster.VoidMM {
			g.MM[i] = max(g.MM[i], crestMM)
		}
	}
	return g
}
