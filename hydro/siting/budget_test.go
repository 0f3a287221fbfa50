package siting

import (
	"fmt"
	"math"
	"math/rand/v2"
	"slices"
	"testing"
	"time"
)

// everyChoice is the slow twin of Pick: all sets are tried. values and costs are whole numbers here.
func everyChoice(values, costs []float64, budget float64) []bool {
	n := len(values)
	best := make([]bool, n)
	bestValue, bestCost := 0.0, 0.0
	for mask := range 1 << n {
		value, cost, ok := 0.0, 0.0, true
		for i := range n {
			if mask>>i&1 == 1 {
				value, cost = value+values[i], cost+costs[i]
				ok = ok && values[i] > 0 && costs[i] >= 0
			}
		}
		if !ok || !(cost <= budget) || value < bestValue {
			continue
		}
		set := make([]bool, n)
		for i := range n {
			set[i] = mask>>i&1 == 1
		}
		if value > bestValue || value == bestValue && (cost < bestCost || cost == bestCost && firstHolds(set, best)) {
			best, bestValue, bestCost = set, value, cost
		}
	}
	return best
}

// firstHolds reports whether a holds the lower index where the sets first differ.
func firstHolds(a, b []bool) bool {
	for i := range a {
		if a[i] != b[i] {
			return a[i]
		}
	}
	return false
}

func TestPickAgainstEveryChoice(t *testing.T) {
	rng := rand.New(rand.NewPCG(11, 12))
	for trial := range 4000 {
		n := rng.IntN(11)
		if trial%200 == 0 {
			n = 15
		}
		span := []int{3, 12, 1000}[rng.IntN(3)] // few distinct numbers give many ties
		values, costs := make([]float64, n), make([]float64, n)
		for i := range n {
			values[i], costs[i] = float64(rng.IntN(span)), float64(rng.IntN(span))
			switch rng.IntN(12) {
			case 0:
				values[i] = math.NaN()
			case 1:
				costs[i] = math.NaN()
			case 2:
				costs[i] = values[i] // like in value per cost
			}
		}
		budget := float64(rng.IntN(1 + n*span/2))
		got, proven := Pick(values, costs, budget)
		if want := everyChoice(values, costs, budget); !slices.Equal(got, want) || !proven {
			t.Fatalf("trial %d: values %v, costs %v, budget %g: %v (proven %v), want %v", trial, values, costs, budget, got, proven, want)
		}
	}
}

func TestPickByHand(t *testing.T) {
	nan := math.NaN()
	for _, c := range []struct {
		name          string
		values, costs []float64
		budget        float64
		want          []bool
	}{
		{"none to choose from", nil, nil, 10, []bool{}},
		{"the best ratio is not the best choice: 6 for 5, or 5 + 5 for 10", []float64{6, 5, 5}, []float64{5.01, 5, 5}, 10, []bool{false, true, true}},
		{"all fit", []float64{1, 2}, []float64{3, 4}, 7, []bool{true, true}},
		{"a cent too little", []float64{1, 2}, []float64{3, 4}, 6.99, []bool{false, true}},
		{"tenths: 0.1 + 0.2 is 0.3", []float64{1, 1, 1}, []float64{0.1, 0.2, 0.3}, 0.3, []bool{true, true, false}},
		{"the same worth for less", []float64{5, 5}, []float64{4, 3}, 4, []bool{false, true}},
		{"the same worth and cost", []float64{5, 5, 5}, []float64{4, 4, 4}, 8, []bool{true, true, false}},
		{"no cost known", []float64{9, 1}, []float64{nan, 1}, 10, []bool{false, true}},
		{"nothing to gain", []float64{0, 1, nan}, []float64{0, 1, 1}, 10, []bool{false, true, false}},
		{"no budget", []float64{1}, []float64{1}, nan, []bool{false}},
		{"endless budget", []float64{1, 1}, []float64{1e300, nan}, math.Inf(1), []bool{true, false}},
		{"free of charge", []float64{1, 1}, []float64{0, 5}, 4, []bool{true, false}},
	} {
		if got, proven := Pick(c.values, c.costs, c.budget); !slices.Equal(got, c.want) || !proven {
			t.Errorf("%s: %v (proven %v), want %v", c.name, got, proven, c.want)
		}
	}
}

// worth sums up a choice.
func worth(chosen []bool, values, costs []float64) (value, cost float64) {
	for i, yes := range chosen {
		if yes {
			value, cost = value+values[i], cost+costs[i]
		}
	}
	return value, cost
}

// greatestWorth is another slow twin, for many wholes with whole costs: the greatest worth within each whole cost.
func greatestWorth(values, costs []float64, budget int) float64 {
	best := make([]float64, budget+1)
	for i, c := range costs {
		for b := budget; b >= int(c); b-- {
			best[b] = max(best[b], best[b-int(c)]+values[i])
		}
	}
	return best[budget]
}

func TestPickOfManyInTime(t *testing.T) {
	const n = 300
	// The longest takes 0.2 s on a laptop core. The time allowed is so much more that a busy machine with race checks passes
	// and a search that grows without end does not.
	const allowed = 30 * time.Second
	for _, c := range []struct {
		name   string
		value  func(rng *rand.Rand, cost float64) float64
		cost   func(rng *rand.Rand) float64
		proven bool // the search must end by itself
	}{
		{"value and cost apart", func(rng *rand.Rand, _ float64) float64 { return 1 + float64(rng.IntN(1000)) }, func(rng *rand.Rand) float64 { return 1 + float64(rng.IntN(1000)) }, true},
		{"value near the cost", func(rng *rand.Rand, c float64) float64 { return c*(0.8+0.4*rng.Float64()) + 1 }, func(rng *rand.Rand) float64 { return 1 + float64(rng.IntN(1000)) }, true},
		{"value the cost and a constant", func(_ *rand.Rand, c float64) float64 { return c + 100 }, func(rng *rand.Rand) float64 { return 1 + float64(rng.IntN(1000)) }, false},
		{"value is the cost, which is even", func(_ *rand.Rand, c float64) float64 { return c }, func(rng *rand.Rand) float64 { return 2 * float64(1+rng.IntN(500)) }, false},
		{"all alike", func(_ *rand.Rand, c float64) float64 { return c }, func(*rand.Rand) float64 { return 7 }, true},
	} {
		t.Run(c.name, func(t *testing.T) {
			rng := rand.New(rand.NewPCG(3, 4))
			values, costs := make([]float64, n), make([]float64, n)
			total := 0.0
			for i := range n {
				costs[i] = c.cost(rng)
				values[i] = math.Round(1e4*c.value(rng, costs[i])) / 1e4
				total += costs[i]
			}
			budget := math.Floor(total/3) + 1 - math.Mod(math.Floor(total/3), 2) // odd: even costs cannot add up to it
			began := time.Now()
			chosen, proven := Pick(values, costs, budget)
			took := time.Since(began)
			value, cost := worth(chosen, values, costs)
			want := greatestWorth(values, costs, int(budget))
			t.Logf("%v, proven %v, worth %.4f of %.4f", took, proven, value, want)
			if took > allowed || cost > budget {
				t.Errorf("took %v; cost %g of %g", took, cost, budget)
			}
			if c.proven && !proven {
				t.Error("the search was cut short")
			}
			const slackOfSums = 1e-6 // of 300 values with 4 decimals
			if proven && math.Abs(value-want) > slackOfSums {
				t.Errorf("worth %.4f is said to be the best; %.4f is", value, want)
			}
			if value < 0.999*want { // our own choice: a search cut short must still be near
				t.Errorf("worth %.4f, far from %.4f", value, want)
			}
			if again, _ := Pick(values, costs, budget); !slices.Equal(again, chosen) {
				t.Error("two runs differ")
			}
		})
	}
}

func TestPickPanicsOnListsOfDifferentLength(t *testing.T) {
	defer func() {
		if said := recover(); said == nil || fmt.Sprint(said)[:7] != "siting:" {
			t.Errorf("got %v", said)
		}
	}()
	Pick([]float64{1}, nil, 1)
}
