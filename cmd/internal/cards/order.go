package cards

import (
	"cmp"
	"slices"
	"strconv"
	"strings"

	"siltstep/cmd/internal/facts"
)

// A run is a series with its dams from the lowest upstream.
type run struct {
	facts.Series
	dams []facts.Site
}

// runsOf returns the series of a plan in the order in which they are built, those left out last. Dams that no series of the plan
// names form runs by the number that they carry themselves.
func runsOf(f *facts.Folder) (list []run) {
	taken := make(map[string]bool, len(f.Sites))
	at := make(map[string]int, len(f.Sites))
	for i, s := range f.Sites {
		at[s.ID] = i
	}
	for _, s := range f.Series {
		r := run{Series: s}
		for id := range strings.FieldsSeq(s.DamIDs) {
			if i, ok := at[id]; ok && !taken[id] {
				taken[id] = true
				r.dams = append(r.dams, f.Sites[i])
			}
		}
		list = append(list, r)
	}
	slices.SortStableFunc(list, func(a, b run) int { return cmp.Compare(a.turn(), b.turn()) })
	list = append(list, loose(f, taken)...)
	for _, r := range list {
		slices.SortStableFunc(r.dams, func(a, b facts.Site) int { return cmp.Compare(a.StationM, b.StationM) })
	}
	return list
}

// loose gathers dams outside the listed series.
func loose(f *facts.Folder, taken map[string]bool) (list []run) {
	at := map[string]int{}
	for _, s := range f.Sites {
		if taken[s.ID] {
			continue
		}
		id := s.Drainage + "-S" + strconv.Itoa(s.Series)
		i, ok := at[id]
		if !ok {
			i = len(list)
			at[id] = i
			list = append(list, run{Series: facts.Series{ID: id, Drainage: s.Drainage, Number: s.Series, Loads: unknown, Year: unknown, Quantities: facts.Quantities{RockM3: unknown, RockT: unknown}}})
		}
		list[i].dams = append(list[i].dams, s)
	}
	for i := range list {
		list[i].Dams = len(list[i].dams)
	}
	return list
}

// turn orders series: those of the build order, those without a place in it, those left out.
func (r run) turn() int {
	const last = 1 << 30
	switch {
	case r.LeftOut:
		return last
	case r.BuildOrder <= 0:
		return last - 1
	}
	return r.BuildOrder
}

// place tells when a series is built.
func (r run) place() string {
	switch {
	case r.LeftOut:
		return "left out"
	case r.BuildOrder <= 0:
		return "not set"
	}
	return strconv.Itoa(r.BuildOrder)
}

// idsText names the dams of a run, "D07-01 to D07-09" where their numbers follow each other.
func (r run) idsText() string {
	if len(r.dams) == 0 {
		return "none"
	}
	first, last := r.dams[0], r.dams[len(r.dams)-1]
	follow := last.Number-first.Number == len(r.dams)-1
	for i, s := range r.dams {
		follow = follow && s.Number == first.Number+i
	}
	if follow && len(r.dams) > 2 {
		return first.ID + " to " + last.ID
	}
	ids := make([]string, len(r.dams))
	for i, s := range r.dams {
		ids[i] = s.ID
	}
	return strings.Join(ids, ", ")
}
