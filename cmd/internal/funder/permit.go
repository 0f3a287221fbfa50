package funder

import (
	"slices"

	"siltstep/cmd/internal/units"
)

// permits lists what to confirm, with the figures that officers ask for.
func (g *figures) permits() section {
	s := section{title: "Permits to confirm"}
	if w := g.opt.Works; w == nil {
		s.say("Ground under the dams and fill below the banks: not known here; footprints.geojson of the plan lists them by dam.")
	} else {
		s.say("Fill in the channels: " + g.rock.text(value{float64(w.FillM3), "works.fill_m3"}) + " of rock, on " + g.ground.all() + " of ground, along " + g.channel.all() + " of channel.")
		t := grid{caption: "Ground under the dams", left: 1, total: true, head: append([]string{"drainage"}, g.ground.heads()...)}
		for i, d := range g.treated {
			t.rows = append(t.rows, join(g.fact(d.ID), g.ground.row(i)))
		}
		t.rows = append(t.rows, join("total", g.ground.totals()))
		s.table(t)
	}
	s.say("Nothing here says that a permit is or is not needed. Confirm in writing, before any rock is laid:")
	s.list(
		"fill in a channel: confirm with the district of the Corps of Engineers (Clean Water Act, section 404), and the state (section 401);",
		"water held back, however briefly: confirm with the office of water rights;",
		"height and storage: confirm with the office of dam safety;",
		"cultural sites, access and borrow places within: confirm with the historic preservation office and the tribes;",
		"listed species and season of work: confirm with the wildlife agencies;",
		"floodplain, road right of way, utilities: confirm with county, road owner and the utility locating service;",
		"land of others, leases and water users below: confirm with each neighbour.",
	)
	return s
}

// upkeep says who looks after the works.
func (g *figures) upkeep() section {
	s := section{title: "Upkeep"}
	s.say("Dams of loose rock need repair. Responsible for inspection and repair (name, telephone, until which year): ____________________. A dam that fails and is not repaired is taken out: it can do more harm than none.")
	return s
}

// doubts says how sure the figures are.
func (g *figures) doubts() section {
	s := section{title: "How sure are these figures"}
	levels := []string{"high", "medium", "low"}
	t := grid{caption: "Confidence in the dams, by what the elevation model shows at each", left: 1, head: []string{"confidence", "dams"}}
	for _, level := range levels {
		n := 0
		for _, d := range g.f.Sites {
			if d.Confidence == level {
				n++
			}
		}
		t.rows = append(t.rows, []string{level, g.count("confidence."+level, n)})
	}
	s.table(t)
	volume := g.scales(units.System.VolumeScale)
	r := grid{caption: "Low, likely and high", left: 1, head: []string{"what", "low", "likely", "high"}}
	for k, c := range volume {
		r.rows = append(r.rows, []string{"room for sediment, " + c.Unit, g.low.totals()[k], g.likely.totals()[k], g.high.totals()[k]})
	}
	r.rows = append(r.rows, g.soilRange()...)
	s.table(r)
	s.list(
		"The range of soil gone is the error of the survey alone. The years, the density of the banks and what will erode from now on are not in it.",
		"No range is given for erosion avoided: it is the most at the past mean rate, and the rate today is not known.",
		"Low and high of the dams are added as if all erred the same way.",
		"Elevation model: cells of "+g.both("grid.cell_m", g.f.Grid.CellM, units.System.LengthScale, 2)+"; noise of heights "+g.both("grid.noise_m", g.f.Grid.NoiseM, units.System.LengthScale, 3)+". It shows no rock, soil or roots and nothing built since.",
		"Dams are placed by computation and not yet seen on the ground: some will move or go, and every sum with them.",
	)
	return s
}

func (g *figures) soilRange() [][]string {
	var low, high []value
	for _, l := range g.f.Loads {
		if slices.ContainsFunc(g.treated, isOf(l.Drainage)) {
			low = append(low, value{float64(l.MassLowT), "loads." + l.Drainage + ".mass_low_t"})
			high = append(high, value{float64(l.MassHighT), "loads." + l.Drainage + ".mass_high_t"})
		}
	}
	likely := g.ofLoad("mass_t", massOf)
	var rows [][]string
	for _, c := range g.scales(units.System.MassScale) {
		row := []string{"soil gone from the treated drainages, " + c.Unit}
		for _, v := range []value{sum(low), sum(likely), sum(high)} {
			row = append(row, g.number(v.from, v.si, c, 0))
		}
		rows = append(rows, row)
	}
	return rows
}
