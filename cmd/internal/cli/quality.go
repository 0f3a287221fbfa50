package cli

import (
	"math"

	"siltstep/raster"
)

// quality is what the heights themselves tell of an elevation model.
type quality struct {
	cells, valid int
	lowMM        int32
	highMM       int32
	noiseM       float64 // standard deviation of a cell's random error, at most, m; NaN where too few cells touch
	stepMM       int32   // heights are whole multiples of this, mm: 1, 10, 100 or 1000
}

// judge measures a grid. A grid without data has no cells that are valid and NaN noise.
func judge(g *raster.Grid) quality {
	q := quality{cells: len(g.MM), valid: g.ValidCells(), noiseM: noiseM(g), stepMM: stepMM(g)}
	q.lowMM, q.highMM, _ = g.RangeMM()
	return q
}

// Noise is read from second differences along rows and columns, z₋ − 2z + z₊: where each
// cell errs by itself with standard deviation s, they scatter with s·√6 (1 + 4 + 1 parts of
// variance). The middle of their sizes is 0.6745 of a normal scatter. The land's own
// curvature adds to it, so the figure is an upper bound.
const (
	secondDifferenceScatter = 2.449489742783178 // √6
	normalMiddle            = 0.674489750196082 // 75th percentile of the standard normal distribution
)

// noiseM returns the noise of a grid in metres, 0.001 at the finest; NaN where no three
// cells in a row hold data.
func noiseM(g *raster.Grid) float64 {
	var counts [1 << 16]int // by size of the second difference, mm; the last one takes all larger
	total := 0
	for row := range g.Rows {
		for col := range g.Cols {
			i := row*g.Cols + col
			z := g.MM[i]
			if z == raster.VoidMM {
				continue
			}
			if col > 0 && col < g.Cols-1 {
				total += countDifference(&counts, g.MM[i-1], z, g.MM[i+1])
			}
			if row > 0 && row < g.Rows-1 {
				total += countDifference(&counts, g.MM[i-g.Cols], z, g.MM[i+g.Cols])
			}
		}
	}
	if total == 0 {
		return math.NaN()
	}
	middle, seen := 0, 0
	for seen += counts[0]; 2*seen < total; seen += counts[middle] {
		middle++
	}
	return float64(middle) / 1000 / normalMiddle / secondDifferenceScatter
}

// countDifference counts one second difference, and returns how many it counted: none
// beside a void.
func countDifference(counts *[1 << 16]int, before, z, after int32) int {
	if before == raster.VoidMM || after == raster.VoidMM {
		return 0
	}
	d := int64(before) - 2*int64(z) + int64(after)
	counts[min(max(d, -d), int64(len(counts)-1))]++
	return 1
}

// stepMM returns the largest of 1000, 100, 10 and 1 mm of which every height is a multiple.
func stepMM(g *raster.Grid) int32 {
	step := int32(1000)
	for _, z := range g.MM {
		for z != raster.VoidMM && z%step != 0 {
			step /= 10
		}
		if step == 1 {
			break
		}
	}
	return step
}
