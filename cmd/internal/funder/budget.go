package funder

import (
	"slices"

	"siltstep/cmd/internal/facts"
	"siltstep/cmd/internal/units"
)

// budget says what the works cost.
func (g *figures) budget() section {
	s := section{title: "Cost"}
	if !g.cost.known() {
		s.say("Cost is not known. What is needed: prices.currency, prices.rock, prices.day and prices.days_per_m3 in the settings. No price is assumed.")
		return s
	}
	s.say("Total: " + g.cost.all() + ", for rock and hand labour at the prices given" + g.because("prices.rock", "prices.day", "prices.days_per_m3") +
		". Hand labour: " + g.number("totals.person_days", float64(g.f.Totals.PersonDays), units.Scale{One: 1}, 0) + " person-days.")
	s.say("Not in it: survey, design, permits, work on headcuts, tools, carrying by hand or by small machine from the road, food and travel, monitoring, upkeep, administration, contingency. Add them before a budget is signed.")
	t := grid{caption: "Cost by drainage", left: 1, total: true, head: append([]string{"drainage"}, g.cost.heads()...)}
	for i, d := range g.treated {
		t.rows = append(t.rows, join(g.fact(d.ID), g.cost.row(i)))
	}
	t.rows = append(t.rows, join("total", g.cost.totals()))
	s.table(t)
	g.remark(&s, g.cost)
	bySeries := grid{caption: "Cost by series", left: 1, head: []string{"series", "dams", "cost, " + g.currency()}}
	for _, one := range g.ordered() {
		bySeries.rows = append(bySeries.rows, []string{g.fact(one.ID), g.count("series."+one.ID+".dams", one.Dams), g.number("series."+one.ID+".cost", float64(one.Cost), units.Scale{One: 1}, 2)})
	}
	s.table(bySeries)
	return s
}

// ordered returns the series that are built, in the order of building; those without a place in it come last.
func (g *figures) ordered() (list []facts.Series) {
	for _, s := range g.f.Series {
		if !s.LeftOut {
			list = append(list, s)
		}
	}
	slices.SortStableFunc(list, func(a, b facts.Series) int {
		if (a.BuildOrder > 0) != (b.BuildOrder > 0) {
			return b.BuildOrder - a.BuildOrder
		}
		return a.BuildOrder - b.BuildOrder
	})
	return list
}

// match parts the cost between the programme and others.
func (g *figures) match() section {
	s := section{title: "Match"}
	m := g.opt.Match
	const twoBases = "A share of the total is not a share of the federal money: 14,400 beside 36,000 is 40 % of the federal money, but 28.6 % of the total."
	if m.Share == 0 {
		s.say("No share is given, so none is computed. What is needed: the share and what it is a share of (funding.match_share, funding.match_base). " + twoBases)
		s.say("For example, grants for nonpoint sources under section 319 of the Clean Water Act ask for at least 40 % of the project cost from elsewhere; work and goods in kind may count (federal assistance listing 66.460). Confirm the rule of your own programme and year.")
		return s
	}
	if m.Federal == 0 && !g.cost.known() {
		s.say("The match is not known, as the cost is not. What is needed: prices, or the amount that is asked for.")
		return s
	}
	base := "the total cost of the project"
	if m.Base == OfFederal {
		base = "the federal money"
	}
	var split Split
	if m.Federal > 0 {
		split = m.OfFederal(m.Federal)
		s.say("The match is " + g.fact(plain(m.Share*100)) + " % of " + base + ", reckoned from the amount asked for.")
		if g.cost.known() {
			s.say("The cost of rock and labour in this plan is " + g.cost.all() + "; what stands between it and the total below must be shown as other cost, or the request changed.")
		}
	} else {
		split = m.OfCost(float64(g.f.Totals.Cost))
		s.say("The match is " + g.fact(plain(m.Share*100)) + " % of " + base + ", reckoned from the cost of rock and labour in this plan. When other cost is added, it changes in proportion.")
	}
	row := func(name string, c int64) []string {
		return []string{name, g.fact(money(c)), g.fact(share(c, split.Total)), g.fact(share(c, split.Federal))}
	}
	t := grid{caption: "Match", left: 1, total: true, head: []string{"", g.currency(), "% of the total", "% of the federal money"}}
	t.rows = append(t.rows, row("federal money asked for", split.Federal), row("match from elsewhere", split.Match))
	if m.InKind > 0 {
		t.rows = append(t.rows, row("of the match, in kind", min(cents(m.InKind), split.Match)), row("of the match, in money", max(0, split.Match-cents(m.InKind))))
	}
	t.rows = append(t.rows, row("total", split.Total))
	s.table(t)
	if cents(m.InKind) > split.Match {
		s.say("Work and goods in kind are worth " + g.fact(money(cents(m.InKind))) + ", more than the match; only the match is counted.")
	}
	s.say(twoBases + " What may count as match is for the programme to confirm.")
	return s
}

// plain writes a number with as few digits as it takes, up to two decimals.
func plain(x float64) string {
	for places := range 2 {
		if rounded(x, places) == rounded(x, 2) {
			return grouped(x, places)
		}
	}
	return grouped(x, 2)
}

// share writes a part in percent.
func share(part, whole int64) string {
	if whole == 0 {
		return notKnown
	}
	return grouped(float64(part)/float64(whole)*100, 1)
}
