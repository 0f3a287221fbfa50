package hydro

import (
	"math"
	"slices"

	"siltstep/hydro/siting"
)

// NoActionName is the name of the scenario in which nothing is built.
const NoActionName = "none"

// Scenario is one way to treat the same land, to be held against others.
type Scenario struct {
	Name       string  // NoActionName, an objective or siting.MarchName
	Series     int     // number of series; 0 also where they were not counted
	EligibleM  float64 // length of eligible reaches, m
	TreatedM   float64 // treated channel length, m; NaN where it was not found
	UncoveredM float64 // eligible ground that no dam covers, m
	Note       string  // what the numbers do not say, a sentence; empty where there is nothing

	Quantities
}

// scenarios returns what siting found of ways to treat the land, before a budget: none, then those of each layout by name. All but the
// first count dams and rock as they were weighed when layouts were chosen; treated length and series are known of
// the layout of the plan alone. A way that was not looked for on every drainage with dams is left out.
func (p *Plan) scenarios() []Scenario {
	var eligibleM, treated float64
	var series int
	var sums []siting.Alternative
	chosen := ""
	for i := range p.Layouts {
		l := &p.Layouts[i]
		eligibleM, treated = hundredth(eligibleM+l.EligibleM), hundredth(treated+treatedM(l))
		series += len(seriesTreatedM(l))
		if l.Chosen.Name != "" {
			chosen = l.Chosen.Name
		}
	}
	for _, name := range p.ways(chosen) {
		if sum, ok := p.sumOfWay(name); ok {
			sums = append(sums, sum)
		}
	}
	nan := math.NaN()
	out := []Scenario{{Name: NoActionName, EligibleM: eligibleM, UncoveredM: eligibleM,
		Note: "Whether erosion goes on, and how fast, is not told: one survey shows no trend; a second one would."}}
	for _, a := range sums {
		s := Scenario{Name: a.Name, EligibleM: eligibleM, TreatedM: nan, UncoveredM: hundredth(a.OpenM),
			Quantities: Quantities{Dams: a.Dams, RockM3: nan, RockT: a.RockT, PondM3: nan, SedimentM3: a.SiltM3, SedimentLowM3: nan, SedimentHighM3: nan, PersonDays: nan, Cost: nan}.Rounded()}
		if a.Name == chosen {
			s.Series, s.TreatedM = series, treated
			s.Note = "The layout of this plan, before any budget, as it was weighed against the others; its dams are sized again where they stand."
		}
		out = append(out, s)
	}
	return out
}

// ways lists the names of layouts that may be compared.
func (p *Plan) ways(chosen string) []string {
	var names []string
	for _, o := range siting.Objectives() {
		names = append(names, string(o))
	}
	if chosen != "" && !slices.Contains(names, chosen) {
		names = append(names, chosen)
	}
	return append(names, siting.MarchName)
}

// sumOfWay adds up one way over all drainages that were laid out; ok is false where it was not looked for on each of them, or on
// none.
func (p *Plan) sumOfWay(name string) (sum siting.Alternative, ok bool) {
	for i := range p.Layouts {
		l := &p.Layouts[i]
		if l.Chosen.Name == "" {
			sum.OpenM += l.EligibleM // no place for a dam
			continue
		}
		ways := append(slices.Clone(l.Others), l.March, l.Chosen)
		at := slices.IndexFunc(ways, func(a siting.Alternative) bool { return a.Name == name })
		if at < 0 {
			return sum, false
		}
		a := ways[at]
		sum.Name = name
		sum.Dams, sum.RockT, sum.OpenM, sum.SiltM3 = sum.Dams+a.Dams, sum.RockT+a.RockT, sum.OpenM+a.OpenM, sum.SiltM3+a.SiltM3
	}
	return sum, sum.Name != ""
}
