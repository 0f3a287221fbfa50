package demo

// endTrench settles the lower end of a trench that may reach to a station: it meets the
// trench of the receiving drainage, or runs out before its own end.
func (b *builder) endTrench(k int, g *gully, to int) {
	g.to = to
	if to == g.line.length() {
		if p, joins, ok := b.meeting(g.line.at[to]); ok {
			g.into, g.joins = p, joins
			g.line.bendTo(p.line.at[joins])
			return
		}
		g.to = to - floorEndM
	}
	deep := 0.0
	for _, h := range g.heads {
		deep += h.heightM
	}
	level := b.levels(g.line)
	g.fadeM = min(int(deep/(0.5*max(fall(level, g.to-60, g.to), 0.01))), (g.to-g.from)/2)
	g.line = g.line.part(0, g.to+floorEndM)
}

// meeting returns the trench that passes a place, and its station there.
func (b *builder) meeting(p spot) (*gully, int, bool) {
	for _, g := range b.gullies {
		k, d := g.line.nearest(p)
		if d < 12 && k > g.from+30 && k < g.to-30 && !g.fading(k) {
			return g, k, true
		}
	}
	return nil, 0, false
}

// clear reports whether a trench lies inside the data and away from the others, except
// from the one it meets.
func (b *builder) clear(g *gully) bool {
	for k := g.from - 20; k <= g.to; k += 10 {
		p := g.line.at[max(k, 0)]
		if !b.canvas.holds(p, 35) {
			return false
		}
		if (g.into == nil || k < g.to-int(apartM)-20) && b.nearGully(p, apartM) {
			return false
		}
	}
	return true
}

// nearGully reports whether a place lies within a distance of a trench.
func (b *builder) nearGully(p spot, distM float64) bool {
	for _, g := range b.gullies {
		half := float64(float64(g.line.length()) / 2)
		if g.line.at[g.line.length()/2].minus(p).length() > half+distM {
			continue
		}
		if _, d := g.line.part(g.from, g.to).nearest(p); d < distM {
			return true
		}
	}
	return false
}

// nearHead reports whether a station lies within a distance of a headcut of the gully.
func (g *gully) nearHead(k, dist int) bool {
	for _, h := range g.heads {
		if max(k, h.station)-min(k, h.station) < dist {
			return true
		}
	}
	return false
}

// nearJoin reports whether another trench meets the gully within a distance of a station.
func (b *builder) nearJoin(g *gully, k, dist int) bool {
	for _, o := range b.gullies {
		if o.into == g && max(k, o.joins)-min(k, o.joins) < dist {
			return true
		}
	}
	return false
}
