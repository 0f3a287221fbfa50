package hydro

import (
	"fmt"
	"math"

	"siltstep/hydro/siting"
)

// Series is a run of dams, one above the other, that is built as a whole: what is chosen, ordered and paid for.
type Series struct {
	ID         string   // D07-S1: drainage and number from the bottom
	Drainage   int      // place in Network.Drainages
	Number     int      // within the drainage, from the bottom, 1 …
	DamIDs     []string // from the lowest upstream
	FromM, ToM float64  // stations of the lowest axis and of the upper end of the highest wedge, m
	TreatedM   float64  // its part of Layout.TreatedM, to the hundredth, m: what it shares with the series below is counted there
	Severity   float64  // of the drainage, 0 to 100; NaN where it is not known
	Value      float64  // TreatedM times Severity/100, m; NaN where the severity is not known
	Built      int      // of its dams, those that stand already
	Order      int      // in which series are built across the plan, 1 …; 0 where it is left out, or all of it stands
	Phase      int      // year in which it is built, 1 …; 0 without a budget, and where Order is 0
	LeftOut    bool     // the budget does not reach for it: its dams are not in the plan
	Before     []string // what comes before its dams, plain sentences

	Quantities            // of all its dams
	togo       Quantities // of those that are still to be built
}

// seriesOf lists the series of all layouts, which have designs, drainage by drainage, each from the bottom.
func seriesOf(p *Plan) []Series {
	var out []Series
	for i := range p.Layouts {
		sites := p.Layouts[i].Sites
		treatedM := seriesTreatedM(&p.Layouts[i])
		severity := math.NaN()
		if i < len(p.Erosion) {
			severity = p.Erosion[i].Severity.Total
		}
		for from, to := 0, 0; from < len(sites); from = to {
			s := Series{Drainage: i, Number: sites[from].Series, FromM: sites[from].StationM, TreatedM: treatedM[sites[from].Series], Severity: severity}
			s.ID = fmt.Sprintf("%s-S%d", p.Network.Drainages[i].ID, s.Number)
			for to = from; to < len(sites) && sites[to].Series == s.Number; to++ {
				s.DamIDs = append(s.DamIDs, sites[to].ID)
				s.ToM = max(s.ToM, sites[to].WedgeEndM)
				one := quantitiesOf(&p.Designs[i][to])
				s.Add(one)
				if sites[to].Edit == siting.Built {
					s.Built++
				} else {
					s.togo.Add(one)
				}
			}
			s.Value = s.TreatedM * s.Severity / 100
			out = append(out, s)
		}
	}
	return out
}

// seriesTreatedM returns the treated channel length of each series by its number, to the hundredth, m: the stretches from each axis to the end of its
// wedge, what two share counted for the lower, gaps left out.
func seriesTreatedM(l *siting.Layout) map[int]float64 {
	out := map[int]float64{}
	coveredM := math.Inf(-1)
	for k := range l.Sites {
		s := &l.Sites[k]
		out[s.Series] += max(0, s.WedgeEndM-max(s.StationM, coveredM))
		coveredM = max(coveredM, s.WedgeEndM)
	}
	for number, m := range out {
		out[number] = hundredth(m)
	}
	return out
}

// treatedM returns the treated channel length of a layout as the sum of its series, m.
func treatedM(l *siting.Layout) float64 {
	bySeries, total, last := seriesTreatedM(l), 0.0, 0
	for k := range l.Sites {
		if n := l.Sites[k].Series; n != last {
			total, last = hundredth(total+bySeries[n]), n
		}
	}
	return total
}

// ruleBudget is the rule of a note on a reach that a budget leaves a series out.
const ruleBudget siting.Rule = "budget"

// leaveOut takes the dams of the series left out from their drainages, and notes it on their reaches. Ids and numbers stay. Treated
// and bare lengths are those with the dams that remain; the treated one is the sum of its series, also where nothing is left out.
func (p *Plan) leaveOut(list []Series) {
	out := map[string]bool{}
	for i := range list {
		if s := &list[i]; s.LeftOut {
			for _, id := range s.DamIDs {
				out[id] = true
			}
			noteLeftOut(&p.Layouts[s.Drainage], s)
		}
	}
	for i := range p.Layouts {
		l := &p.Layouts[i]
		var sites []siting.Site
		var designs []Design
		for k := range l.Sites {
			if !out[l.Sites[k].ID] {
				sites, designs = append(sites, l.Sites[k]), append(designs, p.Designs[i][k])
			}
		}
		if len(sites) < len(l.Sites) {
			l.Sites, p.Designs[i] = sites, designs
			l.BareM = bareM(l)
		}
		l.TreatedM = treatedM(l)
	}
	for i := range list {
		if s := &list[i]; !s.LeftOut {
			s.TreatedM = seriesTreatedM(&p.Layouts[s.Drainage])[s.Number]
			s.Value = s.TreatedM * s.Severity / 100
		}
	}
}

// noteLeftOut notes on the reach in which a series begins that it is left out.
func noteLeftOut(l *siting.Layout, s *Series) {
	for i := range l.Reaches {
		if r := &l.Reaches[i]; r.Eligible && s.FromM >= r.FromM && s.FromM <= r.ToM {
			r.Notes = append(r.Notes, siting.Reason{Rule: ruleBudget, Got: math.NaN(), Limit: math.NaN(),
				Text: fmt.Sprintf("The budget leaves out %s, stations %.1f to %.1f m", s.ID, s.FromM, s.ToM)})
			return
		}
	}
}

// bareM returns the length of eligible reaches that lies under no wedge, m.
func bareM(l *siting.Layout) (bareM float64) {
	for _, r := range l.Reaches {
		if !r.Eligible {
			continue
		}
		atM := r.FromM
		for k := range l.Sites {
			if s := &l.Sites[k]; s.StationM < r.ToM {
				bareM += max(0, s.StationM-atM)
				atM = max(atM, s.WedgeEndM)
			}
		}
		bareM += max(0, r.ToM-atM)
	}
	return bareM
}
