package siting

import (
	"fmt"
	"math"
	"math/rand/v2"
	"slices"
	"testing"
)

// A tally is what a layout comes to, added up anew.
type tally struct {
	bareMM, dams, rockKg, costKg, litres int64
}

// belowMM returns the ground to be covered below a station, mm.
func belowMM(need []span, s float64) int64 {
	sum := 0.0
	for _, n := range need {
		sum += 1000 * min(max(s-n.fromM, 0), n.toM-n.fromM)
	}
	return int64(math.Round(sum))
}

// tallyOf adds up a layout.
func tallyOf(p *problem, chosen []int) tally {
	t := tally{bareMM: belowMM(p.need, 1e9)}
	doneM := -1e9
	for i, k := range chosen {
		o := p.options[k]
		t.dams++
		t.rockKg += o.rockKg
		t.costKg += o.rockKg + p.fixedKg
		if o.endM > doneM {
			t.bareMM -= belowMM(p.need, o.endM) - belowMM(p.need, max(o.axisM, doneM))
			doneM = o.endM
		}
		fullM := o.endM
		if i+1 < len(chosen) {
			above := p.options[chosen[i+1]]
			fullM = min(fullM, above.axisM-above.downM)
		}
		t.litres += p.siltL(&o, fullM)
	}
	return t
}

// better tells whether a beats b: below zero where it does. A layout that costs nothing beats any that costs.
func better(objective Objective, a, b tally) int {
	rank := func(x, y int64) int {
		switch {
		case x < y:
			return -1
		case x > y:
			return 1
		}
		return 0
	}
	if by := rank(a.bareMM, b.bareMM); by != 0 {
		return by
	}
	switch objective {
	case FewestDams:
		if by := rank(a.dams, b.dams); by != 0 {
			return by
		}
		return rank(a.rockKg, b.rockKg)
	case MostSedimentPerTonne:
		if a.costKg == 0 || b.costKg == 0 {
			return rank(min(a.costKg, 1), min(b.costKg, 1))
		}
		return rank(b.litres*a.costKg, a.litres*b.costKg)
	}
	return rank(a.costKg, b.costKg)
}

// pairFault says what is wrong with two dams next to each other; empty where nothing is.
func pairFault(below, above option) string {
	if !(below.axisM < above.axisM) {
		return "not upstream"
	}
	if below.must && above.must {
		return ""
	}
	toe, heel := above.axisM-above.downM, below.axisM+below.upM
	low, high := below.bedM+below.heightM, above.bedM+above.heightM
	lipBetween := above.lip.levelM > -1e9 && above.lip.stationM > below.axisM
	switch {
	case toe < heel-1e-9:
		return "bodies overlap"
	case high <= low:
		return "sill is no higher"
	case above.axisM <= below.endM && above.endM <= below.endM:
		return "covers nothing more"
	case lipBetween && low < above.lip.levelM-1e-6:
		return "a lip is not drowned"
	}
	return ""
}

// layoutFault says what is wrong with a layout; empty where nothing is.
func layoutFault(p *problem, chosen []int) string {
	stands := map[float64]bool{}
	for i, k := range chosen {
		o := p.options[k]
		stands[o.axisM] = true
		if i == 0 {
			if o.lip.levelM > -1e9 && !o.must {
				return "the lowest needs a dam below"
			}
		} else if why := pairFault(p.options[chosen[i-1]], o); why != "" {
			return fmt.Sprintf("options %d and %d: %s", chosen[i-1], k, why)
		}
	}
	for _, o := range p.options {
		if o.must && !stands[o.axisM] {
			return fmt.Sprintf("no dam at %g m, where the field asks for one", o.axisM)
		}
	}
	return ""
}

// everyLayout tries all layouts of a problem, in the order of a dictionary of indexes. ok is false where there are over most.
func everyLayout(p *problem, most int, try func(chosen []int)) (ok bool) {
	// lastMust is the highest place asked for below an option, by index: what may not be passed over.
	var grow func(chosen []int)
	grow = func(chosen []int) {
		if most--; most < 0 {
			return
		}
		if layoutFault(p, chosen) == "" {
			try(chosen)
		}
		from := 0
		if n := len(chosen); n > 0 {
			from = chosen[n-1] + 1
		}
		for k := from; k < len(p.options); k++ {
			o := p.options[k]
			fits := len(chosen) == 0 && (o.must || o.lip.levelM < -1e9) || len(chosen) > 0 && pairFault(p.options[chosen[len(chosen)-1]], o) == ""
			if fits {
				grow(append(slices.Clip(chosen), k))
			}
		}
	}
	grow(nil)
	return most >= 0
}

// told prints a problem, to be read where a test fails.
func told(p *problem) (text string) {
	text = fmt.Sprintf("fixed %d kg, need %v\n", p.fixedKg, p.need)
	for i, o := range p.options {
		text += fmt.Sprintf("%2d: %.4f m, %g m high, bed %.4f, wedge to %.4f (meets at %.4f), body -%g +%g, lip %v, %d kg, %d L, must %t\n",
			i, o.axisM, o.heightM, o.bedM, o.endM, o.meetM, o.downM, o.upM, o.lip, o.rockKg, p.siltL(&o, o.endM), o.must)
	}
	return text
}

// checkSolved solves a problem for an objective and holds the answer against what it should come to.
func checkSolved(t *testing.T, name string, p *problem, want tally, lowest []int) {
	t.Helper()
	chosen := p.solve()
	if why := layoutFault(p, chosen); why != "" {
		t.Fatalf("%s, %s: layout %v: %s\n%s", name, p.objective, chosen, why, told(p))
	}
	got := tallyOf(p, chosen)
	if better(p.objective, got, want) != 0 {
		t.Fatalf("%s, %s: layout %v is %+v; the best of all is %+v, as %v\n%s", name, p.objective, chosen, got, want, lowest, told(p))
	}
	if p.bareMM(chosen) != got.bareMM || p.costKg(chosen) != got.costKg || p.heldL(chosen) != got.litres {
		t.Fatalf("%s: layout %v comes to %d mm, %d kg, %d L; added up anew it is %+v\n%s",
			name, chosen, p.bareMM(chosen), p.costKg(chosen), p.heldL(chosen), got, told(p))
	}
	if p.objective != MostSedimentPerTonne && !slices.Equal(chosen, lowest) {
		t.Fatalf("%s, %s: layout %v; of equal ones that with the lowest indexes is %v\n%s", name, p.objective, chosen, lowest, told(p))
	}
}

func TestBestLayoutOfAll(t *testing.T) {
	most, cases := 20_000, 4000
	if testing.Short() {
		cases = 400
	}
	tried := 0
	for i := range cases {
		r := rand.New(rand.NewPCG(7, uint64(i)))
		p := anyProblem(r, 3+i*10/cases) // the smallest first, so that the first to fail is easy to read
		best, lowest := map[Objective]tally{}, map[Objective][]int{}
		ok := everyLayout(p, most, func(chosen []int) {
			now := tallyOf(p, chosen)
			for _, o := range Objectives() {
				if was, any := best[o]; !any || better(o, now, was) < 0 {
					best[o], lowest[o] = now, slices.Clone(chosen)
				}
			}
		})
		if !ok {
			continue
		}
		tried++
		for _, o := range Objectives() {
			p.objective = o
			checkSolved(t, fmt.Sprint("problem ", i), p, best[o], lowest[o])
		}
	}
	if tried < cases*8/10 {
		t.Errorf("only %d of %d problems were small enough", tried, cases)
	}
}
