package siting

import (
	"fmt"
	"math"
)

// leastBareM is the least length of ground left uncovered that is told of, m. Source: our own choice.
const leastBareM = 0.5

// noteBare notes in each eligible reach which ground no wedge covers and why, and returns its length in all, m.
func (l *layer) noteBare(reaches []Reach, stands []stand) (bareM float64) {
	for i := range reaches {
		r := &reaches[i]
		if !r.Eligible {
			continue
		}
		for _, s := range uncovered(span{r.FromM, r.ToM}, stands) {
			length := s.toM - s.fromM
			bareM += length
			if length >= leastBareM {
				r.Notes = append(r.Notes, l.whyBare(s, *r))
			}
		}
	}
	return bareM
}

// uncovered returns the pieces of a span that lie under no wedge.
func uncovered(s span, stands []stand) (all []span) {
	for _, d := range stands {
		if d.axisM >= s.toM {
			break
		}
		if d.axisM > s.fromM {
			all = append(all, span{s.fromM, d.axisM})
		}
		s.fromM = max(s.fromM, d.endM)
	}
	if s.fromM < s.toM {
		all = append(all, s)
	}
	return all
}

// whyBare says why no dam covers a piece: what most often keeps dams off it and the two bodies below it.
func (l *layer) whyBare(s span, r Reach) Reason {
	bodyM := l.cfg.bodyM()
	counts := map[Rule]int{}
	var most Reason
	for i := l.bed.below(max(s.fromM-2*bodyM, r.FromM)); i < len(l.bed.stations) && l.bed.stations[i].StationM <= s.toM; i++ {
		why := l.off[i]
		if kept, ok := l.kept[i]; ok && why.Rule == "" {
			why = kept
		}
		if why.Rule == "" {
			continue
		}
		counts[why.Rule]++
		if counts[why.Rule] > counts[most.Rule] {
			most = why
		}
	}
	where := fmt.Sprintf("No dam covers stations %.1f to %.1f m", s.fromM, s.toM)
	switch {
	case most.Rule != "":
		return Reason{most.Rule, most.Got, most.Limit, where + ": " + clause(most.Text)}
	case s.toM >= r.ToM-1e-6:
		return Reason{RuleReachEnd, s.toM - s.fromM, l.cfg.body().LengthM(l.heights[0]), where + ": the upper end of the reach is too short for one more dam"}
	case s.fromM <= r.FromM+1e-6:
		return Reason{RuleReachEnd, s.toM - s.fromM, math.NaN(), where + ": the first place for a dam lies above"}
	}
	return Reason{RuleClose, s.toM - s.fromM, math.NaN(), where + ": bodies of dams would overlap, or a step lies in the way"}
}

// clause makes a sentence go on after a colon.
func clause(text string) string {
	if text == "" || text[0] < 'A' || text[0] > 'Z' {
		return text
	}
	return string(text[0]+'a'-'A') + text[1:]
}
