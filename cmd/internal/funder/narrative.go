package funder

import (
	"strings"

	"siltstep/cmd/internal/units"
)

// narrative is a draft text of 150 to 250 words; every number of it is a fact of the plan.
func (g *figures) narrative() section {
	s := section{title: "Draft narrative"}
	t := g.f.Totals
	if len(g.treated) == 0 {
		s.say("The plan has no dams, so there is nothing to ask for.")
		return s
	}
	first := "An elevation model of the land and what surrounds it shows " + g.things("totals.drainages", t.Drainages, "drainage") + ", of which " + g.count("totals.severe", t.Severe) + " are classed as severe and " + g.count("totals.eroding", t.Eroding) + " as eroding. "
	if g.void.known() {
		first += "From those proposed for treatment, " + g.void.all() + " of soil have gone so far. "
	}
	if id := worst(g.treated); id != "" {
		first += "Of the treated drainages, " + g.fact(id) + " has the highest severity by the index explained below. "
	}
	second := "We propose " + g.things("totals.dams", t.Dams, "low rock check dam") + " in " + g.count("totals.series", t.Series) + " series, which treat " + g.channel.all() + " of channel, by the definition printed in this summary. They take " +
		g.rock.all() + " of rock in place, " + g.weight.all() + " to order. "
	if g.likely.known() {
		second += "There is room behind them for " + g.likely.all() + " of sediment"
		if g.low.known() && g.high.known() {
			second += ", low " + g.low.all() + ", high " + g.high.all()
		}
		second += ". "
	}
	if g.avoided.known() {
		second += "Erosion avoided is at most " + g.avoided.all() + " a year, if the channels would go on losing soil at their past mean rate; it is not added to sediment trapped. "
	}
	cost := "The cost is not known until prices are given. "
	if g.cost.known() {
		cost = "Rock and hand labour cost " + g.cost.all() + "; " + g.number("totals.person_days", float64(t.PersonDays), units.Scale{One: 1}, 0) + " person-days are in it. "
	}
	last := "Series are built as a whole, from the lowest dam upstream, after permits are confirmed and a baseline is surveyed. Photo points, monumented cross-sections and an inspection after each flow will show what holds; a re-survey will show what has changed. " +
		"We claim no smaller storm flow, and not all gain will be due to dams. This is a planning aid, not an engineered design: every site is walked first."
	s.say(strings.TrimSpace(first))
	s.say(strings.TrimSpace(second))
	s.say(strings.TrimSpace(cost + last))
	return s
}
