package siting

import (
	"cmp"
	"math"
	"math/bits"
	"slices"
)

// How Pick reckons. Source of all: our own choice.
const (
	pickScale  = 1e4     // values and costs are taken to a ten-thousandth, so that sums and ties are exact
	pickMost   = 1e11    // a greater value counts as this
	pickWidest = 1 << 17 // choices that may be open side by side
	pickWork   = 1 << 21 // choices that are looked at before the search is thinned: about a tenth of a second
	pickThin   = 1 << 10 // choices kept side by side in a thinned search
)

// Pick chooses among wholes, each with a value and a cost, those worth most together within a budget, values and costs
// taken to a ten-thousandth. Of choices of the same worth it takes the one that costs least, and of those the one with
// the lower index where two first differ. What has no value above 0, no known cost of 0 and up, or costs more than the budget
// is not chosen; a budget that is not a number buys nothing. proven is false where the search was cut short, so that a choice worth more may
// be there: that takes dozens of wholes nearly alike in value per cost. Then one of the same worth at less cost may be there
// too. It panics where the lists differ in length.
//
// Method: pairs of cost and value that no other beats in both, kept in a list that grows whole by whole in the order
// of value per cost; a pair that cannot reach the best choice found so far, even if a part of a whole could be
// bought, is dropped (NemhauserUllmann1969, from memory).
func Pick(values, costs []float64, budget float64) (chosen []bool, proven bool) {
	if len(values) != len(costs) {
		panic("siting: values and costs differ in number")
	}
	chosen = make([]bool, len(values))
	wares, all := waresOf(values, costs, budget)
	if all <= budget {
		for _, w := range wares {
			chosen[w.index] = true
		}
		return chosen, true
	}
	s := newPick(wares, len(values), exactly(budget))
	for k := range wares {
		s.offer(k)
	}
	best, proven := s.result()
	for i := range chosen {
		chosen[i] = best[i/64]&bitOf(i) != 0
	}
	return chosen, proven
}

// ware is a whole that can be chosen, value and cost in ten-thousandths.
type ware struct {
	index       int
	value, cost int64
}

// exactly returns a number in ten-thousandths.
func exactly(x float64) int64 { return int64(math.Round(min(x, pickMost) * pickScale)) }

// waresOf returns what can be chosen, by value per cost, then by index, and the sum of its costs.
func waresOf(values, costs []float64, budget float64) (wares []ware, all float64) {
	for i, v := range values {
		if v*pickScale >= 0.5 && costs[i] >= 0 && costs[i] <= budget {
			wares = append(wares, ware{i, exactly(v), exactly(costs[i])})
			all += costs[i]
		}
	}
	slices.SortFunc(wares, func(a, b ware) int {
		hiA, loA := bits.Mul64(uint64(a.value), uint64(b.cost))
		hiB, loB := bits.Mul64(uint64(b.value), uint64(a.cost))
		return cmp.Or(cmp.Compare(hiB, hiA), cmp.Compare(loB, loA), cmp.Compare(a.index, b.index))
	})
	return wares, all
}

// bitOf returns the bit of an index in its word: the lower index has the higher bit, so that of two sets the one with the
// greater number holds the lower index where they first differ.
func bitOf(index int) uint64 { return 1 << (63 - index%64) }

// frontier is a list of choices by rising cost and rising value.
type frontier struct {
	costs, values []int64
	sets          []uint64 // words of each, one after the other
}

func (f *frontier) set(i, words int) []uint64 { return f.sets[i*words : (i+1)*words] }

func (f *frontier) clear() { f.costs, f.values, f.sets = f.costs[:0], f.values[:0], f.sets[:0] }

// pick is a search in progress.
type pick struct {
	wares  []ware
	budget int64
	words  int      // of a set
	costs  []int64  // of the first wares together, from none to all
	values []int64  // likewise
	now    frontier // choices among the wares offered so far
	next   frontier // being made
	best   pickBest // choice of the greatest value found so far
	top    int64    // what no choice can be worth more than
	work   int      // choices looked at
	thin   bool     // the search has been cut short
	taken  []uint64 // scratch
}

// pickBest is a whole choice.
type pickBest struct {
	value, cost int64
	set         []uint64
}

func newPick(wares []ware, n int, budget int64) *pick {
	s := &pick{wares: wares, budget: budget, words: (n + 63) / 64, costs: make([]int64, len(wares)+1), values: make([]int64, len(wares)+1)}
	for k, w := range wares {
		s.costs[k+1], s.values[k+1] = s.costs[k]+w.cost, s.values[k]+w.value
	}
	s.taken = make([]uint64, s.words)
	s.best.set = make([]uint64, s.words)
	s.now = frontier{[]int64{0}, []int64{0}, make([]uint64, s.words)}
	_, _, s.top = s.fill(0, 0, 0, 0)
	return s
}

// fill returns what a choice can come to with the wares from k on, taken in turn: end is the first that does not fit whole, reached is the worth
// with those before it, and most the worth with a part of it too. from is a ware that is known to be no later than end.
func (s *pick) fill(k, from int, cost, value int64) (end int, reached, most int64) {
	end = max(k, from)
	left := s.budget - cost + s.costs[k]
	for end < len(s.wares) && s.costs[end+1] <= left {
		end++
	}
	for end > k && s.costs[end] > left {
		end--
	}
	reached = value + s.values[end] - s.values[k]
	if end == len(s.wares) {
		return end, reached, reached
	}
	w := s.wares[end]
	hi, lo := bits.Mul64(uint64(left-s.costs[end]), uint64(w.value))
	part, _ := bits.Div64(hi, lo, uint64(w.cost))
	return end, reached, reached + int64(part)
}

// offer adds to each choice that of taking ware k, and keeps what no other beats and what may still come to the best.
func (s *pick) offer(k int) {
	w, old := s.wares[k], &s.now
	s.next.clear()
	word, bit := w.index/64, bitOf(w.index)
	end := len(s.wares)
	for i, j := 0, 0; i < len(old.costs); {
		takes := j < len(old.costs) && s.takeFirst(i, j, w)
		if takes {
			copy(s.taken, old.set(j, s.words))
			s.taken[word] |= bit
			end = s.keep(k+1, end, old.costs[j]+w.cost, old.values[j]+w.value, s.taken)
			j++
		} else {
			end = s.keep(k+1, end, old.costs[i], old.values[i], old.set(i, s.words))
			i++
		}
		if i == len(old.costs) {
			for ; j < len(old.costs) && old.costs[j]+w.cost <= s.budget; j++ {
				copy(s.taken, old.set(j, s.words))
				s.taken[word] |= bit
				end = s.keep(k+1, end, old.costs[j]+w.cost, old.values[j]+w.value, s.taken)
			}
		}
	}
	s.now, s.next = s.next, s.now
	s.limit()
}

// takeFirst reports whether choice j with w comes before choice i without it: it costs less; at the same cost it is worth more; at the same worth it is
// the set with the lower index.
func (s *pick) takeFirst(i, j int, w ware) bool {
	f := &s.now
	cost, value := f.costs[j]+w.cost, f.values[j]+w.value
	if cost != f.costs[i] {
		return cost < f.costs[i]
	}
	if value != f.values[i] {
		return value > f.values[i]
	}
	a, b := f.set(j, s.words), f.set(i, s.words)
	for n := range a {
		x := a[n]
		if n == w.index/64 {
			x |= bitOf(w.index)
		}
		if x != b[n] {
			return x > b[n]
		}
	}
	return false
}

// keep adds a choice to the next list where it is worth more than all that cost no more, and may come to the best.
func (s *pick) keep(k, from int, cost, value int64, set []uint64) (end int) {
	s.work++
	n := len(s.next.values)
	if n > 0 && s.next.values[n-1] >= value {
		return from
	}
	end, reached, most := s.fill(k, from, cost, value)
	if most < s.best.value {
		return end
	}
	if reached > s.best.value {
		s.best.value, s.best.cost = reached, cost+s.costs[end]-s.costs[k]
		copy(s.best.set, set)
		for _, w := range s.wares[k:end] {
			s.best.set[w.index/64] |= bitOf(w.index)
		}
	}
	s.next.costs, s.next.values, s.next.sets = append(s.next.costs, cost), append(s.next.values, value), append(s.next.sets, set...)
	return end
}

// limit thins the choices evenly where there are too many, or where the search has taken too long.
func (s *pick) limit() {
	n := len(s.now.costs)
	if n <= pickThin || (n <= pickWidest && s.work <= pickWork && !s.thin) {
		return
	}
	s.thin = true
	for i := range pickThin {
		from := i * (n - 1) / (pickThin - 1)
		s.now.costs[i], s.now.values[i] = s.now.costs[from], s.now.values[from]
		copy(s.now.set(i, s.words), s.now.set(from, s.words))
	}
	s.now.costs, s.now.values, s.now.sets = s.now.costs[:pickThin], s.now.values[:pickThin], s.now.sets[:pickThin*s.words]
}

// result returns the best choice, and whether there is none better.
func (s *pick) result() (set []uint64, proven bool) {
	last := len(s.now.values) - 1
	if last >= 0 && (s.now.values[last] > s.best.value || s.now.values[last] == s.best.value && s.now.costs[last] <= s.best.cost) {
		return s.now.set(last, s.words), !s.thin || s.now.values[last] == s.top
	}
	return s.best.set, !s.thin || s.best.value == s.top
}
