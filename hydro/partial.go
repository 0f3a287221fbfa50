package hydro

import (
	"cmp"
	"math"
	"slices"

	"siltstep/hydro/siting"
)

// partial tells whether what came back from the field lists of a drainage only what it changes: it has no row without an edit. Then the dams
// that are not listed are those of the plan without edits. A drainage that is not in the file at all is partial too.
func (f *fieldwork) partial(drainage int) bool {
	for _, was := range f.earlier[drainage] {
		edited := slices.ContainsFunc(f.asked[drainage], func(a placed) bool { return a.ID == was.ID })
		if !edited {
			return false
		}
	}
	return true
}

// complete adds to the earlier dams of a drainage those of the plan without edits that the file does not list, so that ids stay. Where the
// file rejects a dam or sets its height by an id that this plan does not have, that is a fault.
func (f *fieldwork) complete(drainage int, plain []siting.Site) (faults EditFaults) {
	listed, known := map[string]bool{}, map[string]bool{}
	for _, was := range f.earlier[drainage] {
		listed[was.ID] = true
	}
	for _, s := range plain {
		known[s.ID] = true
		near := slices.ContainsFunc(f.earlier[drainage], func(was Earlier) bool { return math.Abs(was.StationM-s.StationM) <= samePlaceM })
		if !listed[s.ID] && !near {
			f.earlier[drainage] = append(f.earlier[drainage], Earlier{ID: s.ID, StationM: s.StationM, X: s.X, Y: s.Y, HeightM: s.EffectiveHeightM, RockT: math.NaN()})
		}
	}
	slices.SortStableFunc(f.earlier[drainage], func(a, b Earlier) int { return cmp.Compare(a.StationM, b.StationM) })
	for _, a := range f.asked[drainage] {
		if _, _, ok := ParseDamID(a.ID); ok && !known[a.ID] && (a.Action == siting.Reject || a.Action == siting.Fix) {
			faults = append(faults, EditFault{Row: a.Row, Text: a.ID + " is no dam of the plan of this elevation model and these settings: look its id up in sites.geojson of that plan, and hand back its edits.csv whole where the plan was made with edits"})
		}
	}
	return faults
}
