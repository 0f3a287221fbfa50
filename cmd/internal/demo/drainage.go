package demo

import (
	"errors"
	"fmt"
)

// How the larger drainages are chosen for trenches.
const (
	trunkAreaM2  = 80000.0  // catchment at which a main or side valley is trenched
	valleyAreaM2 = 150000.0 // least catchment of a trenched side valley
	enterLeastM2 = 6000.0   // least catchment outside the data of the drainage that enters
	enterAboveM  = 12       // length of it outside the data, m
	enterMostM   = 600      // longest trench that enters the data, m
	trunkInsetM  = 60.0     // least distance of the main trench's head from the edge, m
	shortestM    = 130      // shortest trench, m
)

// layGullies chooses the drainages that carry trenches, lays their floors, then cuts them.
func (b *builder) layGullies() error {
	b.taken = make([]bool, len(b.stems))
	if err := b.chooseTrunk(); err != nil {
		return err
	}
	if err := b.chooseEntering(); err != nil {
		return err
	}
	b.chooseValleys()
	b.chooseBranches()
	for _, g := range b.gullies {
		g.setDepths()
		b.cutTrench(g)
	}
	return nil
}

// add keeps a gully, names it and lays its floor, so that those that join it can see it.
func (b *builder) add(stem int, g *gully) {
	g.name = fmt.Sprintf("T%02d", len(b.gullies)+1)
	b.taken[stem] = true
	b.layFloor(g)
	b.gullies = append(b.gullies, g)
}

// chooseTrunk takes the main valley, down to where it leaves the data.
func (b *builder) chooseTrunk() error {
	l := lineOf(b.land, b.routing, b.stems[0])
	from, to := -1, -1
	for k, p := range l.at {
		in := b.canvas.holds(p, 0)
		if from < 0 && b.canvas.holds(p, trunkInsetM) && l.areaM2[k] >= trunkAreaM2 {
			from = k
		}
		if in {
			to = k
		}
	}
	if from < 0 || to-from < 3*shortestM {
		return errors.New("the main valley is too short; try another seed")
	}
	to = min(to+15, l.length())
	b.add(0, &gully{line: l.part(0, to), from: from, to: to, bedWidthM: 4, siltM: 1.0,
		heads: []step{{from, 1.4}}})
	return nil
}

// chooseValleys takes side valleys too large for check dams that meet a trenched one.
func (b *builder) chooseValleys() {
	for k, s := range b.stems {
		n := len(s.cells)
		if b.taken[k] || s.into < 0 || b.routing.areaM2[s.cells[n-2]] < valleyAreaM2 {
			continue
		}
		l := lineOf(b.land, b.routing, s)
		g := &gully{line: l, bedWidthM: 3.4, siltM: 0.85}
		for g.from < l.length() && l.areaM2[g.from] < trunkAreaM2 {
			g.from++
		}
		g.heads = []step{{g.from, 1.2}}
		b.endTrench(k, g, l.length())
		if g.into != nil && g.to-g.from > shortestM && b.clear(g) {
			b.add(k, g)
		}
	}
}

// staysIn reports whether a line runs on inside the data from a station, far enough for a
// trench.
func (b *builder) staysIn(l line, from int) bool {
	to := from + shortestM
	for k := from; k <= to; k += 10 {
		if k > l.length() || !b.canvas.holds(l.at[k], 15) {
			return false
		}
	}
	return true
}

// chooseEntering takes the largest drainage that comes in over the north edge of the data.
func (b *builder) chooseEntering() error {
	best, most, at := line{}, 0.0, 0
	pick := -1
	for k, s := range b.stems[1:] {
		l := lineOf(b.land, b.routing, s)
		for m := 1; m <= l.length(); m++ {
			if l.at[m-1].s < 0 && l.at[m].s >= 0 && l.areaM2[m] > most && b.staysIn(l, m+30) {
				best, most, at, pick = l, l.areaM2[m], m, k+1
			}
		}
	}
	if most < enterLeastM2 {
		return errors.New("no drainage enters the data from the north; try another seed")
	}
	g := &gully{
		line: best.part(at-enterAboveM, best.length()), enters: true,
		bedWidthM: 3, siltM: 0.7, heads: []step{{0, 1.1}},
	}
	b.endTrench(pick, g, min(enterMostM, g.line.length()))
	b.add(pick, g)
	return nil
}
