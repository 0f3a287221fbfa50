package flow

import (
	"context"
	"slices"

	"siltstep/raster"
)

// condition lowers blockages of f.FilledMM, a copy of the ground, before it is filled: first culverts that were declared, then
// pits. Stock ponds and playas are left whole. It keeps what was cut on the field, and what later stages need on the cutter.
func condition(ctx context.Context, g *raster.Grid, cfg *Config, f *Field, workers int) (*cutter, error) {
	c := &cutter{g: g, z: f.FilledMM, ponds: polygonMask(g, cfg.Features.StockPonds)}
	c.reach = nearLines(g, cfg.Features.Roads, cfg.RoadReachM)
	c.culverts = nearLines(g, cfg.Features.Culverts, besideM)
	if !cfg.cuts() {
		return c, nil
	}
	c.setLimits(cfg)
	c.kept = polygonMask(g, slices.Concat(cfg.Features.StockPonds, cfg.Features.Playas))
	c.declared = slices.Clone(c.kept)
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
	c.seen, c.now, c.ground, c.search, c.pool = nil, nil, ground{}, nil, pool{}
	return c, nil
}

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
