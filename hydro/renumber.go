package hydro

import (
	"math"

	"siltstep/hydro/siting"
)

// sameDamM is how far along the channel a dam that was laid out anew may lie from an earlier one and keep its id, m; half the
// way to the next dam, if that is less. Source: our own choice.
const sameDamM = 5.0

// renumber gives the dams of a drainage, by station, numbers and ids that stay with those of the earlier plan: of a dam
// that an edit asks for that of the edit, of any other that of the earlier dam at the same station, or else of the nearest within
// sameDamM, in order and one to one. The rest takes the next free numbers above the largest ever used, upstream; the
// number of a rejected dam is not used again. So numbers need not rise upstream. Where nothing is known of an earlier plan all stays.
func (f *fieldwork) renumber(drainage int, sites []siting.Site) {
	if f == nil || len(f.asked[drainage]) == 0 && len(f.earlier[drainage]) == 0 {
		return
	}
	numbers := make([]int, len(sites))
	free := make([]bool, len(sites)) // not asked for by an edit
	for k := range free {
		free[k] = true
	}
	spoken := map[string]bool{} // ids that an edit speaks of
	for e, k := range f.standing(drainage, sites) {
		a := f.asked[drainage][e]
		if a.ID != "" {
			spoken[a.ID] = true
		}
		if k >= 0 {
			free[k] = false
			_, numbers[k], _ = ParseDamID(a.ID)
		}
	}
	f.keepNumbers(drainage, sites, numbers, free, spoken)
	next := f.largest(drainage)
	for k := range sites {
		if numbers[k] == 0 {
			next++
			numbers[k] = next
		}
		sites[k].Number, sites[k].ID = numbers[k], DamID(sites[k].Drainage, numbers[k])
	}
}

// keepNumbers hands the numbers of earlier dams of which no edit speaks to the dams that stand in for them.
func (f *fieldwork) keepNumbers(drainage int, sites []siting.Site, numbers []int, free []bool, spoken map[string]bool) {
	var old, oldM, newM, reachM []float64
	var at []int
	for _, was := range f.earlier[drainage] {
		if !spoken[was.ID] && !math.IsNaN(was.StationM) {
			_, n, _ := ParseDamID(was.ID)
			old, oldM = append(old, float64(n)), append(oldM, was.StationM)
		}
	}
	for k := range sites {
		if free[k] {
			at, newM = append(at, k), append(newM, sites[k].StationM)
			reachM = append(reachM, reachOf(sites, k))
		}
	}
	for k, o := range align(oldM, newM, reachM) {
		if o >= 0 {
			numbers[at[k]] = int(old[o])
		}
	}
}

// reachOf returns how far dam k may lie from an earlier one and be the same, m.
func reachOf(sites []siting.Site, k int) float64 {
	reachM := sameDamM
	if k > 0 {
		reachM = min(reachM, (sites[k].StationM-sites[k-1].StationM)/2)
	}
	if k+1 < len(sites) {
		reachM = min(reachM, (sites[k+1].StationM-sites[k].StationM)/2)
	}
	return max(reachM, samePlaceM)
}

// standing returns for each edit of a drainage the position of the dam that stands where it asks; −1 where none does, and for a
// rejection. Sites are by station.
func (f *fieldwork) standing(drainage int, sites []siting.Site) []int {
	at := make([]int, len(f.asked[drainage]))
	next := 0
	for e, a := range f.asked[drainage] {
		at[e] = -1
		if a.Action == siting.Reject {
			continue
		}
		for next < len(sites) && sites[next].StationM < a.stationM-samePlaceM/2 {
			next++
		}
		if next < len(sites) && sites[next].StationM <= a.stationM+samePlaceM/2 {
			at[e] = next
			next++
		}
	}
	return at
}

// largest returns the largest number of a drainage that earlier dams, rejected ones too, and edits have.
func (f *fieldwork) largest(drainage int) (most int) {
	for _, was := range f.earlier[drainage] {
		_, n, _ := ParseDamID(was.ID)
		most = max(most, n)
	}
	for _, a := range f.asked[drainage] {
		_, n, _ := ParseDamID(a.ID)
		most = max(most, n)
	}
	return most
}

// A pairing is how well a number of earlier dams and a number of new ones go together.
type pairing struct {
	same, pairs int // at one place; all
	awayM       float64
}

func (p pairing) betterThan(q pairing) bool {
	if p.same != q.same {
		return p.same > q.same
	}
	if p.pairs != q.pairs {
		return p.pairs > q.pairs
	}
	return p.awayM < q.awayM
}

// align returns for each new dam the position of the earlier dam that it stands in for, or −1. Both ascend, and
// so do the pairs; a pair lies no further apart than reachM of the new dam. Of all such pairings it is the one
// with most dams at the same place (samePlaceM), then with most pairs, then with the least sum of distances. Cost: the product of both numbers.
func align(oldM, newM, reachM []float64) []int {
	best := make([][]pairing, len(oldM)+1) // of the first o earlier and n new dams
	for o := range best {
		best[o] = make([]pairing, len(newM)+1)
	}
	pair := func(o, n int) (pairing, bool) {
		awayM := math.Abs(oldM[o-1] - newM[n-1])
		p := best[o-1][n-1]
		p.pairs, p.awayM = p.pairs+1, p.awayM+awayM
		if awayM <= samePlaceM {
			p.same++
		}
		return p, awayM <= reachM[n-1]
	}
	for o := 1; o <= len(oldM); o++ {
		for n := 1; n <= len(newM); n++ {
			b := best[o-1][n]
			if best[o][n-1].betterThan(b) {
				b = best[o][n-1]
			}
			if p, ok := pair(o, n); ok && p.betterThan(b) {
				b = p
			}
			best[o][n] = b
		}
	}
	of := make([]int, len(newM))
	for n := range of {
		of[n] = -1
	}
	for o, n := len(oldM), len(newM); o > 0 && n > 0; {
		switch p, ok := pair(o, n); {
		case ok && p == best[o][n] && p.betterThan(best[o-1][n]) && p.betterThan(best[o][n-1]):
			of[n-1] = o - 1
			o, n = o-1, n-1
		case best[o-1][n] == best[o][n]:
			o--
		default:
			n--
		}
	}
	return of
}
