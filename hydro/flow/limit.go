package flow

import "math"

// limits are what a cut may be. Within reach of a road the second pair holds.
type limits struct {
	length, roadLength int64 // units of a path
	depth, roadDepth   int64 // mm
	reach              mask  // cells within reach of a road
}

func (l *limits) longest() int64 { return max(l.length, l.roadLength) }

// depthAt returns how far below the ground, in mm, cell i may be cut.
func (l *limits) depthAt(i int) int64 {
	if l.reach.has(i) {
		return l.roadDepth
	}
	return l.depth
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
