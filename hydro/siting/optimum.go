package siting

import (
	"math"
	"slices"
)

// A problem is what the best layout of a stretch of channel is sought for.
type problem struct {
	options   []option // by axis, then by height; at a place the field asks for all are
	need      []span   // eligible ground to be covered, from the lower end, apart from each other
	eligible  []span   // all eligible ground, likewise
	objective Objective
	fixedKg   int64 // what a dam costs beside its rock

	// siltL returns what an option holds up to a station, litres; called for MostSedimentPerTonne alone.
	siltL func(o *option, toM float64) int64
}

// A span is a stretch of channel between two stations, m.
type span struct{ fromM, toM float64 }

// A score is how good a layout is: the least is best, compared in order. Whole numbers, so that sums do not depend on
// their order.
type score struct {
	bareMM        int64 // eligible ground left uncovered, mm
	first, second int64 // by objective
	lapMM         int64 // how far wedges reach over the dams above them, mm: of equal layouts dams stand toe to crest
}

func (a score) plus(b score) score {
	return score{a.bareMM + b.bareMM, a.first + b.first, a.second + b.second, a.lapMM + b.lapMM}
}

func (a score) less(b score) bool {
	switch {
	case a.bareMM != b.bareMM:
		return a.bareMM < b.bareMM
	case a.first != b.first:
		return a.first < b.first
	case a.second != b.second:
		return a.second < b.second
	}
	return a.lapMM < b.lapMM
}

// solve returns the options of the best layout, from the lowest dam up: of those that leave the least eligible ground
// uncovered the best by the objective; of equal ones one whose wedges overlap least. Exact, and always the same. nil where there is no option. Most silt a tonne is a
// ratio: it is found by Dinkelbach's method, which solves for the best difference at the ratio so far until there is none better.
func (p *problem) solve() []int {
	switch p.objective {
	case FewestDams:
		return p.best(func(o *option) (int64, int64) { return 1, o.rockKg }, nil)
	case MostSedimentPerTonne:
		return p.bestRatio()
	}
	return p.best(func(o *option) (int64, int64) { return o.rockKg + p.fixedKg, 0 }, nil)
}

// bestRatio solves for the most silt a tonne.
func (p *problem) bestRatio() []int {
	cost := func(o *option) int64 { return o.rockKg + p.fixedKg }
	chosen := p.best(func(o *option) (int64, int64) { return cost(o), 0 }, nil)
	for {
		kg, litres := p.costKg(chosen), p.heldL(chosen)
		if kg <= 0 {
			return chosen
		}
		// Both are bounded well below 2³¹ on any drainage, so that their products are exact.
		next := p.best(func(o *option) (int64, int64) { return litres * cost(o), 0 },
			func(o *option, toM float64) int64 { return -kg * p.siltL(o, toM) })
		if litres*p.costKg(next)-kg*p.heldL(next) >= 0 {
			return chosen
		}
		chosen = next
	}
}

// costKg returns what a layout costs, kg of rock.
func (p *problem) costKg(chosen []int) (kg int64) {
	for _, k := range chosen {
		kg += p.options[k].rockKg + p.fixedKg
	}
	return kg
}

// heldL returns the silt that a layout holds, litres.
func (p *problem) heldL(chosen []int) (litres int64) {
	for i, k := range chosen {
		o := &p.options[k]
		toM := o.endM
		if i+1 < len(chosen) {
			toM = toeOf(o, &p.options[chosen[i+1]])
		}
		litres += p.siltL(o, toM)
	}
	return litres
}

// toeOf returns where the silt of a dam ends under the next: at the end of its wedge, or at the toe of the next dam.
func toeOf(below, above *option) float64 { return min(below.endM, above.axisM-above.downM) }

// bareMM returns the eligible ground that a layout leaves uncovered, mm: what lies between the wedge of one dam and the axis of the next. A dam that
// stands drowned by the one below, as only the field can ask for, takes over from it.
func (p *problem) bareMM(chosen []int) int64 { return bareMM(p.need, p.options, chosen) }

// bareMM returns how much of some ground a layout leaves uncovered, mm.
func bareMM(need []span, options []option, chosen []int) int64 {
	g := newGauge(need)
	bare, covered := int64(0), math.Inf(-1)
	for _, k := range chosen {
		o := &options[k]
		if o.axisM > covered {
			bare += g.mm(o.axisM) - g.mm(covered)
		}
		covered = o.endM
	}
	return bare + g.mm(math.Inf(1)) - g.mm(covered)
}

// A gauge measures eligible ground up to a station in whole millimetres, so that differences add up.
type gauge struct {
	spans []span
	sumMM []float64 // up to the lower end of each
}

func newGauge(need []span) gauge {
	g := gauge{spans: need, sumMM: make([]float64, len(need))}
	sum := 0.0
	for i, s := range need {
		g.sumMM[i] = sum
		sum += 1000 * (s.toM - s.fromM)
	}
	return g
}

// mm returns the eligible ground below a station, mm.
func (g gauge) mm(stationM float64) int64 {
	i, _ := slices.BinarySearchFunc(g.spans, stationM, func(s span, m float64) int {
		if s.fromM <= m {
			return -1
		}
		return 1
	})
	if i == 0 {
		return 0
	}
	s := g.spans[i-1]
	return int64(math.Round(g.sumMM[i-1] + 1000*(min(stationM, s.toM)-s.fromM)))
}
