package siting

import (
	"math/rand/v2"
	"slices"
	"testing"
)

// changed returns a problem with each option changed; siltL still asks for what it was.
func changed(p *problem, change func(o *option)) *problem {
	q := *p
	q.options = slices.Clone(p.options)
	for i := range q.options {
		change(&q.options[i])
	}
	return &q
}

// shifted moves a problem along the channel and up. Both ways must be whole 1,024ths of a metre.
func shifted(p *problem, alongM, upM float64) *problem {
	move := func(alongM, upM float64) func(o *option) {
		return func(o *option) {
			o.axisM, o.endM, o.meetM, o.lip.stationM = o.axisM+alongM, o.endM+alongM, o.meetM+alongM, o.lip.stationM+alongM
			o.bedM, o.lip.levelM = o.bedM+upM, o.lip.levelM+upM
		}
	}
	q := changed(p, move(alongM, upM))
	q.need = slices.Clone(p.need)
	for i := range q.need {
		q.need[i] = span{q.need[i].fromM + alongM, q.need[i].toM + alongM}
	}
	q.siltL = func(o *option, toM float64) int64 {
		back := *o
		move(-alongM, -upM)(&back)
		return p.siltL(&back, toM-alongM)
	}
	return q
}

// without returns a problem without one of its options.
func (p *problem) without(k int) *problem {
	q := *p
	q.options = slices.Delete(slices.Clone(p.options), k, k+1)
	return &q
}

// onlyAsked tells whether an option is the only one of a place where the field asks for a dam.
func onlyAsked(p *problem, k int) bool {
	o := p.options[k]
	n := 0
	for _, other := range p.options {
		if other.axisM == o.axisM {
			n++
		}
	}
	return o.must && n == 1
}

func TestBestLayoutOfAChangedProblem(t *testing.T) {
	dearer, lost := 0, 0
	for i := range 1500 {
		r := rand.New(rand.NewPCG(13, uint64(i)))
		p := anyProblem(r, 12)
		for _, o := range Objectives() {
			p.objective = o
			chosen := p.solve()
			best := tallyOf(p, chosen)
			if got := shifted(p, 1237.25, -55.5).solve(); !slices.Equal(got, chosen) {
				t.Fatalf("problem %d, %s: %v where it stands, %v elsewhere\n%s", i, o, chosen, got, told(p))
			}
			double := changed(p, func(o *option) { o.rockKg *= 2 })
			double.fixedKg *= 2
			if got := double.solve(); !slices.Equal(got, chosen) {
				t.Fatalf("problem %d, %s: %v, and %v at twice the cost\n%s", i, o, chosen, got, told(p))
			}
			for k := range p.options {
				if onlyAsked(p, k) {
					continue
				}
				q := p.without(k)
				now := better(o, best, tallyOf(q, q.solve()))
				if now > 0 || now < 0 && !slices.Contains(chosen, k) {
					t.Fatalf("problem %d, %s: without option %d: %+v, with it %+v, as %v\n%s", i, o, k, tallyOf(q, q.solve()), best, chosen, told(p))
				}
				if now < 0 {
					lost++
				}
			}
			if best.dams > 0 && best.costKg > 0 {
				dearer++
			}
		}
	}
	if dearer < 1000 || lost < 1000 {
		t.Errorf("only %d layouts cost anything, and only %d got worse without one of their dams", dearer, lost)
	}
}

// oneChange tries each layout that differs from another by one dam: left out, added, or put elsewhere between its neighbours.
func oneChange(p *problem, chosen []int, try func([]int)) {
	for i := 0; i <= len(chosen); i++ {
		from, to := 0, len(p.options)
		if i > 0 {
			from = chosen[i-1] + 1
		}
		if i < len(chosen) {
			try(slices.Delete(slices.Clone(chosen), i, i+1))
			to = chosen[i]
		}
		for k := from; k < to; k++ {
			try(slices.Insert(slices.Clone(chosen), i, k))
		}
		if i+1 < len(chosen) {
			to = chosen[i+1]
		} else {
			to = len(p.options)
		}
		for k := from; k < to && i < len(chosen); k++ {
			other := slices.Clone(chosen)
			other[i] = k
			try(other)
		}
	}
}

func TestLayoutOfManyPlaces(t *testing.T) {
	cfg := Defaults()
	for seed := range uint64(1) {
		r := rand.New(rand.NewPCG(17, seed))
		terms := terms{bed: anyBed(r, 750), heights: cfg.Heights(), bodyScale: 1, barM: 600, rock: 3, lips: 0.02}
		p := &problem{fixedKg: 1000, need: []span{{0, 200}, {230, 590}, {610, 740}}}
		var axes []float64
		for i := range 500 {
			axes = append(axes, 1.5*float64(i))
			p.options = append(p.options, anyPlace(r, terms, 1.5*float64(i))...)
		}
		p.siltL = anySilt(r, axes)
		for _, o := range Objectives() {
			p.objective = o
			chosen := p.solve()
			if why := layoutFault(p, chosen); why != "" || len(chosen) < 5 {
				t.Fatalf("%s: %d dams: %s", o, len(chosen), why)
			}
			best := tallyOf(p, chosen)
			if march := p.march(); better(o, tallyOf(p, march), best) < 0 {
				t.Errorf("%s: march %+v, best %+v", o, tallyOf(p, march), best)
			}
			oneChange(p, chosen, func(other []int) {
				if better(o, tallyOf(p, other), best) < 0 && layoutFault(p, other) == "" {
					t.Errorf("%s: %v is %+v; %v is better: %+v", o, chosen, best, other, tallyOf(p, other))
				}
			})
		}
	}
}

func TestBareGroundInMillimetres(t *testing.T) {
	// Stations as they come, not whole parts of a metre: what is bare is within 1 mm of each end of ground and wedge.
	for i := range 500 {
		r := rand.New(rand.NewPCG(19, uint64(i)))
		p := anyProblem(r, 12)
		for k := range p.options {
			p.options[k].endM += r.Float64()
		}
		var chosen []int
		at, endM := -1.0, -1.0
		for k, o := range p.options {
			if o.axisM > at && o.endM > endM && r.IntN(3) == 0 {
				chosen = append(chosen, k)
				at, endM = o.axisM, o.endM
			}
		}
		// Walked in steps of half a millimetre.
		const stepM = 0.0005
		walked := 0.0
		for _, n := range p.need {
			for s := n.fromM + stepM/2; s < n.toM; s += stepM {
				if !slices.ContainsFunc(chosen, func(k int) bool { return p.options[k].axisM <= s && s <= p.options[k].endM }) {
					walked += 1000 * stepM
				}
			}
		}
		if off := walked - float64(p.bareMM(chosen)); off < -float64(2+2*len(chosen)+2*len(p.need)) || off > float64(2+2*len(chosen)+2*len(p.need)) {
			t.Fatalf("problem %d: %d mm bare, walked %.1f\n%v\n%s", i, p.bareMM(chosen), walked, chosen, told(p))
		}
	}
}
