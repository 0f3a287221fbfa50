package funder

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"siltstep/cmd/internal/facts"
	"siltstep/cmd/internal/units"
)

// cautions open the document.
func (g *figures) cautions() section {
	s := section{title: "Read this first"}
	for _, c := range g.f.Cautions {
		s.warn(g.fact(c.Text))
	}
	if n := g.f.Totals.Undesigned; n > 0 {
		s.warn("Without a design: " + g.things("totals.undesigned", n, "dam") + ". Nothing of them is in the sums of rock, sediment and cost.")
	}
	return s
}

// place says where the work lies.
func (g *figures) place() section {
	s := section{title: "Place"}
	if len(g.opt.MapSVG) > 0 {
		s.blocks = append(s.blocks, block{figure: "Map of the drainages and dams of the plan"})
	}
	t := grid{caption: "Lowest dam of each treated drainage", head: []string{"drainage", "lowest dam", "latitude, °", "longitude, °"}, left: 2}
	if g.opt.HidePlaces {
		t.head = t.head[:2]
	}
	degrees := units.Scale{Unit: "°", One: 1}
	for i, d := range g.treated {
		low := g.lowers[i]
		row := []string{g.fact(d.ID), g.fact(low.ID)}
		if !g.opt.HidePlaces {
			row = append(row, g.number("sites."+low.ID+".lat", float64(low.Lat), degrees, 5), g.number("sites."+low.ID+".lon", float64(low.Lon), degrees, 5))
		}
		t.rows = append(t.rows, row)
	}
	s.table(t)
	if g.opt.HidePlaces {
		s.say("Coordinates are left out of this copy.")
	} else {
		s.say("Coordinates are WGS 84. The plan was made on the grid " + g.fact(g.f.Grid.CRS) + ".")
	}
	s.say("To fill in by the applicant: county; hydrologic unit code of twelve digits (HUC12); owner; nearest town.")
	return s
}

// need says what erosion the elevation model shows.
func (g *figures) need() section {
	s := section{title: "Need"}
	length, volume := g.scales(units.System.LengthScale), g.scales(units.System.VolumeScale)
	t := grid{caption: "All drainages that were analysed, by severity of erosion", left: 1, total: true,
		head: []string{"class", "drainages", "length, " + length[0].Unit, "length, " + length[1].Unit, "soil gone, " + volume[0].Unit, "soil gone, " + volume[1].Unit}}
	totals := g.f.Totals
	classes := []struct {
		name, class, from string
		count             int
	}{
		{"severe", "severe", "totals.severe", totals.Severe}, {"eroding", "eroding", "totals.eroding", totals.Eroding},
		{"watch", "watch", "totals.watch", totals.Watch}, {"sound", "sound", "totals.sound", totals.Sound},
		{"not judged", "", "totals.not_judged", totals.NotJudged},
	}
	var lengths, voids, known []value
	for _, c := range classes {
		l, v := g.ofClass(c.class)
		lengths = append(lengths, sumOrNone(l))
		gone := sumOrNone(v)
		if len(g.f.Loads) == 0 || c.class == "" && len(v) == 0 && c.count > 0 {
			gone = value{si: math.NaN()}
		} else {
			known = append(known, gone)
		}
		voids = append(voids, gone)
	}
	along := newAmount(g.pen, "", length, lengths, sum(lengths))
	gone := newAmount(g.pen, "", volume, voids, sum(known))
	for i, c := range classes {
		t.rows = append(t.rows, join(c.name, []string{g.count(c.from, c.count)}, along.row(i), gone.row(i)))
	}
	t.rows = append(t.rows, join("all", []string{g.count("totals.drainages", totals.Drainages)}, along.totals(), gone.totals()))
	s.table(t)
	s.say("Severity is an index from what the elevation model shows (depth and length of incision, headcuts, banks, what storm water can do to the bed); it ranks drainages on this land and is no measured rate. Soil gone is the volume of the incised channels below their lower bank top, which has left so far; drainages without incision count as none, and those not judged are in no sum.")
	s.say("The table covers the whole elevation model, which may reach beyond the property. " + g.cutOff())
	if len(g.treated) > 0 {
		if first := worst(g.f.Drainages); first != "" && !slices.ContainsFunc(g.treated, isOf(first)) {
			s.say("The drainage of the highest severity, " + g.fact(first) + ", has no dams in this plan" + g.onProperty(first) + ". Either it lies off the property, or low hand-built dams do not fit there by the settings, or a budget leaves it out; reaches.geojson gives the reasons.")
		}
		s.table(g.needOfTreated())
	}
	return s
}

// cutOff says how many catchments go on beyond the data.
func (g *figures) cutOff() string {
	n := g.f.Totals.Truncated
	if n == 0 {
		return "No catchment is cut off by the edge of the data."
	}
	return "Drainages whose catchment is cut off by the edge of the data: " + g.count("totals.truncated", n) + "; their catchments read \"at least\"."
}

// onProperty says how much of a drainage lies on the property; empty where no property was given.
func (g *figures) onProperty(id string) string {
	if !slices.ContainsFunc(g.f.Inputs, func(in facts.Input) bool { return in.Role == "property" }) {
		return ""
	}
	d := g.f.Drainages[slices.IndexFunc(g.f.Drainages, isOf(id))]
	return "; on the property lies " + g.named("drainages."+id+".property_share", float64(d.PropertyShare), percent, 0) + " of its length"
}

func (g *figures) needOfTreated() grid {
	length := g.scales(units.System.LengthScale)
	t := grid{caption: "The treated drainages", left: 2, head: append([]string{"drainage", "class", "severity, 0 to 100", "headcuts",
		"mean incision, " + length[0].Unit, "mean incision, " + length[1].Unit}, g.void.heads()...)}
	for i, d := range g.treated {
		class := d.SeverityClass
		if class == "" {
			class = "not judged"
		}
		at := "drainages." + d.ID + "."
		row := []string{g.fact(d.ID), class, g.number(at+"severity", float64(d.Severity), units.Scale{One: 1}, 1), g.number(at+"headcuts", float64(d.Headcuts), units.Scale{One: 1}, 0)}
		for _, c := range length {
			row = append(row, g.number(at+"incision_mean_m", float64(d.IncisionMeanM), c, 2))
		}
		t.rows = append(t.rows, append(row, g.void.row(i)...))
	}
	t.total = true
	t.rows = append(t.rows, append([]string{"all treated", "", "", "", "", ""}, g.void.totals()...))
	return t
}

// ofClass lists lengths and lost soil of the drainages of a class.
func (g *figures) ofClass(class string) (lengths, voids []value) {
	for _, d := range g.f.Drainages {
		if d.SeverityClass != class {
			continue
		}
		lengths = append(lengths, value{float64(d.LengthM), "drainages." + d.ID + ".length_m"})
		for _, l := range g.f.Loads {
			if l.Drainage == d.ID && l.VoidM3.Known() {
				voids = append(voids, value{float64(l.VoidM3), "loads." + l.Drainage + ".void_m3"})
			}
		}
	}
	return lengths, voids
}

// sumOrNone is the sum of values that may be none at all, which is 0.
func sumOrNone(parts []value) value {
	if len(parts) == 0 {
		return value{from: "none"}
	}
	return sum(parts)
}

// goals say what success looks like.
func (g *figures) goals() section {
	s := section{title: "Goals and measures of success"}
	s.list(
		"The bed along the treated channel, "+g.channel.all()+", is no lower than at the baseline, by re-surveyed cross-sections and profile.",
		"Silt lies behind the dams; how much is told as a share of the room surveyed at the baseline, beside the range in the time-line below.",
		"Headcuts in and above the treated drainages have not moved past their pins; their number, place and height are recorded before any rock is laid.",
		"After each flow every dam is inspected; a notch, key or apron that has failed is repaired or the dam taken out before the next rains.",
	)
	s.say("A target is met or missed only where the change is larger than the survey can be off.")
	return s
}

// names joins the names of things with commas.
func (g *figures) names(list []string) string {
	if len(list) == 0 {
		return "none"
	}
	return g.fact(strings.Join(list, ", "))
}

// settings returns settings as "name: value" where they are in the plan.
func (g *figures) settings(keys ...string) (list []string) {
	for _, k := range keys {
		if v := g.f.Setting(k); v != "" {
			list = append(list, g.fact(fmt.Sprintf("%s: %s", k, v)))
		}
	}
	return list
}

// worst returns the drainage of the highest severity; empty where none was judged.
func worst(list []facts.Drainage) (id string) {
	best := facts.Num(-1)
	for _, d := range list {
		if d.Severity.Known() && d.Severity > best {
			best, id = d.Severity, d.ID
		}
	}
	return id
}
