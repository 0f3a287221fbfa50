package funder

import (
	"math"
	"strings"

	"siltstep/cmd/internal/facts"
	"siltstep/cmd/internal/units"
)

// figures are the quantities that the sections share.
type figures struct {
	*pen
	f        *facts.Folder
	opt      Options
	treated  []facts.Drainage // those with dams
	channel  *amount
	rock     *amount // in place
	weight   *amount // to order
	low      *amount // sediment, at the least
	likely   *amount
	high     *amount
	void     *amount // soil that has left
	avoided  *amount // erosion, a year
	cost     *amount
	lowers   []facts.Site // the lowest dam of each of treated
	ground   *amount      // under the dams
	leftOut  int
	standing int
}

func newFigures(f *facts.Folder, opt Options, marked bool) *figures {
	g := &figures{pen: &pen{marked: marked}, f: f, opt: opt}
	for _, d := range f.Drainages {
		if d.Dams > 0 {
			g.treated = append(g.treated, d)
			g.lowers = append(g.lowers, lowest(f.SitesOf(d.ID)))
		}
	}
	for _, s := range f.Series {
		g.standing += s.Built
		if s.LeftOut {
			g.leftOut++
		}
	}
	length, volume, mass := g.scales(units.System.LengthScale), g.scales(units.System.VolumeScale), g.scales(units.System.MassScale)
	t := f.Totals
	g.channel = newAmount(g.pen, "treated channel", length, g.ofDrainage("treated_m", func(d facts.Drainage) facts.Num { return d.TreatedM }), value{float64(t.TreatedM), "totals.treated_m"})
	g.rock = newAmount(g.pen, "rock in place", volume, g.ofSeries("rock_m3", func(s facts.Series) facts.Num { return s.RockM3 }), value{float64(t.RockM3), "totals.rock_m3"})
	g.weight = newAmount(g.pen, "rock to order", mass, g.ofDrainage("rock_t", func(d facts.Drainage) facts.Num { return d.RockT }), value{float64(t.RockT), "totals.rock_t"})
	g.likely = newAmount(g.pen, "likely", volume, g.ofDrainage("sediment_m3", func(d facts.Drainage) facts.Num { return d.SedimentM3 }), value{float64(t.SedimentM3), "totals.sediment_m3"})
	g.low = g.summed("low", volume, g.ofSeries("sediment_low_m3", func(s facts.Series) facts.Num { return s.SedimentLowM3 }))
	g.high = g.summed("high", volume, g.ofSeries("sediment_high_m3", func(s facts.Series) facts.Num { return s.SedimentHighM3 }))
	g.void = g.summed("soil gone", volume, g.ofLoad("void_m3", func(l facts.Load) facts.Num { return l.VoidM3 }))
	g.avoided = g.summed("erosion avoided a year, at most", mass, g.ofLoad("avoided_year_t", func(l facts.Load) facts.Num { return l.AvoidedYearT }))
	g.cost = newAmount(g.pen, "cost", []units.Scale{{Unit: g.currency(), One: 1}}, g.ofDrainage("cost", func(d facts.Drainage) facts.Num { return d.Cost }), value{float64(t.Cost), "totals.cost"})
	align(g.low, g.likely, g.high)
	g.addGround()
	return g
}

// addGround adds the ground under the dams.
func (g *figures) addGround() {
	scales := g.scales(units.System.AreaScale)
	if g.opt.Works == nil {
		g.ground = newAmount(g.pen, "ground", scales, nil, value{si: math.NaN()})
		return
	}
	var rows []value
	for _, d := range g.treated {
		area, ok := g.opt.Works.ByDrainage[d.ID]
		if !ok {
			area = facts.Num(math.NaN())
		}
		rows = append(rows, value{float64(area), "works." + d.ID})
	}
	g.ground = newAmount(g.pen, "ground", scales, rows, value{float64(g.opt.Works.FootprintM2), "works.footprint_m2"})
}

// scales returns a scale in both systems, that of the reader first.
func (g *figures) scales(of func(units.System) units.Scale) []units.Scale {
	if g.opt.System == units.US {
		return []units.Scale{of(units.US), of(units.Metric)}
	}
	return []units.Scale{of(units.Metric), of(units.US)}
}

// both prints a number in both systems with fixed decimals, that of the reader first.
func (g *figures) both(from string, si facts.Num, of func(units.System) units.Scale, decimals int) string {
	if !si.Known() {
		return notKnown
	}
	c := g.scales(of)
	return paired(g.named(from, float64(si), c[0], decimals), g.named(from, float64(si), c[1], decimals))
}

func (g *figures) currency() string {
	if g.f.Totals.Currency == "" {
		return "currency not given"
	}
	return strings.TrimSpace(g.f.Totals.Currency)
}

func (g *figures) ofDrainage(name string, of func(facts.Drainage) facts.Num) (rows []value) {
	for _, d := range g.treated {
		rows = append(rows, value{float64(of(d)), "drainages." + d.ID + "." + name})
	}
	return rows
}

// ofSeries sums series by drainage; those that a budget leaves out are in no sum.
func (g *figures) ofSeries(name string, of func(facts.Series) facts.Num) (rows []value) {
	for _, d := range g.treated {
		var parts []value
		for _, s := range g.f.Series {
			if s.Drainage == d.ID && !s.LeftOut {
				parts = append(parts, value{float64(of(s)), "series." + s.ID + "." + name})
			}
		}
		rows = append(rows, sum(parts))
	}
	return rows
}

func (g *figures) ofLoad(name string, of func(facts.Load) facts.Num) (rows []value) {
	for _, d := range g.treated {
		v := value{math.NaN(), "loads." + d.ID + "." + name}
		for _, l := range g.f.Loads {
			if l.Drainage == d.ID {
				v.si = float64(of(l))
			}
		}
		rows = append(rows, v)
	}
	return rows
}

// summed is an amount whose total is the sum of its rows.
func (g *figures) summed(name string, scales []units.Scale, rows []value) *amount {
	return newAmount(g.pen, name, scales, rows, sum(rows))
}

// sum adds values. It is not known when one of them is not, or there is none.
func sum(parts []value) value {
	if len(parts) == 0 {
		return value{si: math.NaN()}
	}
	all := parts[0]
	for _, v := range parts[1:] {
		all.si += v.si
		all.from += "+" + v.from
	}
	return all
}

func lowest(sites []facts.Site) (low facts.Site) {
	for i, s := range sites {
		if i == 0 || s.StationM < low.StationM {
			low = s
		}
	}
	return low
}
