package cli

import (
	"testing"

	"github.com/paulmach/orb"

	"siltstep/hydro"
	"siltstep/hydro/channel"
	"siltstep/hydro/erosion"
	"siltstep/hydro/siting"
)

// A map shows lines and headcuts, and leaves out a drainage without a line and a step at a road.
func TestMapOf(t *testing.T) {
	line := channel.Profile{Stations: []channel.Station{{X: 548001, Y: 4125990}, {StationM: 5, X: 548001, Y: 4125995}}}
	g := valley(1) // 47 x 403 m from 548000, 4126000
	p := &hydro.Plan{
		Grid: g,
		Network: &channel.Network{Drainages: []channel.Drainage{
			{ID: "D01", Profile: line, CatchmentM2: 9000, Truncated: true},
			{ID: "D02", Profile: channel.Profile{Stations: line.Stations[:1]}},
		}},
		Erosion: []erosion.Judgement{
			{Severity: erosion.Severity{Class: erosion.Watch, Rank: 1}, Headcuts: []erosion.Headcut{
				{X: 1, Y: 2, Cause: erosion.CauseHeadcut}, {X: 3, Y: 4, Cause: erosion.CauseRoad}}},
			{},
		},
	}
	m := mapOf(p)
	if len(m.Drainages) != 1 || m.Drainages[0].ID != "D01" || m.Drainages[0].Rank != 1 || m.Drainages[0].Class != erosion.Watch || !m.Drainages[0].Truncated {
		t.Errorf("drainages %+v", m.Drainages)
	}
	if got := m.Drainages[0].Line[0]; got != (orb.Point{548001, 4125995}) {
		t.Errorf("the line begins at %v, want its upper end", got)
	}
	if len(m.Headcuts) != 1 || m.Headcuts[0] != (orb.Point{1, 2}) || len(m.Dams) != 0 {
		t.Errorf("headcuts %v, dams %v", m.Headcuts, m.Dams)
	}
	if want := (orb.Bound{Min: orb.Point{548000, 4125597}, Max: orb.Point{548047, 4126000}}); m.Extent != want {
		t.Errorf("extent %v, want %v", m.Extent, want)
	}
	p.Layouts = []siting.Layout{{Sites: []siting.Site{{X: 5, Y: 6}}}, {}}
	if m := mapOf(p); len(m.Dams) != 1 || m.Dams[0] != (orb.Point{5, 6}) {
		t.Errorf("dams %v", m.Dams)
	}
}

func TestTitleOf(t *testing.T) {
	for want, paths := range map[string][]string{
		"ranch":            {"/data/ranch.tif"},
		"ranch and 2 more": {"ranch.tif", "b.tif", "c.tif"},
		"dem.v2":           {"dem.v2.asc"},
	} {
		if got := titleOf(paths); got != want {
			t.Errorf("%v: %q, want %q", paths, got, want)
		}
	}
}
