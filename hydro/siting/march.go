package siting

import "math"

// march returns the options of a plain march, from the lowest up: the first dam as low as there is a place, as high as the place
// allows; each next one, likewise, at the highest place that the wedge below still reaches, or where there is none at
// the first above. It is what the best layout is compared with.
func (p *problem) march() (chosen []int) {
	at := -1
	for {
		next := -1
		for k := max(at, 0); k < len(p.options); k++ {
			o := &p.options[k]
			if at < 0 && !o.free() || at >= 0 && (o.axisM <= p.options[at].axisM || !mayFollow(&p.options[at], o)) {
				continue
			}
			if next >= 0 && o.axisM > p.options[next].axisM && (at < 0 || o.axisM > p.options[at].endM) {
				break
			}
			if next >= 0 && o.station == p.options[next].station && o.heightM < p.options[next].heightM {
				continue // a little higher up, and lower
			}
			next = k // later ones are higher up, or higher
		}
		if next < 0 {
			return chosen
		}
		chosen = append(chosen, next)
		at = next
	}
}

// MarchName is the name of a plain march among layouts that are compared.
const MarchName = "plain-march"

// name returns the name of a layout by an objective.
func (o Objective) name() string {
	if o == "" {
		return string(LeastRock)
	}
	return string(o)
}

// Alternative is what one way of laying out a drainage takes, by the sizes that the layout was chosen by.
type Alternative struct {
	Name   string // an objective, or MarchName; empty where it was not looked for
	Dams   int
	RockT  float64 // rock to order, t
	CostT  float64 // the same with Config.DamCostT for each dam
	BareM  float64 // eligible ground that a layout is to cover and does not: less the uppermost metre of each reach, m
	OpenM  float64 // all eligible ground that no dam covers, m
	SiltM3 float64 // silt held, m³; NaN where Ground.SiltM3 is not given
}

// add takes in the layout of a problem.
func (a *Alternative) add(p *problem, name string, chosen []int) {
	a.Name = name
	a.Dams += len(chosen)
	for _, k := range chosen {
		a.RockT += float64(p.options[k].rockKg) / 1000
	}
	a.CostT += float64(p.costKg(chosen)) / 1000
	a.BareM += float64(p.bareMM(chosen)) / 1000
	a.OpenM += float64(bareMM(p.eligible, p.options, chosen)) / 1000
	if p.siltL == nil {
		a.SiltM3 = math.NaN()
		return
	}
	a.SiltM3 += float64(p.heldL(chosen)) / 1000
}

// compare solves a problem for every objective.
func (l *Layout) compare(p *problem) {
	all := Objectives()
	if p.siltL == nil {
		all = all[:2]
	}
	if l.Others == nil {
		l.Others = make([]Alternative, len(all))
	}
	for i, objective := range all {
		q := *p
		q.objective = objective
		l.Others[i].add(&q, string(objective), q.solve())
	}
}
