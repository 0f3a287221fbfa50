package flow

import (
	"context"
	"slices"

	"siltstep/raster"
)

// Which cuts and depressions are listed one by one; smaller ones are noise of the survey and only counted.
// Own choice, for lidar with a vertical error of about 0.1 m.
const (
	listedDepthM = 0.05 // with more than fewCells
	fewCells     = 4
	noiseDepthM  = 0.3 // three times the vertical error: deeper ones are listed whatever their size
	pondAreaM2   = 100 // standing water as large as this, and deeper than noise, is a stock pond. Own choice.
)

// cutter lowers blockages of a surface.
type cutter struct {
	g        *raster.Grid
	z        []int32 // the surface
	ground   ground  // it, and what it was before
	ends     mask
	ponds    mask     // declared stock ponds
	kept     mask     // those and playas, and likely stock ponds: nothing in them is lowered
	declared mask     // the declared ones of kept
	reach    mask     // within reach of a road
	culverts mask     // near a declared culvert
	near     mask     // so near a road that a path may come within its reach
	seen     mask     // cells of level places looked at
	now      mask     // cells of the level place at hand
	open     []limits // to be tried in turn on pits away from roads
	road     []limits // and on those near one
	search   *search
	flat     []int
	path     []int
	cuts     []Cut
	small    int
	failed   []uint32 // pits that no cut within the limits drains
	review   []uint32 // pits of likely stock ponds that one would drain
	pool     pool

	smallVolume int64 // cell millimetres of the cuts that are only counted
}

// cutPits cuts the pits of the surface in order, each on the path of least excavation to lower ground or an end of flow,
// where one lies within the limits. A pit that an earlier cut drains is left alone.
// Method: terrain cut before it is filled, within limits of length and depth, after MartzGarbrecht1999.
func (c *cutter) cutPits(ctx context.Context, pits []pitKey) error {
	for k, p := range pits {
		if k%(1<<14) == 0 {
			if err := ctx.Err(); err != nil {
				return err
			}
		}
		i := p.cell()
		tries := c.open
		if c.near.has(i) {
			tries = c.road
		}
		if len(tries) == 0 || c.z[i] != p.level() || c.ends.has(i) || c.kept.has(i) || !c.closed(i) {
			continue
		}
		if len(c.flat) <= mostFlat {
			c.cutPit(i, tries)
		}
	}
	return nil
}

// cutPit cuts the closed level place at hand, of which the pit is the first cell, within the first limits that allow it.
// What looks like a stock pond is left as it is, for review.
func (c *cutter) cutPit(pit int, tries []limits) {
	for k := range tries {
		lim := &tries[k]
		if !c.search.open(c.flat, lim.longest()) {
			break
		}
		target, ok := c.search.run(lim)
		if !ok {
			continue
		}
		c.path = c.search.path(c.path, target)
		if top := c.highest(c.path); int64(c.z[top])-int64(c.z[pit]) > depthMM(noiseDepthM) && c.likelyPond(pit, top) {
			c.keepPool()
			c.review = append(c.review, uint32(pit))
			return
		}
		c.dig(c.path, lim, CauseNoise)
		return
	}
	c.failed = append(c.failed, uint32(pit))
	if c.likelyPond(pit, pit) {
		c.keepPool()
	}
}

// highest returns the highest cell of a path, the first of equals.
func (c *cutter) highest(path []int) int {
	top := path[0]
	for _, i := range path {
		if c.z[i] > c.z[top] {
			top = i
		}
	}
	return top
}

// mostFlat is the largest level place that is cut, in cells. Own choice: larger ones are water or
// elevations in whole metres, and are not tried.
const mostFlat = 10_000

// closed gathers the level place of a cell and reports whether water stays there: no cell of it lies beside a lower
// one, is an end of flow, or is in a stock pond or playa. A place looked at before is not looked at again.
func (c *cutter) closed(i int) bool {
	if c.seen.has(i) {
		return false
	}
	c.flat = append(c.flat[:0], i)
	c.now.set(i)
	stays := c.gather()
	for _, i := range c.flat {
		c.now.clear(i)
		c.seen.set(i)
	}
	return stays
}

func (c *cutter) gather() bool {
	level := c.z[c.flat[0]]
	for k := 0; k < len(c.flat); k++ {
		for _, o := range c.search.off {
			n := c.flat[k] + o
			switch z := c.z[n]; {
			case z > level, z == level && c.now.has(n):
			case z < level, c.ends.has(n), c.seen.has(n), c.kept.has(n):
				return false
			default:
				c.now.set(n)
				c.flat = append(c.flat, n)
			}
		}
	}
	return true
}

// dig lowers the ground along a path and lists the cut, or counts it where it is small. cause is CauseCulvert or
// CauseNoise; of the latter roads and depth may make another. It reports
// false where nothing had to be lowered.
func (c *cutter) dig(path []int, lim *limits, cause Cause) bool {
	e := c.ramp(path, lim)
	if e.cells == 0 {
		return false
	}
	cellM := c.g.Transform.CellM
	depthM := float64(e.depth) / 1000
	switch {
	case cause == CauseCulvert:
	case c.reach.has(e.deepest):
		cause = CauseRoadFill
	case depthM > noiseDepthM:
		cause = CauseUnknown
	}
	if cause != CauseCulvert && depthM < noiseDepthM && (depthM <= listedDepthM || e.cells <= fewCells) {
		c.small++
		c.smallVolume += e.volume
		return true
	}
	x, y := c.g.CenterOf(e.deepest)
	c.cuts = append(c.cuts, Cut{
		Cells: slices.Clone(path), Lowered: e.cells, X: x, Y: y, DepthM: depthM,
		LengthM:  pathLengthM(c.g.Cols, path, cellM),
		VolumeM3: float64(e.volume) / 1000 * cellM * cellM,
		Cause:    cause,
	})
	return true
}
