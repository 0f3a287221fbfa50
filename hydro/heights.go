package hydro

import (
	"fmt"

	"siltstep/raster"
)

// coarseStepMM is the height step from which a bed slope over 10 m can no longer be told, mm: 0.1 m
// is a slope of 1 %. Source: our own choice.
const coarseStepMM = 100

// stairShare is the share of neighbouring cells on one level from which coarse steps are stairs, and not a slope
// that happens to fall by such steps. Source: our own choice; whole metres on a slope of 5 % and cells of
// 1 m give 0.95.
const stairShare = 0.3

// heightSteps tells of heights that come in coarse steps: whole metres, feet or decimetres.
func heightSteps(g *raster.Grid) (Finding, bool) {
	step := g.Step().MM
	f := Finding{Rule: FindingSteps, Text: fmt.Sprintf("All heights differ by multiples of %.4g m: the bed climbs in stairs, slopes over 10 m are off by up to %.0f %%, "+
		"and no dam can be placed with trust. Bring data with finer heights; take these dams as a count for a budget.", step/1000, step/100)}
	return f, step >= coarseStepMM && levelShare(g) >= stairShare
}

// levelShare returns the share of cells that lie exactly as high as the cell to their south-east, from 0
// to 1; 0 where there are no two such cells.
func levelShare(g *raster.Grid) float64 {
	level, pairs := 0, 0
	for row := range g.Rows - 1 {
		for col := range g.Cols - 1 {
			z, next := g.At(col, row), g.At(col+1, row+1)
			if z == raster.VoidMM || next == raster.VoidMM {
				continue
			}
			pairs++
			if z == next {
				level++
			}
		}
	}
	if pairs == 0 {
		return 0
	}
	return float64(level) / float64(pairs)
}

// stairsOf returns what is to be said of coarse steps; nil where there is nothing.
func stairsOf(g *raster.Grid) *Finding {
	if f, is := heightSteps(g); is {
		return &f
	}
	return nil
}
