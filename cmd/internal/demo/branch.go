package demo

import "math"

// How drainages of a size for check dams are chosen for trenches.
const (
	branchesPerKM2 = 4.0     // as many as there are to be
	branchShare    = 0.7     // share of the suitable ones that is taken
	headAreaM2     = 3000.0  // least catchment of a headcut
	trenchMostM2   = 60000.0 // most at the lower end of a trench
	steepHead      = 0.15    // steepest floor at a headcut
	steepTrench    = 0.13    // steepest trench as a whole
	gentlest       = 0.025   // the trench runs out where the valley is gentler
	apartM         = 80.0    // least distance between trenches that do not meet, m
)

// chooseBranches takes drainages of a size for check dams, some of them at random.
func (b *builder) chooseBranches() {
	pick := noise{mix(b.land.rand.seed + 606)}
	want := int(math.Round(branchesPerKM2*b.land.widthM*b.land.heightM/1e6)) + len(b.gullies)
	for k, s := range b.stems {
		if len(b.gullies) >= want {
			return
		}
		if b.taken[k] || len(s.cells) < 20 || pick.unit(k) > branchShare {
			continue
		}
		if g, ok := b.branch(k, noise{mix(pick.seed + uint64(k))}); ok {
			b.add(k, g)
		}
	}
}

// branch returns the trench that would suit a stem; ok is false where none does.
func (b *builder) branch(k int, rand noise) (*gully, bool) {
	l := lineOf(b.land, b.routing, b.stems[k])
	level := b.levels(l)
	from := -1
	for m := 25; m+shortestM < l.length(); m++ {
		if l.areaM2[m] >= headAreaM2 && fall(level, m, m+40) <= steepHead {
			from = m
			break
		}
	}
	if from < 0 {
		return nil, false
	}
	to := from
	for to < l.length() && l.areaM2[to] <= trenchMostM2 && (to+40 > l.length() || fall(level, to, to+40) >= gentlest) {
		to++
	}
	g := &gully{line: l, from: from, siltM: 0.55, bedWidthM: rand.between(1, 2.2, 3.4)}
	first := rand.between(2, 0.6, 1.1)
	g.heads = []step{{from, first}}
	if to-from > 200 {
		g.heads = append(g.heads, step{from + int(float64(to-from)*rand.between(3, 0.4, 0.6)), rand.between(4, 0.6, 0.7)})
	}
	b.endTrench(k, g, to)
	ok := g.to-g.from >= shortestM && fall(level, g.from, g.to) <= steepTrench && b.clear(g)
	return g, ok
}

// levels returns the ground along a line, m.
func (b *builder) levels(l line) []float64 {
	z := make([]float64, len(l.at))
	for k, p := range l.at {
		z[k] = b.groundM(p)
	}
	return z
}
