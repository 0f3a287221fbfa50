package funder

import (
	"strconv"
	"strings"

	"siltstep/cmd/internal/facts"
	"siltstep/cmd/internal/units"
)

// schedule says what is built when.
func (g *figures) schedule() section {
	s := section{title: "Schedule"}
	list := g.ordered()
	if len(list) == 0 {
		s.say("No series is to be built.")
		return s
	}
	length, mass := g.scales(units.System.LengthScale), g.scales(units.System.MassScale)
	t := grid{caption: "Series in the order of building", left: 1, head: []string{"series", "order", "year", "dams", "treated, " + length[0].Unit, "treated, " + length[1].Unit,
		"rock to order, " + mass[0].Unit, "rock to order, " + mass[1].Unit, "loads", "person-days"}}
	anyYear := false
	one := units.Scale{One: 1}
	for _, x := range list {
		at := "series." + x.ID + "."
		order, year := "not set", "not set"
		if x.BuildOrder > 0 {
			order = g.count(at+"build_order", x.BuildOrder)
		}
		if x.Year.Known() && x.Year > 0 {
			year, anyYear = g.number(at+"year", float64(x.Year), one, 0), true
		}
		t.rows = append(t.rows, []string{g.fact(x.ID), order, year, g.count(at+"dams", x.Dams),
			g.number(at+"treated_m", float64(x.TreatedM), length[0], 1), g.number(at+"treated_m", float64(x.TreatedM), length[1], 1),
			g.number(at+"rock_t", float64(x.RockT), mass[0], 1), g.number(at+"rock_t", float64(x.RockT), mass[1], 1),
			g.number(at+"loads", float64(x.Loads), one, 0), g.number(at+"person_days", float64(x.PersonDays), one, 1)})
	}
	s.table(t)
	if !anyYear {
		s.say("Years are not set: give a budget for each year (--budget and --years), or write them in here. A series is built as a whole, from its lowest dam upstream.")
	} else {
		s.say("Years are counted from the first year of the budget. A series is built as a whole, from its lowest dam upstream.")
	}
	if g.leftOut > 0 {
		s.say("Left out by the budget, and in no sum here: " + g.fact(strconv.Itoa(g.leftOut)) + " series.")
	}
	before := g.before(list)
	if len(before) > 0 {
		s.say("What comes before the dams of a series:")
		s.list(before...)
	}
	s.say("Steps around the building: permits answered; baseline survey and photos; rock on site; building; as-built record; inspection after each flow; re-survey; close-out.")
	return s
}

// before lists what comes before the dams, series with the same text together.
func (g *figures) before(list []facts.Series) (items []string) {
	var texts []string
	series := map[string][]string{}
	for _, x := range list {
		text := strings.TrimSpace(x.Before)
		if text == "" {
			continue
		}
		if series[text] == nil {
			texts = append(texts, text)
		}
		series[text] = append(series[text], x.ID)
	}
	for _, text := range texts {
		items = append(items, g.fact(strings.Join(series[text], ", ")+": "+text))
	}
	return items
}

// monitoring says what is looked at, where and when.
func (g *figures) monitoring() section {
	s := section{title: "Monitoring"}
	t := grid{caption: "Where to monitor", left: 4, head: []string{"series", "photo points, up and down the channel", "monumented cross-sections", "sill and silt depth"}}
	for _, x := range g.ordered() {
		dams := strings.Fields(x.DamIDs)
		if len(dams) == 0 {
			continue
		}
		t.rows = append(t.rows, []string{g.fact(x.ID), g.names(picked(dams, 2)), g.names(picked(dams, 3)), "each dam"})
	}
	s.table(t)
	s.list(
		"Photo points: a marked post, the same height and bearing each time; before any rock, after the building, then once a year in the same season.",
		"Monumented cross-sections: pins outside the banks on both sides, levelled before any rock and once a year.",
		"Profile of the bed: each treated drainage, from below the apron of its lowest dam to above its highest wedge, at baseline and at close-out.",
		"Headcuts in the treated drainages ("+g.headcuts()+"): a pin a set distance above each lip.",
		"Inspection after each flow: fill, water round the side, scour below, lost stone; date, name, photo, what was done. At half full, think of the next layer (our own choice).",
		"Re-survey: in the datum of the baseline, the detection level printed; a change below it is reported as none detected.",
	)
	return s
}

// headcuts counts those in treated drainages.
func (g *figures) headcuts() string {
	n := 0
	for _, h := range g.f.Headcuts {
		for _, d := range g.treated {
			if h.Drainage == d.ID {
				n++
			}
		}
	}
	return g.fact(strconv.Itoa(n)) + " found"
}

// picked returns up to n things spread from the first to the last.
func picked(list []string, n int) []string {
	if len(list) <= n {
		return list
	}
	var out []string
	for i := range n {
		out = append(out, list[i*(len(list)-1)/(n-1)])
	}
	return out
}

// practices lists quantities in the units that practices are counted in.
func (g *figures) practices() section {
	s := section{title: "Practice quantities"}
	t := grid{caption: "Quantities by practice", left: 2, head: []string{"what", "unit", "quantity"}}
	total := g.f.Totals
	us := func(name, unit, from string, si facts.Num, c units.Scale, decimals int) {
		t.rows = append(t.rows, []string{name, unit, g.number(from, float64(si), c, decimals)})
	}
	us("grade control structures (practice 410)", "number", "totals.dams", facts.Num(total.Dams), units.Scale{One: 1}, 0)
	us("channel treated (practice 584)", "ft", "totals.treated_m", total.TreatedM, units.US.LengthScale(), g.places(g.channel, "ft"))
	us("rock in place", "yd³", "totals.rock_m3", total.RockM3, units.US.VolumeScale(), g.places(g.rock, "yd³"))
	us("rock to order", "US tons (2,000 lb)", "totals.rock_t", total.RockT, units.US.MassScale(), g.places(g.weight, units.US.MassScale().Unit))
	if w := g.opt.Works; w != nil {
		us("ground under the structures", "ac", "works.footprint_m2", w.FootprintM2, units.US.AreaScale(), g.places(g.ground, "ac"))
	}
	s.table(t)
	s.say("Practice numbers are recalled, not looked up: check your state's version for number, unit, definition, and which one such dams are booked under. Rates of payment differ by state and year and are yours to enter. Both lines may not be payable for the same dams. Diversions, fences, planting, spreading of water, access and grazing are not part of this plan.")
	return s
}

// places returns the decimals that an amount has in a unit.
func (g *figures) places(a *amount, unit string) int {
	for k, c := range a.scales {
		if c.Unit == unit {
			return a.places[k]
		}
	}
	panic("funder: no unit " + unit)
}
