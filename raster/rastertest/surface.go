package rastertest

import (
	"math"

	"siltstep/raster"
)

// Outer north-west corner of every landform: plausible in any UTM zone, m.
const (
	CornerX = 500_000.0
	CornerY = 4_000_000.0
)

// mmPerM is how many millimetres a metre has.
const mmPerM = 1000

// Surface returns a grid of square cells whose elevations, in millimetres, are told by z.
func Surface(cols, rows int, cellM float64, z func(col, row int) int32) *raster.Grid {
	g := raster.New(cols, rows, raster.Transform{OriginX: CornerX, OriginY: CornerY, CellM: cellM})
	for i := range g.MM {
		g.MM[i] = z(g.ColRow(i))
	}
	return g
}

// Of returns a grid with the elevations written row by row, in millimetres; all rows must
// have the length of the first.
func Of(rows ...[]int32) *raster.Grid {
	for _, r := range rows {
		if len(r) != len(rows[0]) {
			panic("rastertest: rows of unequal length")
		}
	}
	return Surface(len(rows[0]), len(rows), 1, func(col, row int) int32 { return rows[row][col] })
}

// Plane returns a plane that is topMM at the north-west cell and falls by eastMM a column
// and southMM a row. Flow is S where eastMM < (√2−1)·southMM, SE from there to the diagonal.
func Plane(cols, rows int, topMM, eastMM, southMM int32) *raster.Grid {
	return Surface(cols, rows, 1, func(col, row int) int32 {
		return topMM - eastMM*int32(col) - southMM*int32(row)
	})
}

// Saddle returns z = row·col metres with both counted from the middle cell, on a square of
// side 2·half+1: two corners low, two high, no depression.
func Saddle(half int) *raster.Grid {
	side := 2*half + 1
	return Surface(side, side, 1, func(col, row int) int32 {
		return int32((row-half)*(col-half)) * mmPerM
	})
}

// abs is the distance of a column or row from zero.
func abs(n int) int { return max(n, -n) }

// millimetres rounds metres to whole millimetres, half away from zero.
func millimetres(m float64) int32 { return int32(math.Round(m * mmPerM)) }
