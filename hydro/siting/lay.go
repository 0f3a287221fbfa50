package siting

import (
	"cmp"
	"math"
	"slices"

	"siltstep/hydro/channel"
)

// Lay lays out one drainage on the ground that was screened: it judges every station, gathers stations of one verdict into
// reaches, and of all layouts that cover the most eligible ground returns the best by cfg.Objective. inside limits where structures may
// stand; nil means anywhere. edits are what the field asks for; their dams stand whatever else is found.
// cellM is the side of a grid cell and must be above zero; cfg must be valid. A drainage
// without stations gives an empty layout. It panics where the ground has another number of stations. Cost: the stations, times the
// squared number of heights, times those under a wedge.
func Lay(d *channel.Drainage, cellM float64, cfg Config, inside Area, ground Ground, edits []Edit) Layout {
	if !(cellM > 0) {
		panic("siting: cell size must be above zero")
	}
	v := judgeStations(d, cellM, cfg, inside, ground)
	l := newLayer(d, cellM, cfg, inside, ground, v)
	options := l.options(edits)
	need, eligible := l.need()
	var chosen []option
	out := Layout{Reaches: v.reaches}
	for _, p := range apart(options, need, eligible) {
		p.objective, p.fixedKg = cfg.Objective, kg(cfg.DamCostT)
		p.siltL = l.siltOf(p.options)
		best := p.solve()
		out.Chosen.add(&p, cfg.Objective.name(), best)
		if len(edits) == 0 {
			out.March.add(&p, MarchName, p.march())
		}
		if cfg.Compare {
			out.compare(&p)
		}
		for _, k := range best {
			chosen = append(chosen, p.options[k])
		}
	}
	stands := inSeries(chosen)
	for _, r := range out.Reaches {
		if r.Eligible {
			out.EligibleM += r.LengthM()
		}
	}
	out.Sites = l.sites(stands)
	out.SeriesTreatedM = treatedM(stands)
	for _, m := range out.SeriesTreatedM {
		out.TreatedM += m
	}
	out.BareM = l.noteBare(out.Reaches, stands)
	return out
}

// kg returns tonnes as whole kilograms.
func kg(t float64) int64 { return int64(math.Round(1000 * t)) }

// shortM is the length of the uppermost piece of a reach that asks for no dam of its own, m: no wedge ends more exactly than that on the ground.
// Source: our own choice.
const shortM = 1.0

// need returns the eligible ground that dams are to cover, all but the uppermost piece of each reach; and all eligible ground.
func (l *layer) need() (need, eligible []span) {
	for _, r := range l.reaches {
		if !r.Eligible {
			continue
		}
		eligible = append(eligible, span{r.FromM, r.ToM})
		if r.ToM-shortM > r.FromM {
			need = append(need, span{r.FromM, r.ToM - shortM})
		}
	}
	return need, eligible
}

// apart splits a drainage into problems that do not bear on one another: no wedge, body or step of one reaches the next.
func apart(options []option, need, eligible []span) (all []problem) {
	mostDownM := 0.0
	for i := range options {
		mostDownM = max(mostDownM, options[i].downM)
	}
	from, reachM := 0, math.Inf(-1)
	for i := range options {
		o := &options[i]
		if i > from && min(o.axisM, o.lip.stationM) > reachM {
			all = append(all, problem{options: options[from:i]})
			from = i
		}
		reachM = max(reachM, o.meetM, o.endM, o.axisM+o.upM+mostDownM)
	}
	if len(options) > from {
		all = append(all, problem{options: options[from:]})
	}
	for i := range all {
		fromM, toM := math.Inf(-1), math.Inf(1)
		if i > 0 {
			fromM = all[i].options[0].axisM
		}
		if i+1 < len(all) {
			toM = all[i+1].options[0].axisM
		}
		all[i].need, all[i].eligible = clipped(need, fromM, toM), clipped(eligible, fromM, toM)
	}
	return all
}

// clipped returns what of some spans lies between two stations.
func clipped(spans []span, fromM, toM float64) (parts []span) {
	for _, s := range spans {
		if part := (span{max(s.fromM, fromM), min(s.toM, toM)}); part.toM > part.fromM {
			parts = append(parts, part)
		}
	}
	return parts
}

// A stand is a dam of a layout.
type stand struct {
	option
	series int // from the lower end, 1 …
}

// inSeries numbers the series of dams that rise upstream: one begins where the wedge of the dam below does not reach the axis.
func inSeries(chosen []option) []stand {
	const slackM = 1e-6
	stands := make([]stand, len(chosen))
	series := 0
	for i, o := range chosen {
		if i == 0 || chosen[i-1].endM < o.axisM-slackM {
			series++
		}
		stands[i] = stand{o, series}
	}
	return stands
}

// treatedM returns the treated channel length of each series in metres: the length that the stretches from
// each dam to the end of its wedge cover together, what two share counted once, in the lower series, and gaps left
// out. Stands rise upstream.
func treatedM(stands []stand) (lengths []float64) {
	covered := math.Inf(-1)
	for _, d := range stands {
		for len(lengths) < d.series {
			lengths = append(lengths, 0)
		}
		lengths[d.series-1] += max(0, d.endM-max(d.axisM, covered))
		covered = max(covered, d.endM)
	}
	return lengths
}

// sortOptions brings options into the order that a problem asks for, each place and height once, what the field asks for before others.
func sortOptions(all []option) []option {
	slices.SortStableFunc(all, func(a, b option) int {
		return cmp.Or(cmp.Compare(a.axisM, b.axisM), cmp.Compare(a.heightM, b.heightM))
	})
	return slices.CompactFunc(all, func(a, b option) bool { return a.axisM == b.axisM && a.heightM == b.heightM })
}
