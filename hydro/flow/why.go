package flow

import (
	"cmp"
	"fmt"
	"math"
	"slices"
)

// WhyReview is the Why of a depression that a cut within the limits would have drained, and that was left because it looks like a
// stock pond: water deeper than 0.3 m over more than 100 m² that spills away from any road and declared culvert.
const WhyReview = "left for review as a likely stock pond: declare it as one, or the culvert through its bank"

// leftForReview marks the pits of likely stock ponds that were not cut; nil where there are none.
func (c *cutter) leftForReview() mask {
	if len(c.review) == 0 {
		return nil
	}
	m := newMask(len(c.g.MM))
	for _, i := range c.review {
		m.set(int(i))
	}
	return m
}

// why says what kept a depression from being cut: a limit, or that it was left for review. Away from roads its depth is the least
// that any way out must be lowered: where that is allowed it is the length that is not.
func (c *cutter) why(cfg *Config, b *basin, depthM float64) string {
	if b.pond || b.playa {
		return ""
	}
	if b.review {
		return WhyReview
	}
	if _, failed := slices.BinarySearch(c.failed, uint32(b.bottom)); !failed {
		return ""
	}
	if c.near.has(b.bottom) {
		return c.whyNearRoad(cfg, b.bottom)
	}
	if depthMM(depthM) > depthMM(cfg.CutDepthM) {
		return deeperThan(cfg.CutDepthM)
	}
	return longerThan(cfg.CutLengthM)
}

func deeperThan(m float64) string { return fmt.Sprintf("deeper than %g m", m) }
func longerThan(m float64) string { return fmt.Sprintf("longer than %g m", m) }

// whyNearRoad says which of two sets of limits a pit near a road could not keep. It looks on the ground for the way of least excavation as
// long as allowed and of any depth: the cell that is farthest over its limit there decides. Where there is none it is the length, of open ground where
// a longer path away from the road would do.
func (c *cutter) whyNearRoad(cfg *Config, pit int) string {
	s := newSearch(c.g.Cols, &ground{z: c.g.MM, before: c.g.MM}, c.ends, c.declared)
	find := func(lim limits) ([]int, bool) {
		if !s.open([]int{pit}, lim.longest()) {
			return nil, false
		}
		target, ok := s.run(&lim)
		if !ok {
			return nil, false
		}
		return s.path(nil, target), true
	}
	for _, lim := range c.road {
		deep := lim
		deep.depth, deep.roadDepth = math.MaxInt32, math.MaxInt32
		path, ok := find(deep)
		if !ok {
			continue
		}
		over := func(i int) int64 { return int64(c.g.MM[i]) - int64(c.g.MM[pit]) - lim.depthAt(i) }
		worst := slices.MaxFunc(path, func(a, b int) int { return cmp.Compare(over(a), over(b)) })
		if over(worst) > 0 {
			return deeperThan(float64(lim.depthAt(worst)) / 1000)
		}
	}
	longest := max(cfg.CutLengthM, cfg.RoadCutLengthM)
	for _, lim := range c.road {
		lim.length, lim.roadLength = c.longest(), c.longest()
		if path, ok := find(lim); ok && !slices.ContainsFunc(path, c.reach.has) {
			if cfg.CutLengthM == 0 {
				return "out of reach of the road"
			}
			return longerThan(cfg.CutLengthM)
		}
	}
	return longerThan(longest)
}

// longest returns the longest path of any limits near a road.
func (c *cutter) longest() (units int64) {
	for _, lim := range c.road {
		units = max(units, lim.longest())
	}
	return units
}
