package channel

import (
	"fmt"
	"math"

	"siltstep/hydro/flow"
	"siltstep/raster"
)

// MinStartCells is the least catchment of a channel cell, in cells, whatever StartAreaM2
// says. Source: our own choice.
const MinStartCells = 50

// Config holds the settings of the package.
type Config struct {
	StartAreaM2 float64 // catchment at which a channel begins, m²; default 2,500 (0.25 ha); at least MinStartCells cells count whatever it says
	MinLengthM  float64 // first-order links shorter than this are pruned, m along D8; default 30; zero keeps all
}

// startCells returns the least catchment of a channel cell, in whole cells.
func (c Config) startCells(cellM float64) uint32 {
	const slack = 1e-12 // relative; so that 49 m² on 0.7 m cells is 100 cells and not 101 by rounding
	n := math.Ceil(c.StartAreaM2 / (cellM * cellM) * (1 - slack))
	if !(n > MinStartCells) {
		return MinStartCells
	}
	return uint32(min(n, math.MaxUint32))
}

// Build finds the channels of a grid and their drainages with profiles. A grid on which no
// cell drains enough land gives an empty network. It panics where field and grid differ in
// size. Cost: one pass over the grid, then m log m in the number of channel cells.
func Build(g *raster.Grid, f *flow.Field, cfg Config) *Network {
	mustMatch(g, f)
	cellM := g.Transform.CellM
	t := collect(f, cfg.startCells(cellM)).prune(cfg.MinLengthM / cellM)
	links := t.links()
	rank(links)
	drainages, ranks := t.drainages(links)
	for i := range drainages {
		d := &drainages[i]
		d.CatchmentM2 = catchmentM2(f, cellM, d.Cells[len(d.Cells)-1])
	}
	t.markTruncated(drainages, f)
	addProfiles(g, f, drainages, ranks)
	return &Network{Links: links, Drainages: drainages}
}

// mustMatch panics where a field was not made from a grid of this size.
func mustMatch(g *raster.Grid, f *flow.Field) {
	if g.Cols != f.Cols || g.Rows != f.Rows {
		panic(fmt.Sprintf("channel: flow of %d x %d cells on a grid of %d x %d", f.Cols, f.Rows, g.Cols, g.Rows))
	}
}

// catchmentM2 returns the land that drains through a cell, in m².
func catchmentM2(f *flow.Field, cellM float64, cell int) float64 {
	return float64(f.Cells[cell]) * (cellM * cellM)
}
