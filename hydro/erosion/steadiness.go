package erosion

import (
	"math/rand/v2"
	"slices"
)

// How steadiness is drawn. Source: our own choice.
const (
	SteadyDraws = 200 // draws of weights and measurements
	SteadyFirst = 10  // places at the head of the ranking
	weightLeast = 0.5 // a weight is drawn evenly from this to weightMost times as set
	weightMost  = 1.5
	steadySeed1 = 10  // of the generator, a PCG of 128 bits of state
	steadySeed2 = 200 // likewise
)

// setSteady sets Steady for the drainages in ranked: the share of draws in which each is among the
// first SteadyFirst. In every draw each weight is varied, and each measured part by a normal error of
// its own scatter; incision, bank slope and incised length share one. Where equals meet at the last
// place they share what is left of it, so that the sum over all drainages is SteadyFirst, or their
// number where there are fewer. The seeds are fixed and all is drawn in the order of the drainages.
func setSteady(judged []Judgement, all []evidence, ranked []int, cfg Config) {
	if len(ranked) == 0 {
		return
	}
	rng := rand.New(rand.NewPCG(steadySeed1, steadySeed2))
	scales := cfg.scales()
	places := make([]float64, len(ranked))
	totals := make([]float64, len(ranked))
	for range SteadyDraws {
		var weights [partCount]float64
		for k, p := range scales {
			weights[k] = p.scale.Weight * (weightLeast + (weightMost-weightLeast)*rng.Float64())
		}
		for k, i := range ranked {
			totals[k] = total(all[i].drawn(rng), weights, scales)
		}
		addPlaces(places, totals)
	}
	for k, i := range ranked {
		judged[i].Severity.Steady = places[k] / SteadyDraws
	}
}

// drawn returns the values with an error drawn for each. It draws the same number of times whatever
// is known, so that one drainage does not move the draws of the next.
func (e evidence) drawn(rng *rand.Rand) values {
	depth, headcut := rng.NormFloat64(), rng.NormFloat64()
	v := e.values
	for k := range v {
		z := depth
		if k == partHeadcuts {
			z = headcut
		}
		v[k] += z * e.scatter[k]
	}
	return v
}

// largest returns the n-th largest of the values, of which there are n or more.
func largest(values []float64, n int) float64 {
	head := make([]float64, 0, SteadyFirst+1) // the n largest so far, the least first
	for _, v := range values {
		if len(head) == n && v <= head[0] {
			continue
		}
		at, _ := slices.BinarySearch(head, v)
		if head = slices.Insert(head, at, v); len(head) > n {
			head = head[1:]
		}
	}
	return head[0]
}

// addPlaces adds to each place the share of it in the first SteadyFirst of totals: 1 or 0, and a part
// of 1 for equals at the last place.
func addPlaces(places, totals []float64) {
	first := min(SteadyFirst, len(totals))
	last := largest(totals, first)
	above, equal := 0, 0
	for _, t := range totals {
		switch {
		case t > last:
			above++
		case t == last:
			equal++
		}
	}
	for k, t := range totals {
		switch {
		case t > last:
			places[k]++
		case t == last:
			places[k] += float64(first-above) / float64(equal)
		}
	}
}
