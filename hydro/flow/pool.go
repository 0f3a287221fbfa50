package flow

// mostPool is the largest pool that is looked at before a cut, in cells. Own choice: a lake of 400 ha on cells of 1 m.
const mostPool = 4_000_000

// pool is the water that would stand over a pit on the surface as cut so far, up to where it spills to ground lower than the pit or to an end
// of flow.
type pool struct {
	cells []uint32 // in the order of the flood, the pit first, those beyond the spill last
	wet   int      // cells before the spill, some of them at its level
	level int32
	spill int
	heap  frontier
}

// flood fills a pool from its pit. Ground beyond a spill counts only if the water has to rise again. It reports false where
// the pool is larger than mostPool. The mask now of the cutter is clear before and after.
func (p *pool) flood(c *cutter, pit int) bool {
	p.cells, p.heap, p.wet = p.cells[:0], p.heap[:0], 0
	p.level, p.spill = c.z[pit], pit
	c.now.set(pit)
	p.heap.push(head{cell: int32(pit), toll: tollOf(p.level)})
	for len(p.heap) > 0 && len(p.cells) < mostPool {
		i := int(p.heap.pop().cell)
		p.cells = append(p.cells, uint32(i))
		z := c.z[i]
		if z > p.level {
			p.level, p.spill, p.wet = z, i, len(p.cells)-1
		}
		if z < c.z[pit] || c.ends.has(i) || c.kept.has(i) {
			break
		}
		for _, o := range c.search.off {
			if n := i + o; !c.now.has(n) {
				c.now.set(n)
				p.heap.push(head{cell: int32(n), toll: tollOf(c.z[n])})
			}
		}
	}
	for _, i := range p.cells {
		c.now.clear(int(i))
	}
	for _, h := range p.heap {
		c.now.clear(int(h.cell))
	}
	return len(p.cells) < mostPool
}

// tollOf orders elevations.
func tollOf(z int32) toll { return toll(uint32(z) ^ 1<<31) }

// likelyPond reports whether the pool over a pit looks like a stock pond: standing water as deep and as large as one, which does not
// spill, and would not be cut, near a road or a declared culvert. deepest is where a cut would be deepest, or the pit where there is none.
func (c *cutter) likelyPond(pit, deepest int) bool {
	if c.reach.has(deepest) || !c.pool.flood(c, pit) {
		return false
	}
	p := &c.pool
	if c.reach.has(p.spill) || c.culverts.has(p.spill) {
		return false
	}
	under := 0
	for _, i := range p.cells[:p.wet] {
		if c.z[i] < p.level {
			under++
		}
	}
	cellM := c.g.Transform.CellM
	return pondLike(float64(int64(p.level)-int64(c.z[pit]))/1000, float64(under)*cellM*cellM)
}

// pondLike reports whether standing water is as deep and as large as a stock pond.
func pondLike(depthM, areaM2 float64) bool { return depthM > noiseDepthM && areaM2 > pondAreaM2 }

// keepPool fills the pool looked at last and keeps it from being cut: pits in it are gone, and paths may end in its water but not
// under it.
func (c *cutter) keepPool() {
	if c.kept == nil {
		c.kept = newMask(len(c.z))
		c.search.shut = c.kept
	}
	for _, i := range c.pool.cells[:c.pool.wet] {
		c.z[i] = max(c.z[i], c.pool.level)
		c.kept.set(int(i))
	}
}
