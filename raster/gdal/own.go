package gdal

import (
	"context"
	"math"

	"siltstep/raster"
)

// ReadOwn returns the heights on the cells of the data itself, before any warp: for judging how they were made, which a
// warp blurs. Where the data's grid is kept that is what Read returns. Elsewhere rows and columns run as in the files, the
// cell is a square of the mean ground size, and the place is nominal, with its corner at zero. Progress and errors are
// those of Read.
func (d *DEM) ReadOwn(ctx context.Context, progress func(done, total int)) (*raster.Grid, error) {
	if d.target.kept {
		return d.Read(ctx, progress)
	}
	own := &DEM{source: d.source, unit: d.unit, info: d.info, handles: d.handles}
	own.target = target{kept: true, cols: d.source.cols, rows: d.source.rows}
	own.target.transform.CellM = math.Sqrt(d.info.CellEastM * d.info.CellNorthM)
	g, err := own.Read(ctx, progress)
	if err != nil {
		return nil, err
	}
	d.info.Decisions = append(d.sentences(), own.voids.sentences()...)
	return g, nil
}
