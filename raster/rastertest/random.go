package rastertest

import (
	"math/rand/v2"

	"siltstep/raster"
)

// Random returns a grid of independent elevations 0 … levels−1 mm, the same for the same
// seed. Few levels give many flats, many give many pits.
func Random(seed uint64, cols, rows int, levels int32) *raster.Grid {
	rng := rand.New(rand.NewPCG(seed, 1))
	return Surface(cols, rows, 1, func(_, _ int) int32 { return rng.Int32N(levels) })
}

// Fractal returns rough country about reliefMM high, the same for the same seed: noise
// given at corners 256 cells apart and filled in between, then again at half the
// distance and half the height, down to single cells. It has pits of every size, and
// flats where reliefMM is small.
func Fractal(seed uint64, cols, rows int, reliefMM int32) *raster.Grid {
	const widest = 256 // cells between the corners of the coarsest noise
	sum := make([]float64, cols*rows)
	height := float64(reliefMM) / 2
	for apart := widest; apart >= 1; apart /= 2 {
		addNoise(sum, cols, rows, apart, height, rand.New(rand.NewPCG(seed, uint64(apart))))
		height /= 2
	}
	return Surface(cols, rows, 1, func(col, row int) int32 { return int32(sum[row*cols+col]) })
}

// addNoise adds noise of 0 … height to sum, drawn at corners apart cells from each other
// and bilinear between them.
func addNoise(sum []float64, cols, rows, apart int, height float64, rng *rand.Rand) {
	wide := cols/apart + 2
	corner := make([]float64, wide*(rows/apart+2))
	for i := range corner {
		corner[i] = height * rng.Float64()
	}
	for row := range rows {
		for col := range cols {
			i := row/apart*wide + col/apart
			fx := float64(col%apart) / float64(apart)
			fy := float64(row%apart) / float64(apart)
			north := corner[i]*(1-fx) + corner[i+1]*fx
			south := corner[i+wide]*(1-fx) + corner[i+wide+1]*fx
			sum[row*cols+col] += north*(1-fy) + south*fy
		}
	}
}

// Pepper makes about one cell in every of g void, the same for the same seed. It changes
// g and returns it; every below 1 leaves it as it is.
func Pepper(seed uint64, g *raster.Grid, every int) *raster.Grid {
	if every < 1 {
		return g
	}
	rng := rand.New(rand.NewPCG(seed, 2))
	for i := range g.MM {
		if rng.IntN(every) == 0 {
			g.MM[i] = raster.VoidMM
		}
	}
	return g
}
