package flow

import (
	"context"
	"math"
	"slices"

	"siltstep/raster"
)

// condition lowers blockages of f.FilledMM, a copy of the ground, before it is filled: first culverts that were declared, then
// pits. Stock ponds and playas are left whole. It keeps what was cut on the field, and what later stages need on the cutter.
func condition(ctx context.Context, g *raster.Grid, cfg *Config, f *Field, workers int) (*cutter, error) {
	c := &cutter{g: g, z: f.FilledMM, ponds: polygonMask(g, cfg.Features.StockPonds)}
	c.reach = nearLines(g, cfg.Features.Roads, cfg.RoadReachM)
	if !cfg.cuts() {
		return c, nil
	}
	c.setLimits(cfg)
	c.kept = polygonMask(g, slices.Concat(cfg.Features.StockPonds, cfg.Features.Playas))
	c.ends = newMask(len(g.MM))
	pits := listPits(g.Cols, g.Rows, c.z, c.ends, workers)
	for _, i := range f.ends {
		c.ends.set(i)
	}
	c.seen, c.now = newMask(len(g.MM)), newMask(len(g.MM))
	c.ground = ground{z: c.z, before: g.MM, dug: newMask(len(g.MM))}
	c.search = newSearch(g.Cols, &c.ground, c.ends, c.kept)
	f.Unused = append(f.Unused, c.cutCulverts(cfg.Features.Culverts)...)
	if err := c.cutPits(ctx, pits); err != nil {
		return nil, err
	}
	c.seen, c.now, c.ground, c.search = nil, nil, ground{}, nil
	return c, nil
}

// setLimits turns the limits of settings into those of searches. Near a road one search does for both kinds of ground
// where the limits of roads are the wider ones; else a path within reach of the road is tried first.
func (c *cutter) setLimits(cfg *Config) {
	cellM := c.g.Transform.CellM
	open := limits{length: lengthUnits(cfg.CutLengthM, cellM), depth: depthMM(cfg.CutDepthM)}
	if cfg.CutLengthM > 0 {
		c.open = []limits{open}
	}
	c.road = c.open
	if c.reach == nil || cfg.RoadCutLengthM == 0 {
		return
	}
	road := limits{roadLength: lengthUnits(cfg.RoadCutLengthM, cellM), roadDepth: depthMM(cfg.RoadCutDepthM), reach: c.reach}
	road.depth = min(open.depth, road.roadDepth)
	if road.roadLength >= open.length && road.roadDepth >= open.depth {
		road.length = open.length
		c.road = []limits{road}
	} else {
		c.road = append([]limits{road}, c.open...)
	}
	c.near = nearLines(c.g, cfg.Features.Roads, cfg.RoadReachM+cfg.RoadCutLengthM)
}

// depthMM returns a depth in whole millimetres.
func depthMM(m float64) int64 { return int64(math.Round(min(m*1000, math.MaxInt32))) }

// keepCuts puts the cuts on the field that the fill did not flood again, and marks the cells that they lower.
func (c *cutter) keepCuts(f *Field) {
	f.SmallCuts = c.small
	for _, cut := range c.cuts {
		lowered := false
		for _, i := range cut.Cells {
			if f.FilledMM[i] >= c.g.MM[i] {
				continue
			}
			lowered = true
			if f.cut == nil {
				f.cut = newMask(len(c.g.MM))
			}
			f.cut.set(i)
		}
		if lowered || cut.Cause == CauseCulvert {
			f.Cuts = append(f.Cuts, cut)
		}
	}
}
