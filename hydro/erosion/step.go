package erosion

import (
	"cmp"
	"math"
	"slices"

	"siltstep/hydro/channel"
)

// Where steps of a bed are looked for. Source: our own choice, tried on drawn beds with noise.
const (
	stepRunM  = 4.0 // m; the longest run of a step: the raw bed blurs one over some cells
	stepCells = 3.0 // and as many cell sides
	nearM     = 5.0 // m of bed to either side by which steps are found; no two are nearer
	nearCells = 3.0 // and as many cell sides
	sideM     = 3.0 // m; the least bed to either side
	sideLeast = 3   // and the least stations
	hint      = 0.7 // share of the least height from which a place is looked at
)

// step is a step of the bed, by positions of stations.
type step struct {
	foot, lip int     // highest station of the bed below, lowest of the bed above
	heightM   float64 // between both beds at the middle of the step
	below     bedLine // the bed below

	aboveSlope float64 // of the bed above, rise over run
}

// limits are what a step must come up to.
type limits struct {
	cellM, noiseM float64
	leastM        float64 // least height
}

// steps finds the steps in a run of stations that all show the bed, from the lower end upstream.
//
// Each candidate is measured by the bed as far as the next one. Of those that are no steps the one where the beds lie
// least apart is dropped and the rest measured again, until all are.
func steps(st []channel.Station, lim limits) []step {
	found := candidates(st, lim)
	for len(found) > 0 {
		measured := make([]step, len(found))
		drop := -1
		for k, c := range found {
			from, to := 0, len(st)
			if k > 0 {
				from = found[k-1].lip
			}
			if k+1 < len(found) {
				to = found[k+1].foot + 1
			}
			s, ok := measure(st[from:to], c.foot-from, c.lip-from, lim)
			s.foot += from
			s.lip += from
			measured[k] = s
			if !ok && (drop < 0 || c.apartM < found[drop].apartM) {
				drop = k
			}
		}
		if drop < 0 {
			return measured
		}
		found = slices.Delete(found, drop, drop+1)
	}
	return nil
}

// candidate is a place where the beds to either side of it lie apart.
type candidate struct {
	foot, lip int
	apartM    float64
}

// candidates returns the places where straight lines through the near bed to either side lie apart, from the lower end
// upstream: of all pairs of stations the one with most between them, then the one with most among those farther from
// it, and so on.
func candidates(st []channel.Station, lim limits) []candidate {
	near := max(nearM, nearCells*lim.cellM)
	all := pairsApart(st, near, lim)
	slices.SortFunc(all, func(a, b candidate) int {
		return cmp.Or(cmp.Compare(b.apartM, a.apartM), cmp.Compare(a.lip-a.foot, b.lip-b.foot), cmp.Compare(a.foot, b.foot))
	})
	middleM := func(c candidate) float64 { return (st[c.foot].StationM + st[c.lip].StationM) / 2 }
	var out []candidate
	for _, c := range all {
		if !slices.ContainsFunc(out, func(o candidate) bool { return math.Abs(middleM(c)-middleM(o)) <= near }) {
			out = append(out, c)
		}
	}
	slices.SortFunc(out, func(a, b candidate) int { return cmp.Compare(a.foot, b.foot) })
	return out
}

// pairsApart returns the pairs of stations within the run of a step between which the near beds lie apart.
func pairsApart(st []channel.Station, nearM float64, lim limits) []candidate {
	below, above := make([]bedLine, len(st)), make([]bedLine, len(st))
	for i := range st {
		below[i] = nearestLine(bedBelow(st, i, nearM))
		above[i] = nearestLine(bedAbove(st, i, nearM))
	}
	runM := max(stepRunM, stepCells*lim.cellM)
	var all []candidate
	for i := range st {
		if !enough(st[:i+1]) {
			continue
		}
		for j := i + 1; j < len(st) && st[j].StationM-st[i].StationM <= runM && enough(st[j:]); j++ {
			if m := apart(below[i], above[j], st[i].StationM, st[j].StationM); m >= hint*lim.leastM {
				all = append(all, candidate{i, j, m})
			}
		}
	}
	return all
}

// enough reports whether stations are enough of a bed to tell a step by.
func enough(st []channel.Station) bool {
	return len(st) >= sideLeast && st[len(st)-1].StationM-st[0].StationM >= sideM
}

// apart returns by how much a bed above lies over a bed below, in metres: where that is least, at the foot or at the lip,
// so that a bed which only bends at either is not taken for a step.
func apart(below, above bedLine, footM, lipM float64) float64 {
	return min(above.at(footM)-below.at(footM), above.at(lipM)-below.at(lipM))
}

// bedBelow returns the stations up to i and no more than a length below it.
func bedBelow(st []channel.Station, i int, lengthM float64) []channel.Station {
	k := i
	for k > 0 && st[i].StationM-st[k-1].StationM <= lengthM {
		k--
	}
	return st[k : i+1]
}

// bedAbove returns the stations from i and no more than a length above it.
func bedAbove(st []channel.Station, i int, lengthM float64) []channel.Station {
	k := i
	for k+1 < len(st) && st[k+1].StationM-st[i].StationM <= lengthM {
		k++
	}
	return st[i : k+1]
}
