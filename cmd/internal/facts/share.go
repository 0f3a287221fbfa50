package facts

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"github.com/paulmach/orb"
)

// Layers lists the layers whose exact places can be kept private, in the order of a settings file. Limits are what the user declared:
// property line, exclusions, buildings, roads.
func Layers() []string {
	return []string{"dams", "headcuts", "drainages", "catchments", "depressions", "footprints", "limits"}
}

// betrayed lists, for a private layer, the other layers that its places could be read from.
var betrayed = map[string][]string{
	"drainages":  {"dams", "headcuts", "catchments", "depressions", "footprints"}, // which lie on the lines, or end on them
	"dams":       {"footprints"},                                                  // drawn around dams
	"footprints": {"dams"},                                                        // whose footprints they are, by a margin that the settings tell
	"limits":     {"footprints"},                                                  // strips run from dams to roads
}

// Hidden returns the layers whose places Share leaves out: the private ones and those that would betray them, in the order of Layers.
// None for none. It panics on a name that is no layer.
func Hidden(private []string) (layers []string) {
	for _, p := range private {
		if !slices.Contains(Layers(), p) {
			panic(fmt.Sprintf("facts: no layer %q", p))
		}
		layers = append(append(layers, p), betrayed[p]...)
	}
	slices.SortFunc(layers, func(a, b string) int { return slices.Index(Layers(), a) - slices.Index(Layers(), b) })
	return slices.Compact(layers)
}

// Share returns a copy of a plan without the exact places of private layers, and without what they could be worked out from:
//
//   - Longitude, latitude and map position of hidden points are not known; hidden lines and polygons are not there.
//   - A place on a line is given away by its station, by the catchment there, and by the height of the bed above the sea: these are not
//     known either at hidden dams and headcuts, nor the distances from dam to dam, which add up to stations, nor where series begin and end.
//   - A profile shows a dam, a step or a cut, and the pieces by verdict begin and end at them: drainages that carry something hidden have
//     none of the two. Cross-sections at hidden dams are left out, as they stand at a height above the sea.
//   - Texts lose each sentence with a figure in it ("6.5 m upstream", "station 115.0 m", "x 548747.5"); findings about the plan as a whole
//     keep theirs. What the field asked for in words of its own is left out. Findings have no place.
//
// What remains are measures: how many, how high, how long, how much. A caution says what was left out. The plan given is not changed;
// what is not private is shared with it. Without a private layer all is as it was. It panics on a name that is no layer.
//
// Limits: the elevation model itself shows gullies and banks. Whoever has it can make the plan again, and a shaded relief under the map
// shows to the eye where channels run: leave it out where drainages are hidden.
func Share(f *Folder, private []string) *Folder {
	s := *f // its lists are replaced below, never changed in place
	layers := Hidden(private)
	if len(layers) == 0 {
		return &s
	}
	h := func(layer string) bool { return slices.Contains(layers, layer) }
	s.Cautions = append([]Text{{shareCaution(layers)}}, f.Cautions...)
	if h("catchments") {
		s.Catchments = map[string]orb.Geometry{}
	}
	if h("limits") {
		s.Limits = map[string][]orb.Geometry{}
		s.Drainages = each(f.Drainages, func(d *Drainage) { d.PropertyShare = unknown })
	}
	if h("dams") {
		s.hideDams()
	}
	if h("headcuts") {
		s.Headcuts = each(f.Headcuts, func(c *Headcut) { c.Place, c.StationM, c.CatchmentHa = nowhere, unknown, unknown })
	}
	if h("depressions") {
		s.Depressions = each(f.Depressions, func(d *Depression) { d.Place = nowhere })
	}
	if len(layers) == 1 && h("catchments") {
		return &s // which no line, station or text gives away
	}
	s.hideAlong(f.carriers(h), h("drainages"), h("limits"))
	s.hideTexts()
	return &s
}

var (
	unknown = Num(math.NaN())
	nowhere = Place{unknown, unknown, unknown, unknown}
)

// each returns a copy of a list with a change made to each of it.
func each[T any](list []T, change func(*T)) []T {
	list = slices.Clone(list)
	for i := range list {
		change(&list[i])
	}
	return list
}

func shareCaution(layers []string) string {
	names := strings.Join(layers, ", ")
	if i := strings.LastIndex(names, ", "); i >= 0 {
		names = names[:i] + " and " + names[i+2:]
	}
	return "A version to share: exact places were left out of " + names +
		", and so were the stations, profiles and remarks that would give them away. Nothing can be staked out from it: ask whoever made the plan for the whole of it."
}

// hideDams leaves out where dams stand.
func (f *Folder) hideDams() {
	f.Sites = each(f.Sites, func(s *Site) {
		s.Place = nowhere
		for _, x := range []*Num{&s.StationM, &s.WedgeEndM, &s.CatchmentHa, &s.BedM, &s.NotchSillM, &s.DamTopM, &s.SpacingDownM, &s.RiseFromBelowM, &s.SpacingUpM} {
			*x = unknown
		}
	})
	f.Series = each(f.Series, func(s *Series) { s.FromStationM, s.ToStationM = unknown, unknown })
	f.Sections = map[string]Section{}
}

// carriers returns the drainages on which something hidden lies.
func (f *Folder) carriers(h func(string) bool) map[string]bool {
	on := map[string]bool{}
	if h("dams") {
		for _, s := range f.Sites {
			on[s.Drainage] = true
		}
	}
	if h("headcuts") {
		for _, c := range f.Headcuts {
			on[c.Drainage] = true
		}
	}
	if h("depressions") {
		for _, d := range f.Depressions {
			on[d.Drainage] = true
		}
	}
	return on
}

// hideAlong leaves out profiles and pieces by verdict of the drainages that carry something hidden; with lines, those of all and the
// lines too; with limits, the pieces of all, as they begin and end at the property line.
func (f *Folder) hideAlong(on map[string]bool, lines, limits bool) {
	profiles, reaches, along := map[string]Profile{}, []Reach{}, []orb.LineString{}
	for id, p := range f.Profiles {
		if !lines && !on[id] {
			profiles[id] = p
		}
	}
	for i, r := range f.Reaches {
		if !lines && !limits && !on[r.Drainage] {
			reaches = append(reaches, r)
			along = append(along, f.ReachLines[i])
		}
	}
	f.Profiles, f.Reaches, f.ReachLines = profiles, reaches, along
	if lines {
		f.Lines = map[string]orb.LineString{}
	}
}
