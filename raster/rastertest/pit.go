package rastertest

import (
	"math"

	"siltstep/raster"
)

// PyramidPit returns a square pit in a level plain at zero: radius metres deep in the
// middle, rising 1 m a cell to the rim, with one cell of plain around it. Filled, it takes
// m + 4m(m²−1)/3 m³ in (2m−1)² cells for radius m: the ring k cells out has 8k cells of
// depth m−k, and 1 cell of depth m lies in the middle.
func PyramidPit(radius int) *raster.Grid {
	side := 2*radius + 3
	mid := radius + 1
	return Surface(side, side, 1, func(col, row int) int32 {
		ring := max(abs(col-mid), abs(row-mid))
		return -mmPerM * int32(max(radius-ring, 0))
	})
}

// ConePit returns a cone-shaped pit in a level plain at zero, its lowest point on a cell
// centre. Filled, it takes π·radius²·depth/3 m³, met by the sum over cells only as the
// cells become small.
func ConePit(radiusM, depthM, cellM float64) *raster.Grid {
	mid := int(math.Ceil(radiusM/cellM)) + 1
	side := 2*mid + 1
	return Surface(side, side, cellM, func(col, row int) int32 {
		r := cellM * math.Hypot(float64(col-mid), float64(row-mid))
		return millimetres(-depthM * max(1-r/radiusM, 0))
	})
}

// Strip returns a line of elevations in whole metres as the middle of three rows, between
// walls of wallM metres; its two ends lie on the border.
func Strip(wallM int32, lineM ...int32) *raster.Grid {
	return Surface(len(lineM), 3, 1, func(col, row int) int32 {
		if row == 1 {
			return lineM[col] * mmPerM
		}
		return wallM * mmPerM
	})
}

// WalledFlat returns a level square of side cells at levelMM inside a wall one cell wide
// and 1 m higher, with a gap 1 m below the level in the east wall at row gapRow (counted
// in the whole grid, wall included).
func WalledFlat(side, gapRow int, levelMM int32) *raster.Grid {
	last := side + 1
	return Surface(side+2, side+2, 1, func(col, row int) int32 {
		switch {
		case col == last && row == gapRow:
			return levelMM - mmPerM
		case col == 0 || row == 0 || col == last || row == last:
			return levelMM + mmPerM
		}
		return levelMM
	})
}
