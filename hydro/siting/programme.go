package siting

import (
	"math"
	"slices"
)

// A programme is the dynamic programme over the options of a problem: of every option the best layout that ends with it.
type programme struct {
	*problem
	gauge
	cost func(o *option) (first, second int64)
	gain func(o *option, toM float64) int64 // nil for none: added to the first of a score once it is known where an option's silt ends

	axisMM, endMM []int64 // eligible ground below the axis, and below the end, of each option
	best          []score // of the layouts that end with each option, what lies above its end left out
	from          []int32 // the option before it in the best layout; −1 for none, never for an option that cannot end one
	open          []bool  // a layout ends with the option
	spanM         float64 // the furthest from an axis that any dam bears on the next: its wedge, or its body
}

// best returns the best layout for a cost of each dam.
func (p *problem) best(cost func(o *option) (first, second int64), gain func(o *option, toM float64) int64) []int {
	n := len(p.options)
	g := programme{problem: p, gauge: newGauge(p.need), cost: cost, gain: gain,
		axisMM: make([]int64, n), endMM: make([]int64, n), best: make([]score, n), from: make([]int32, n), open: make([]bool, n)}
	mostDownM := 0.0
	for k := range p.options {
		mostDownM = max(mostDownM, p.options[k].downM)
	}
	for k := range p.options {
		o := &p.options[k]
		g.axisMM[k], g.endMM[k] = g.mm(o.axisM), g.mm(o.endM)
		g.spanM = max(g.spanM, o.meetM-o.axisM, o.endM-o.axisM, o.upM+mostDownM)
	}
	g.run()
	return g.trace()
}

// run fills in the best layouts, option by option upstream. Dams that stand further below than spanM bear on an
// option in one way only, by the ground left uncovered between, so that the best of them is kept as one; nearer
// ones are tried each. What the field asks for cannot be passed over: with each the dams below it are out of reach.
func (g *programme) run() {
	far := carried{from: -1, open: true} // the best of all that lies far below; at first no dam at all
	taken, first := 0, 0                 // options below taken are in far; those below first lie beneath what the field asks for
	for k := range g.options {
		o := &g.options[k]
		if k > 0 && g.options[k-1].must && g.options[k-1].axisM < o.axisM {
			first = g.firstAt(k - 1)
			far, taken = carried{}, first
		}
		nearM := min(o.axisM, o.lip.stationM) - g.spanM
		for taken < k && g.options[taken].axisM < nearM {
			far.add(g, taken)
			taken++
		}
		g.extend(k, max(first, g.firstFrom(nearM)), far)
	}
}

// carried is the best of the layouts that end far below, without the ground that they cover.
type carried struct {
	score
	from int32
	open bool
}

// add takes in the layouts that end with an option.
func (c *carried) add(g *programme, k int) {
	if !g.open[k] {
		return
	}
	s := g.ended(k)
	s.bareMM -= g.endMM[k]
	if !c.open || s.less(c.score) {
		*c = carried{s, int32(k), true}
	}
}

// ended returns the best layout that ends with an option, its silt told to the end of its wedge.
func (g *programme) ended(k int) score {
	s := g.best[k]
	if g.gain != nil {
		s.first += g.gain(&g.options[k], g.options[k].endM)
	}
	return s
}

// firstFrom returns the first option whose axis lies at a station or above it.
func (g *programme) firstFrom(stationM float64) int {
	i, _ := slices.BinarySearchFunc(g.options, stationM, func(o option, m float64) int {
		if o.axisM < m {
			return -1
		}
		return 1
	})
	return i
}

// firstAt returns the first option of the place of option k.
func (g *programme) firstAt(k int) int {
	for k > 0 && g.options[k-1].axisM == g.options[k].axisM {
		k--
	}
	return k
}

// extend finds the best layout that ends with option k, above one of the options from near on or above what lies far below.
func (g *programme) extend(k, near int, far carried) {
	o := &g.options[k]
	least, from, open := score{}, int32(-1), false
	if far.open && (o.free() || o.must) {
		least, from, open = far.score, far.from, true
		least.bareMM += g.axisMM[k]
	}
	for b := near; b < k; b++ {
		below := &g.options[b]
		if !g.open[b] || below.axisM >= o.axisM {
			continue
		}
		s := g.best[b]
		if g.gain != nil {
			s.first += g.gain(below, toeOf(below, o))
		}
		if below.endM < o.axisM {
			s.bareMM += g.axisMM[k] - g.endMM[b]
		} else {
			s.lapMM += int64(math.Round(1000 * (below.endM - o.axisM)))
		}
		if open && !s.less(least) || !mayFollow(below, o) {
			continue
		}
		least, from, open = s, int32(b), true
	}
	if !open {
		return
	}
	first, second := g.cost(o)
	g.best[k], g.from[k], g.open[k] = least.plus(score{first: first, second: second}), from, true
}

// trace returns the options of the best layout of all, from the lowest up.
func (g *programme) trace() []int {
	allMM := g.mm(math.Inf(1))
	last, least := -1, score{bareMM: allMM}
	must := slices.ContainsFunc(g.options, func(o option) bool { return o.must })
	for k := len(g.options) - 1; k >= 0; k-- {
		if g.open[k] {
			s := g.ended(k)
			s.bareMM += allMM - g.endMM[k]
			if last < 0 && must || s.less(least) || s == least && last >= 0 {
				last, least = k, s
			}
		}
		if g.options[k].must && g.firstAt(k) == k {
			break
		}
	}
	var chosen []int
	for k := int32(last); k >= 0; k = g.from[k] {
		chosen = append(chosen, int(k))
	}
	slices.Reverse(chosen)
	return chosen
}
