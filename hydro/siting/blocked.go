package siting

import "siltstep/hydro/channel"

// blocked returns, for each station, what of the ground itself keeps a dam off: a cut, a stock
// pond, or standing water and what holds it.
func blocked(p channel.Profile) []faults {
	out := make([]faults, len(p.Stations))
	for _, w := range channel.Stretches(p) {
		for i := w.First; w.Standing && i <= w.Last; i++ {
			out[i] = standingWater
		}
	}
	for i, s := range p.Stations {
		switch {
		case s.StockPond:
			out[i] = inStockPond
		case s.Cut:
			out[i] = onCut
		case s.NoBed:
			out[i] = standingWater
		}
	}
	return out
}

// bar is a stretch on which no dam stands and which no wedge enters.
type bar struct {
	fromM  float64 // its lower end, midway to the station below
	toM    float64 // its upper end, midway to the station above
	rule   Rule
	depthM float64 // deepest standing water in it, m; zero for none
}

// bars gathers blocked stations into stretches, from the lower end upstream. The rule is that of
// the lowest station.
func bars(p channel.Profile, blocked []faults) []bar {
	var out []bar
	for i, f := range blocked {
		if f == 0 {
			continue
		}
		if i == 0 || blocked[i-1] == 0 {
			out = append(out, bar{fromM: p.MidwayM(i - 1), rule: ruleOfBlocked(f)})
		}
		b := &out[len(out)-1]
		b.toM, b.depthM = p.MidwayM(i), max(b.depthM, p.Stations[i].FillM)
	}
	return out
}

func ruleOfBlocked(f faults) Rule {
	switch f {
	case onCut:
		return RuleCut
	case inStockPond:
		return RuleStockPond
	}
	return RuleWater
}

// firstAbove returns the lowest stretch that begins above s; ok is false where there is none.
func firstAbove(all []bar, s float64) (b bar, ok bool) {
	for _, b := range all {
		if b.fromM > s {
			return b, true
		}
	}
	return bar{}, false
}
