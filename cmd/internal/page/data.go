package page

import (
	"siltstep/cmd/internal/facts"
	"siltstep/cmd/internal/units"
)

// data is what the script of the page reads: the tables of the plan as they are, and lines and curves packed as whole numbers.
type data struct {
	Title    string             `json:"title"`
	Grid     facts.Grid         `json:"grid"`
	Totals   facts.Totals       `json:"totals"`
	Units    map[string]measure `json:"units"`
	Tables   map[string]table   `json:"tables"`
	Profiles map[string]curve   `json:"profiles"`
	Sections map[string]cut     `json:"sections"`
	Covers   map[string][][]int `json:"catchments"` // by drainage, rings of x and y by turns
	Limits   []limit            `json:"limits"`
	Position *position          `json:"position"` // null where the plan holds no place to start from
	Relief   string             `json:"relief"`   // data URL; empty for none
}

// A measure is how a kind of quantity is shown in each system of units.
type measure struct {
	Metric scale `json:"metric"`
	US     scale `json:"us"`
}

// A scale is the name of a unit and the value of one in the unit that the plan uses.
type scale struct {
	Unit string  `json:"unit"`
	One  float64 `json:"one"`
}

// measures lists the kinds of quantity by the unit that the plan uses for them.
func measures() map[string]measure {
	of := func(pick func(units.System) units.Scale, planUnit float64) measure {
		m, us := pick(units.Metric), pick(units.US)
		return measure{scale{m.Unit, m.One / planUnit}, scale{us.Unit, us.One / planUnit}}
	}
	return map[string]measure{
		"m":    of(units.System.LengthScale, 1),
		"ha":   {scale{"ha", 1}, scale{"ac", units.AcreM2 / units.HectareM2}},
		"m3":   of(units.System.VolumeScale, 1),
		"m3s":  of(units.System.FlowScale, 1),
		"t":    of(units.System.MassScale, 1),
		"rise": of(units.System.SlopeScale, 1),
		"size": {scale{"mm", 0.001}, scale{"in", units.InchMM / 1000}},
	}
}

func newData(f *facts.Folder, opt Options) (*data, error) {
	d := &data{
		Title: opt.Title, Grid: f.Grid, Totals: f.Totals, Units: measures(),
		Tables: map[string]table{
			"drainages": columnsOf(f.Drainages), "parts": columnsOf(f.Parts), "headcuts": columnsOf(f.Headcuts), "reaches": columnsOf(f.Reaches),
			"sites": columnsOf(f.Sites), "designs": columnsOf(f.Designs), "series": columnsOf(f.Series), "scenarios": columnsOf(f.Scenarios),
			"loads": columnsOf(f.Loads), "gradients": columnsOf(f.Gradients), "filling": columnsOf(f.Filling), "checks": columnsOf(f.Checks),
			"weaknesses": columnsOf(f.Weaknesses), "changes": columnsOf(f.Changes),
		},
		Profiles: map[string]curve{}, Sections: map[string]cut{},
	}
	origin := originOf(f.Grid)
	for id, p := range f.Profiles {
		d.Profiles[id] = origin.curve(p)
	}
	for id, s := range f.Sections {
		d.Sections[id] = packSection(s)
	}
	var err error
	if d.Covers, err = origin.catchments(f.Catchments, opt.ToGrid); err != nil {
		return nil, err
	}
	if d.Limits, err = origin.limits(f.Limits, opt.ToGrid); err != nil {
		return nil, err
	}
	if start, ok := placeIn(f); ok {
		if d.Position, err = fitPosition(f.Grid, start, opt.ToGrid); err != nil {
			return nil, err
		}
	}
	d.Relief, err = reliefURL(opt.Hillshade)
	return d, err
}
