package raster_test

import (
	"math"
	"math/rand/v2"

	"siltstep/raster"
	"siltstep/raster/rastertest"
)

// grounds are landforms without error, 1 m cells, mm.
var grounds = []struct {
	name string
	z    func(col, row int) float64
}{
	{"level", func(_, _ int) float64 { return 100_000 }},
	{"plane", func(c, r int) float64 { return 37*float64(c) - 111*float64(r) }},
	// Hills 20 m high, 200 m from top to top: curvature up to 20 mm a cell, its change 0.6 mm a cell.
	{"hills", func(c, r int) float64 {
		return 10_000 * (math.Sin(2*math.Pi*float64(c)/200) + math.Cos(2*math.Pi*float64(r)/200))
	}},
	// A V valley along a column and a gully 2 m deep, 6 m wide, across it.
	{"valleys", func(c, r int) float64 {
		return 200*math.Abs(float64(c-217)) + 50*float64(r) - max(0, 2000-700*math.Abs(float64(r-c/4-60)))
	}},
}

// surveyed draws ground with errors of its own, mm.
func surveyed(cols, rows int, z, errorMM func(col, row int) float64) *raster.Grid {
	return rastertest.Surface(cols, rows, 1, func(c, r int) int32 { return int32(math.Round(z(c, r) + errorMM(c, r))) })
}

// white returns independent normal errors.
func white(seed uint64, sigmaMM float64) func(col, row int) float64 {
	random := rand.New(rand.NewPCG(seed, 7))
	return func(_, _ int) float64 { return sigmaMM * random.NormFloat64() }
}

// turned returns a grid with rows and columns swapped.
func turned(g *raster.Grid) *raster.Grid {
	out := raster.New(g.Rows, g.Cols, g.Transform)
	for i, z := range g.MM {
		col, row := g.ColRow(i)
		out.MM[out.Index(row, col)] = z
	}
	return out
}

// tiny draws the smallest grids there are, all cells of a different height.
func tiny(use func(g *raster.Grid)) {
	for cols := 1; cols <= 3; cols++ {
		for rows := 1; rows <= 3; rows++ {
			use(rastertest.Plane(cols, rows, 1000, 10, 100))
		}
	}
}
