package cli

import (
	"siltstep/raster"
)

// quality is what the heights themselves tell of an elevation model. Values that its size or cell cannot tell are NaN.
type quality struct {
	cellM                    float64 // of the analysis grid
	cells, valid             int     // of the data
	groundM2                 float64 // that holds data
	lowMM, highMM            int32
	holes                    raster.Holes
	levelShare               float64
	noiseM                   float64
	step                     raster.Step
	stripeRowsM, stripeColsM float64
	seams                    []raster.Seam
	seamsTold                bool // whether seams could be told along rows and columns
	rough                    raster.Roughness
}

// judge measures a grid in its own cells, of which those of the analysis may be a warp.
func judge(g *raster.Grid, cellM float64) quality {
	q := quality{
		cellM: cellM, cells: len(g.MM), valid: g.ValidCells(), holes: g.Holes(raster.SmallHoleCells),
		levelShare: g.LevelShare(), noiseM: g.NoiseM(), step: g.Step(), rough: g.Roughness(),
	}
	q.groundM2 = float64(q.valid) * g.Transform.CellM * g.Transform.CellM
	q.lowMM, q.highMM, _ = g.RangeMM()
	q.stripeRowsM, q.stripeColsM = g.StripeM()
	q.seams, q.seamsTold = g.Seams()
	return q
}

// steppedMM returns the step of heights in mm where it is worth a remark, else 0.
func (q quality) steppedMM() float64 {
	if q.step.MM >= coarseStepMM {
		return q.step.MM
	}
	return 0
}
