package field

import (
	"cmp"
	"slices"
	"strconv"
	"strings"

	"siltstep/cmd/internal/facts"
)

// A run is a series of dams as it is built.
type run struct {
	id       string
	drainage string
	order    int // place in the order of building from 1; 0 where it has none
	before   string
	dams     []facts.Site // from the lowest upstream, never empty
}

// runsOf returns the series of a plan that have dams in it: those with a place in the order of building first. A dam that no series
// of the plan names joins a run by the number that it carries itself.
func runsOf(f *facts.Folder) (list []run) {
	of := map[string]int{} // run by dam
	at := map[string]int{} // run by id
	for _, s := range f.Series {
		at[s.ID] = len(list)
		for id := range strings.FieldsSeq(s.DamIDs) {
			of[id] = len(list)
		}
		r := run{id: s.ID, drainage: s.Drainage, before: s.Before}
		if !s.LeftOut {
			r.order = max(0, s.BuildOrder)
		}
		list = append(list, r)
	}
	for _, s := range f.Sites {
		i, ok := of[s.ID]
		if !ok {
			id := s.Drainage + "-S" + strconv.Itoa(s.Series)
			if i, ok = at[id]; !ok {
				i = len(list)
				at[id] = i
				list = append(list, run{id: id, drainage: s.Drainage})
			}
		}
		list[i].dams = append(list[i].dams, s)
	}
	list = slices.DeleteFunc(list, func(r run) bool { return len(r.dams) == 0 })
	slices.SortStableFunc(list, func(a, b run) int {
		return cmp.Or(cmp.Compare(boolInt(a.order == 0), boolInt(b.order == 0)), cmp.Compare(a.order, b.order))
	})
	for _, r := range list {
		slices.SortStableFunc(r.dams, func(a, b facts.Site) int { return cmp.Compare(a.StationM, b.StationM) })
	}
	return list
}

func boolInt(b bool) int {
	if b {
		return 1
	}
	return 0
}
