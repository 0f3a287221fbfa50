package demo

import (
	"errors"
	"math"
)

// Measures of the road fill.
const (
	fillHeightM  = 2.5 // crest above the bed it crosses
	crestWidthM  = 8.0
	fillRun      = 1.5  // horizontal run of its sides per metre of height
	fillSteepest = 0.1  // steepest bed under it
	fillLengthM  = 36.0 // sought length along the road
	fillLongestM = 45.0 // from the bed to either end at most
	roadLegM     = 10.0 // step of the road over open ground
	roadGrade    = 0.06 // grade it seeks there
	roadLegs     = 26   // steps to either side
)

// crossing is a place where the road may cross a gully on a fill.
type crossing struct {
	gully   *gully
	station int
	left    float64 // length of the fill to either side, m
	right   float64
	axis    spot // unit vector to the right, looking downstream
	crestM  float64
}

// layRoad chooses the crossing whose fill is nearest to fillLengthM, builds it and draws the
// road over it.
func (b *builder) layRoad() error {
	var best *crossing
	for _, g := range b.gullies {
		if g.enters || g == b.gullies[0] {
			continue
		}
		for k := g.from + 40; k <= g.to-50; k += 10 {
			if c, ok := b.crossingAt(g, k); ok && (best == nil || c.miss() < best.miss()) {
				best = &c
			}
		}
	}
	if best == nil {
		return errors.New("no trenched drainage suits a road fill; try another seed")
	}
	b.road = best
	b.heapFill(best)
	b.drawRoad(best)
	return nil
}

// miss is how far the length of the fill is from the one sought, m.
func (c *crossing) miss() float64 { return math.Abs(c.left + c.right - fillLengthM) }

// crossingAt returns the crossing at a station; ok is false where the place does not suit:
// too much or too little catchment, a headcut near by, an uneven or steep bed, or hillsides
// too far.
func (b *builder) crossingAt(g *gully, k int) (crossing, bool) {
	p := g.line.at[k]
	if a := g.line.areaM2[k]; a < 10000 || a > 60000 || !b.limits.holds(p, 40) || g.nearHead(k, 25) || b.nearJoin(g, k, 30) {
		return crossing{}, false
	}
	up, down := g.bedM(k-10)-g.bedM(k), g.bedM(k)-g.bedM(k+10)
	if math.Abs(up-down) > 0.15 || up+down > 20*fillSteepest {
		return crossing{}, false
	}
	c := crossing{gully: g, station: k, axis: g.line.along(k).turned(), crestM: g.bedM(k) + fillHeightM}
	var ok1, ok2 bool
	c.left, ok1 = b.reachOf(p, c.axis.times(-1), c.crestM)
	c.right, ok2 = b.reachOf(p, c.axis, c.crestM)
	return c, ok1 && ok2
}

// reachOf returns how far a level crest must go from a place to meet the ground.
func (b *builder) reachOf(p, dir spot, crestM float64) (float64, bool) {
	for d := 4.0; d <= fillLongestM; d++ {
		if b.groundM(p.plus(dir.times(d))) >= crestM+0.1 {
			return d, true
		}
	}
	return 0, false
}

// heapFill raises the canvas to the fill.
func (b *builder) heapFill(c *crossing) {
	p := c.gully.line.at[c.station]
	w := b.canvas.around([]spot{p}, fillLongestM+20)
	for row := w.top; row <= w.bottom; row++ {
		for col := w.left; col <= w.right; col++ {
			d := b.canvas.spotOf(col, row).minus(p)
			z := c.surfaceM(d.dot(c.axis), d.dot(c.axis.turned()))
			i := b.canvas.Index(col, row)
			if z > float64(b.canvas.MM[i])/1000 {
				b.canvas.set(i, z)
			}
		}
	}
}

// surfaceM returns the fill at a distance to the right of the bed along the road and
// at a distance across the road.
func (c *crossing) surfaceM(right, across float64) float64 {
	beyond := max(right-c.right, -c.left-right, 0)
	return c.crestM - max(math.Abs(across)-crestWidthM/2, 0)/fillRun - beyond/3
}

// footAt returns the station at which a side of the fill meets the bed, a metre clear of it:
// the upper side for way −1, the lower for 1.
func (c *crossing) footAt(way int) int {
	k := c.station + way*int(crestWidthM/2)
	for c.surfaceM(0, math.Abs(float64(k-c.station))) > c.gully.bedM(k) {
		k += way
	}
	return k + way
}

// drawRoad lays the road line: over the fill, then to either side over open ground.
func (b *builder) drawRoad(c *crossing) {
	p := c.gully.line.at[c.station]
	a, z := p.plus(c.axis.times(-c.left)), p.plus(c.axis.times(c.right))
	left := b.wander(a, c.axis.times(-1))
	for k := len(left) - 1; k >= 0; k-- {
		b.roadLine = append(b.roadLine, left[k])
	}
	b.roadLine = append(b.roadLine, a, p, z)
	b.roadLine = append(b.roadLine, b.wander(z, c.axis)...)
}

// wander continues a road from a place: at each step it takes the heading, within a
// quarter right angle of the last, whose grade is nearest to a gentle climb.
func (b *builder) wander(p, dir spot) []spot {
	var at []spot
	for range roadLegs {
		best, to := math.Inf(1), spot{}
		for k := -2; k <= 2; k++ {
			turn := dir.plus(dir.turned().times(0.2 * float64(k))).unit()
			q := p.plus(turn.times(roadLegM))
			miss := math.Abs((b.groundM(q)-b.groundM(p))/roadLegM - roadGrade)
			if miss < best {
				best, to = miss, q
			}
		}
		if !b.canvas.holds(to, 10) {
			return at
		}
		dir, p = to.minus(p).unit(), to
		at = append(at, p)
	}
	return at
}
