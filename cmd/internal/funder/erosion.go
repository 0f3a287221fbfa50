package funder

import (
	"fmt"
	"slices"
	"strconv"

	"siltstep/cmd/internal/facts"
	"siltstep/cmd/internal/units"
)

var percent = units.Scale{Unit: "%", One: 0.01}

// filling writes the time-line of how full the dams are.
func (g *figures) filling(s *section) {
	var years []facts.Num
	at := map[string]map[facts.Num]facts.Filling{}
	for _, f := range g.f.Filling {
		if at[f.ID] == nil {
			at[f.ID] = map[facts.Num]facts.Filling{}
		}
		at[f.ID][f.Years] = f
		if !slices.Contains(years, f.Years) {
			years = append(years, f.Years)
		}
	}
	slices.Sort(years)
	t := grid{caption: "How full the dams may be: likely (low to high), % of the likely room", left: 1, head: []string{"drainage"}}
	for _, y := range years {
		t.head = append(t.head, strconv.FormatFloat(float64(y), 'f', -1, 64)+" yr")
	}
	for _, d := range g.treated {
		row, any := []string{g.fact(d.ID)}, false
		for _, y := range years {
			f, ok := at[d.ID][y]
			if !ok {
				row = append(row, notKnown)
				continue
			}
			any = true
			from := "filling." + d.ID + "." + strconv.FormatFloat(float64(y), 'f', -1, 64) + "."
			row = append(row, g.number(from+"filled", float64(f.Likely), percent, 1)+" ("+g.number(from+"filled_low", float64(f.Low), percent, 1)+" to "+g.number(from+"filled_high", float64(f.High), percent, 1)+")")
		}
		if any {
			t.rows = append(t.rows, row)
		}
	}
	if len(t.rows) == 0 {
		s.say("How fast they fill is not known: it takes a yearly yield of sediment (sediment.yield).")
		return
	}
	s.table(t)
	s.say("By the yearly yield of sediment" + g.because("sediment.yield") + " from each catchment; never above 100 %: full dams trap no more. Years are counted from the building. What is trapped is the lesser of what arrives and what there is room for.")
}

// checkFilling finds a share that no dam can have.
func checkFilling(list []facts.Filling) error {
	for _, f := range list {
		for _, x := range []facts.Num{f.Low, f.Likely, f.High} {
			if x > 1 || x < 0 {
				return fmt.Errorf("filling of %s after %v years is %v of its room: the plan is damaged, make it anew", f.ID, f.Years, x)
			}
		}
	}
	return nil
}

// erosion says what may be avoided, apart from what is trapped.
func (g *figures) erosion() section {
	s := section{title: "Erosion avoided (apart from sediment trapped)"}
	if len(g.f.Loads) == 0 || !g.avoided.known() {
		s.say("Erosion avoided is not known. What is needed: resolved cross-sections along the treated channel, and the years in which the gullies formed (gully.formation_years).")
	} else {
		s.say("Over all treated drainages: at most " + g.avoided.all() + " a year, if the channels would go on losing soil at their past mean rate.")
	}
	if len(g.f.Loads) > 0 {
		s.say("Method: " + g.fact(g.f.Loads[0].Method))
		s.say("Erosion avoided is that mean on the treated share of the incised channel, as if it all stopped: the most that the dams can avoid at that rate, not a forecast" + g.because("gully.formation_years", "gully.bank_density") + ". The years are given, not measured: twice the years are half the figure. The rate today may be lower or higher; to measure it takes a second survey.")
	}
	s.warn("Erosion avoided and sediment trapped are two figures for two things. They are never added.")
	if g.avoided.known() {
		year := g.scales(units.System.MassScale)
		t := grid{caption: "Erosion avoided by drainage, at most, at the past mean rate", left: 1, total: true, head: []string{"drainage", year[0].Unit + " a year", year[1].Unit + " a year"}}
		for i, d := range g.treated {
			t.rows = append(t.rows, join(g.fact(d.ID), g.avoided.row(i)))
		}
		t.rows = append(t.rows, join("total", g.avoided.totals()))
		s.table(t)
		g.remark(&s, g.avoided)
	}
	s.say("Nitrogen and phosphorus bound to soil are not computed: they take a soil test and the factors of your state. What part of the soil reaches a stream (delivery) is not computed either.")
	return s
}

// land says what catchment lies above the works and what areas they take.
func (g *figures) land() section {
	s := section{title: "Catchment and area"}
	area := g.scales(units.System.AreaScale)
	t := grid{caption: "Catchment of the lowest dam of each treated drainage", left: 2, head: []string{"drainage", "lowest dam", "catchment, " + area[0].Unit, "catchment, " + area[1].Unit}}
	for i, d := range g.treated {
		low := g.lowers[i]
		row := []string{g.fact(d.ID), g.fact(low.ID)}
		for _, c := range area {
			row = append(row, g.number("sites."+low.ID+".catchment_ha", float64(low.CatchmentHa)*units.HectareM2, c, 2))
		}
		t.rows = append(t.rows, row)
	}
	s.table(t)
	s.say("Catchment (drainage area) is the land whose water runs to the lowest dam. It is not an area that is treated or gains. No sum is given: the catchment of one drainage may lie within that of another.")
	if w := g.opt.Works; w != nil {
		s.say("Ground under the dams, keys and aprons: " + g.ground.all() + ". Water area with every pond full to the sill of its notch: " + g.both("works.pond_m2", w.PondM2, units.System.AreaScale, 3) + ", gone once the ponds have silted up.")
	}
	s.say("Area benefited: not computed. The words have no standard meaning: define the area with the funder (which strip beside the channel, how wide, seen after how long) and write the definition here: ____________________")
	return s
}
