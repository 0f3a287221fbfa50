package funder

import (
	"strings"

	"siltstep/cmd/internal/units"
)

// treatment says what is built: channel length, dams and rock.
func (g *figures) treatment() section {
	s := section{title: "Treatment: channel length, structures and rock"}
	if len(g.treated) == 0 {
		s.say("The plan has no dams.")
		return s
	}
	s.say("Total: " + g.channel.all() + " of channel treated by " + g.things("totals.dams", g.f.Totals.Dams, "dam") + " in " + g.count("totals.series", g.f.Totals.Series) + " series.")
	s.say("Definition, " + g.fact(g.f.Totals.TreatedDefinition) + ".")
	s.say("Channel where such dams are eligible by the settings of the plan: " + g.both("totals.eligible_m", g.f.Totals.EligibleM, units.System.LengthScale, 1) +
		"; all channel analysed: " + g.both("totals.channel_m", g.f.Totals.ChannelM, units.System.LengthScale, 0) + ".")
	t := grid{caption: "Treated length and structures by drainage", left: 1, total: true, head: append([]string{"drainage", "dams"}, g.channel.heads()...)}
	for i, d := range g.treated {
		t.rows = append(t.rows, join(g.fact(d.ID), []string{g.count("drainages."+d.ID+".dams", d.Dams)}, g.channel.row(i)))
	}
	t.rows = append(t.rows, join("total", []string{g.count("totals.dams", g.f.Totals.Dams)}, g.channel.totals()))
	s.table(t)
	g.remark(&s, g.channel)
	s.table(g.kinds())

	r := grid{caption: "Rock by drainage", left: 1, total: true, head: append(append([]string{"drainage"}, g.rock.heads()...), g.weight.heads()...)}
	for i, d := range g.treated {
		r.rows = append(r.rows, join(g.fact(d.ID), g.rock.row(i), g.weight.row(i)))
	}
	r.rows = append(r.rows, join("total", g.rock.totals(), g.weight.totals()))
	s.table(r)
	s.say("Rock in place is the volume of bodies, keys and aprons as built, voids within. Rock to order is by weight, waste included" + g.because("stone.waste") + ". A US ton is 2,000 lb. Decimals are those with which the rows of a table add to its total; they are no promise of accuracy.")
	g.remark(&s, g.rock, g.weight)
	return s
}

// kinds counts the structures by kind and by what is known of them.
func (g *figures) kinds() grid {
	t := grid{caption: "Structures", left: 1, head: []string{"kind", "number"}}
	kind := "check dam"
	if v := g.f.Setting("dams.kind"); v != "" {
		kind = "check dam, " + g.fact(v)
	}
	t.rows = append(t.rows, []string{kind, g.count("totals.dams", g.f.Totals.Dams)},
		[]string{"of them without a design yet", g.count("totals.undesigned", g.f.Totals.Undesigned)},
		[]string{"of them that cannot be built by hand as designed", g.count("totals.unbuildable", g.f.Totals.Unbuildable)})
	if g.standing > 0 {
		t.rows = append(t.rows, []string{"of them that stand already", g.count(g.standingFrom(), g.standing)})
	}
	return t
}

func (g *figures) standingFrom() string {
	var parts []value
	for _, s := range g.f.Series {
		parts = append(parts, value{0, "series." + s.ID + ".built"})
	}
	return sum(parts).from
}

// because names settings that a figure rests on.
func (g *figures) because(keys ...string) string {
	list := g.settings(keys...)
	if len(list) == 0 {
		return ""
	}
	return " (" + strings.Join(list, "; ") + ")"
}

// remark says where printed rows do not add.
func (g *figures) remark(s *section, amounts ...*amount) {
	for _, a := range amounts {
		if !a.adds {
			s.say("Rows of " + a.name + " are rounded each on its own and may differ from the total in the last digit.")
		}
	}
}

// sediment says what the dams can hold, and how fast they may fill.
func (g *figures) sediment() section {
	s := section{title: "Sediment that the dams can hold"}
	s.say("Room behind all dams: low " + g.low.all() + ", likely " + g.likely.all() + ", high " + g.high.all() + ".")
	s.say("Method: the wedge from the sill of each notch to the bed upstream, measured on the cross-sections of the elevation model" + g.because("dams.deposit_ratio") +
		"; low and high are the range that the plan gives for it. It is room, not a yearly load: it is filled once, and no faster than soil arrives.")
	t := grid{caption: "Room for sediment by drainage", left: 1, total: true, head: append(append(append([]string{"drainage"}, g.low.heads()...), g.likely.heads()...), g.high.heads()...)}
	for i, d := range g.treated {
		t.rows = append(t.rows, join(g.fact(d.ID), g.low.row(i), g.likely.row(i), g.high.row(i)))
	}
	t.rows = append(t.rows, join("total", g.low.totals(), g.likely.totals(), g.high.totals()))
	if len(g.treated) > 0 {
		s.table(t)
		g.remark(&s, g.low, g.likely, g.high)
	}
	g.filling(&s)
	return s
}

func join(first string, more ...[]string) []string {
	row := []string{first}
	for _, m := range more {
		row = append(row, m...)
	}
	return row
}
