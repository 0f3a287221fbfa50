package flow

import (
	"context"
	"errors"
	"fmt"
	"runtime"
	"slices"

	"siltstep/raster"
)

// MostReliefMM is the widest range of elevations in millimetres: 268 km. More is a wrong
// unit or an undeclared no-data value. Own choice; it keeps squares of slopes inside 64 bits.
const MostReliefMM = 1 << 28

// ErrNoData says that a grid holds no elevation at all.
var ErrNoData = errors.New("the elevation model holds no data: every cell is void")

// Run conditions, fills, directs and accumulates a grid. watch, if not nil, is called with the name of
// each stage as it begins ("cuts" where something may be cut, "fill", "direction", "accumulation"). The grid is only read.
// Errors: ErrNoData; elevations that span more than MostReliefMM; a fault of a declared feature; an inflow that is
// nowhere near water that enters over the edge of the data; ctx was cancelled.
// Memory: 10 bytes a cell beside the grid, while it fills or drains flats up to 4 more, and while it cuts some 16
// bytes a pit instead.
func Run(ctx context.Context, g *raster.Grid, cfg Config, watch func(stage string)) (*Field, error) {
	if err := cfg.validateFeatures(); err != nil {
		return nil, err
	}
	lo, hi, ok := g.RangeMM()
	if !ok {
		return nil, ErrNoData
	}
	if int64(hi)-int64(lo) >= MostReliefMM {
		return nil, fmt.Errorf("elevations from %d to %d m: more than any terrain; look for a no-data value that is not declared", lo/1000, hi/1000)
	}
	workers := cfg.Workers
	if workers <= 0 {
		workers = runtime.GOMAXPROCS(0)
	}
	begin := func(stage string) error {
		if err := ctx.Err(); err != nil {
			return err
		}
		if watch != nil {
			watch(stage)
		}
		return nil
	}
	f := &Field{Cols: g.Cols, Rows: g.Rows, FilledMM: slices.Clone(g.MM)}
	f.declarePlayas(g, cfg.Features.Playas)
	if cfg.cuts() {
		if err := begin("cuts"); err != nil {
			return nil, err
		}
	}
	c, err := condition(ctx, g, &cfg, f, workers)
	if err != nil {
		return nil, err
	}
	if err := begin("fill"); err != nil {
		return nil, err
	}
	fillInPlace(g, f.FilledMM, f.ends, workers)
	c.keepCuts(f)
	if err := begin("direction"); err != nil {
		return nil, err
	}
	f.Cells = make([]uint32, len(g.MM))
	var border []uint32
	f.dir, border = directions(g.Cols, g.Rows, f.FilledMM, f.ends, f.Cells, workers)
	f.EdgeSpills = edgeSpills(g, f, border)
	c.depressions(&cfg, f, workers)
	if err := begin("accumulation"); err != nil {
		return nil, err
	}
	if cfg.Edge == EdgeOpen {
		f.Inflow = inflowCells(g.Cols, g.Rows, f.FilledMM, f.dir, border)
	}
	accumulate(g.Cols, g.Rows, f.dir, f.Cells, f.Inflow, workers)
	if err := f.settle(g.Transform, cfg.Features.Inflows); err != nil {
		return nil, err
	}
	return f, nil
}
