package funder

import (
	"siltstep/cmd/internal/facts"
	"siltstep/cmd/internal/units"
)

func isOf(id string) func(facts.Drainage) bool {
	return func(d facts.Drainage) bool { return d.ID == id }
}

func massOf(l facts.Load) facts.Num { return l.MassT }

// unsaid says what must not be read into the figures.
func (g *figures) unsaid() section {
	s := section{title: "What these figures do not say"}
	s.list(
		"No smaller storm flow is claimed. Where such dams were studied, no change was detected in large storms, and an early effect faded (Polyakov and others 2014; Nichols and others 2016).",
		"Dams are not the whole cure. After treatment and rest from grazing, untreated gullies in the same basin settled as well (Heede 1977): not all gain is theirs.",
		"The trend is not known: one survey shows what has gone, not what goes on. A second survey would.",
		"Once the dams are full they trap no more, and need another layer or are left as steps.",
		"Effects on plants, wet ground, wells and wildlife are not computed.",
		"The plan is not an engineered design, and holds no opinion on permits.",
	)
	return s
}

// assumptions lists the settings that the figures rest on.
func (g *figures) assumptions() section {
	s := section{title: "Assumptions that the figures rest on"}
	s.list(g.settings("dams.kind", "dams.height", "dams.min_height", "dams.slope", "dams.catchment", "dams.spacing_rule", "dams.deposit_ratio", "rain.return_period", "rain.hours",
		"runoff.curve_number", "runoff.coefficient", "stone.gravity", "stone.voids", "stone.waste", "sediment.yield", "sediment.density", "gully.formation_years", "gully.bank_density",
		"prices.currency", "prices.rock", "prices.day", "prices.days_per_m3", "prices.load")...)
	s.say("All settings, inputs with their checksums, findings and sources of methods are in plan.json. Settings are in the units they are kept in.")
	return s
}

// cited are the sources of what this text claims beyond the plan.
var cited = []facts.Source{
	{Key: "CFDA66460", Text: "Assistance listing 66.460, nonpoint source implementation grants (Clean Water Act, section 319): match of at least 40 %. Read; confirm the current text."},
	{Key: "Heede1977", Text: "Heede, B. H., 1977. Case study of a watershed rehabilitation project: Alkali Creek, Colorado. United States Department of Agriculture, Forest Service, Research Paper RM-189. Abstract read; title from memory."},
	{Key: "Nichols2016", Text: "Nichols, M. H., Polyakov, V. O., Nearing, M. A. and Hernandez, M., 2016. Semiarid watershed response to low-tech porous rock check dams. Soil Science 181. Abstract read; title and place from memory."},
	{Key: "Polyakov2014", Text: "Polyakov, V. O., Nichols, M. H., McClaran, M. P. and Nearing, M. A., 2014. Effect of check dams on runoff, sediment yield, and retention on small semiarid watersheds. Journal of Soil and Water Conservation 69, 414. Abstract read; title from memory."},
}

func (g *figures) sources() section {
	s := section{title: "Sources"}
	var list []string
	for _, c := range cited {
		text := c.Text
		for _, p := range g.f.Sources {
			if p.Key == c.Key {
				text = p.Text
			}
		}
		list = append(list, g.fact(text))
	}
	s.list(list...)
	s.say("Made by " + g.fact(g.f.Program.Name+" "+g.f.Program.Version) + " from plan.json.")
	return s
}

// landowner is the half page for the one whose land it is.
func (g *figures) landowner() section {
	s := section{title: "For the landowner, in plain words", apart: true}
	var ids []string
	high := value{si: -1}
	for _, d := range g.treated {
		ids = append(ids, d.ID)
	}
	for _, d := range g.f.Sites {
		if float64(d.EffectiveHeightM) > high.si {
			high = value{float64(d.EffectiveHeightM), "sites." + d.ID + ".effective_height_m"}
		}
	}
	if len(ids) == 0 {
		s.say("No dams are planned on this land.")
		return s
	}
	s.say("Where: in the gullies " + g.names(ids) + ", " + g.channel.all() + " of channel in all. The map shows them; we ask to walk each one with you first.")
	s.say("What it looks like: low walls of loose rock across the bed, " + g.count("totals.dams", g.f.Totals.Dams) + " in all, the highest holding back " + g.both(high.from, facts.Num(high.si), units.System.LengthScale, 2) + " of water or silt. The middle is lower than the sides, so that water goes over it. With time silt and plants may cover them.")
	s.say("Traffic and cattle: rock is brought by truck (loads: " + g.loads() + ") and carried the last way. Gates, fences, wet-weather limits, and how long cattle stay out of the bed are agreed before work starts: ____________________")
	s.say("What could go wrong: water may go round a dam and cut the bank, dig below it, or carry stone away. A big flood can take a dam out and hurt what lies below. Tell us of houses, pipes, crossings and ponds downstream, and of places not to be touched.")
	s.say("Who repairs: ____________________ looks after each flow and mends or removes what has failed, until ____________________. Permits are not yet confirmed; nothing is built before they are.")
	return s
}

// loads sums the loads of rock.
func (g *figures) loads() string {
	var parts []value
	for _, x := range g.ordered() {
		parts = append(parts, value{float64(x.Loads), "series." + x.ID + ".loads"})
	}
	all := sum(parts)
	return g.number(all.from, all.si, units.Scale{One: 1}, 0)
}
