package siting

import (
	"cmp"
	"fmt"
	"math"
	"math/rand/v2"
	"slices"
	"testing"
)

// A tally is what a layout comes to, added up anew.
type tally struct {
	bareMM, dams, rockKg, costKg, litres int64

	lapMM int64 // how far wedges reach over the next dam
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
	doneM := -1e9 // what lies above it is not covered yet; a dam that the one below drowns brings it down again
	for i, k := range chosen {
		o := p.options[k]
		t.dams++
		t.rockKg += o.rockKg
		t.costKg += o.rockKg + p.fixedKg
		t.bareMM -= belowMM(p.need, o.endM) - belowMM(p.need, max(o.axisM, doneM))
		doneM = o.endM
		fullM := o.endM
		if i+1 < len(chosen) {
			above := p.options[chosen[i+1]]
			fullM = min(fullM, above.axisM-above.downM)
			t.lapMM += int64(math.Round(1000 * max(0, o.endM-above.axisM)))
		}
		t.litres += p.siltL(&o, fullM)
	}
	return t
}

// better tells whether a beats b: below zero where it does. A layout that costs nothing beats any that costs. Overlap of wedges
// decides last, but not for a ratio.
func better(objective Objective, a, b tally) int {
	if objective == MostSedimentPerTonne {
		if a.costKg == 0 || b.costKg == 0 {
			return cmp.Or(cmp.Compare(a.bareMM, b.bareMM), cmp.Compare(min(a.costKg, 1), min(b.costKg, 1)))
		}
		return cmp.Or(cmp.Compare(a.bareMM, b.bareMM), cmp.Compare(b.litres*a.costKg, a.litres*b.costKg))
	}
	by := cmp.Compare(a.costKg, b.costKg)
	if objective == FewestDams {
		by = cmp.Or(cmp.Compare(a.dams, b.dams), cmp.Compare(a.rockKg, b.rockKg))
	}
	return cmp.Or(cmp.Compare(a.bareMM, b.bareMM), by, cmp.Compare(a.lapMM, b.lapMM))
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
	if again := p.solve(); !slices.Equal(again, chosen) {
		t.Fatalf("%s, %s: layout %v, and %v when asked again\n%s", name, p.objective, chosen, again, told(p))
	}
}

func TestBestLayoutOfAll(t *testing.T) {
	const most = 20_000
	cases := 4000
	if testing.Short() {
		cases = 400
	}
	tried := 0
	for i := range cases {
		r := rand.New(rand.NewPCG(7, uint64(i)))
		p := anyProblem(r, 3+i*10/cases) // the smallest first, so that the first to fail is easy to read
		best, example := map[Objective]tally{}, map[Objective][]int{}
		ok := everyLayout(p, most, func(chosen []int) {
			now := tallyOf(p, chosen)
			for _, o := range Objectives() {
				if was, any := best[o]; !any || better(o, now, was) < 0 {
					best[o], example[o] = now, slices.Clone(chosen)
				}
			}
		})
		if !ok {
			continue
		}
		tried++
		for _, o := range Objectives() {
			p.objective = o
			checkSolved(t, fmt.Sprint("problem ", i), p, best[o], example[o])
		}
	}
	if tried < cases*8/10 {
		t.Errorf("only %d of %d problems were tried", tried, cases)
	}
}

func TestMarchIsNeverBetter(t *testing.T) {
	marched := 0
	for i := range 2000 {
		p := anyProblem(rand.New(rand.NewPCG(11, uint64(i))), 12)
		march := p.march()
		if layoutFault(p, march) != "" {
			continue // it passes over what the field asks for
		}
		marched++
		for _, o := range Objectives() {
			p.objective = o
			if best := p.solve(); better(o, tallyOf(p, march), tallyOf(p, best)) < 0 {
				t.Fatalf("problem %d, %s: march %v is %+v, best %v %+v\n%s", i, o, march, tallyOf(p, march), best, tallyOf(p, best), told(p))
			}
		}
	}
	if marched < 1000 {
		t.Errorf("only %d problems have a march", marched)
	}
}

// even is a problem on an even bed: options of one height every stepM over a need that begins at 0.
func even(slope, heightM, ratio, stepM, needM float64) *problem {
	p := &problem{need: []span{{0, needM}}, fixedKg: 1000}
	for i := 0; float64(i)*stepM < needM; i++ {
		axisM := float64(i) * stepM
		endM := axisM + heightM/(slope*(1-ratio))
		p.options = append(p.options, option{axisM: axisM, heightM: heightM, bedM: 100 + slope*axisM, endM: endM, meetM: endM,
			upM: 1.15, downM: 2.05, lip: lipNeed{axisM, math.Inf(-1)}, rockKg: 3000})
	}
	p.siltL = func(o *option, toM float64) int64 {
		x := min(toM, o.endM) - o.axisM
		return int64(1000 * max(0, o.heightM*x-slope*(1-ratio)*x*x/2))
	}
	return p
}

func TestEvenBed(t *testing.T) {
	const foot = 0.3048 // m, exact
	tests := []struct {
		name                         string
		slope, heightM, ratio, stepM float64
		needM, spacingM              float64
		dams                         int
	}{
		// Spacing is H/(S(1 − f)); the count is the length over it, rounded up.
		{"6 %, level", 0.06, 0.6, 0, 0.5, 100, 10, 10},
		{"6 %, half the slope of the bed", 0.06, 0.6, 0.5, 0.5, 100, 20, 5},
		// 2 ft dams, spacing by slope in feet: IndianaCheckDam, recomputed. 1,000 ft, for the first 1,200 ft.
		{"0.5 %", 0.005, 2 * foot, 0, 5 * foot, 1200 * foot, 400 * foot, 3},
		{"1 %", 0.01, 2 * foot, 0, 5 * foot, 1000 * foot, 200 * foot, 5},
		{"2 %", 0.02, 2 * foot, 0, 5 * foot, 1000 * foot, 100 * foot, 10},
		{"4 %", 0.04, 2 * foot, 0, 5 * foot, 1000 * foot, 50 * foot, 20},
		{"5 %", 0.05, 2 * foot, 0, 5 * foot, 1000 * foot, 40 * foot, 25},
		{"8 %", 0.08, 2 * foot, 0, 5 * foot, 1000 * foot, 25 * foot, 40},
	}
	for _, tt := range tests {
		for _, o := range Objectives() {
			p := even(tt.slope, tt.heightM, tt.ratio, tt.stepM, tt.needM)
			p.objective = o
			chosen := p.solve()
			if len(chosen) != tt.dams || p.bareMM(chosen) != 0 {
				t.Errorf("%s, %s: %d dams, %d mm bare; want %d and none", tt.name, o, len(chosen), p.bareMM(chosen), tt.dams)
				continue
			}
			for i, k := range chosen {
				if got := p.options[k].axisM; math.Abs(got-float64(i)*tt.spacingM) > 1e-9 {
					t.Errorf("%s, %s: dam %d at %g m, want %g", tt.name, o, i+1, got, float64(i)*tt.spacingM)
				}
			}
		}
	}
}
