package hydro

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strings"
	"unicode"
	"unicode/utf8"

	"siltstep/hydro/checkdam"
)

// undesigned tells which dams have no design, and the most frequent reason.
func undesigned(p *Plan) (Finding, bool) {
	var ids, why []string
	for _, d := range p.allDesigns() {
		if d.Dam == nil {
			ids = append(ids, d.id)
			_, text, _ := strings.Cut(d.Why, "no design: ")
			why = append(why, text)
		}
	}
	if len(ids) == 0 {
		return Finding{}, false
	}
	reason, n := mostFrequent(why)
	return Finding{Rule: FindingUndesigned,
		Text: fmt.Sprintf("%d of %d dams are not designed, and are in no sum of rock, pond, sediment, work and cost: %s. At %d of them: %s Measure a cross-section there, and size them with siltstep size.", len(ids), p.Totals.Dams, listed(ids), n, sentence(reason)),
	}, true
}

// notBuildable tells how many dams cannot be built as designed, by reason.
func notBuildable(p *Plan) (Finding, bool) {
	dams, designed, lower, unknown := 0, 0, 0, 0
	counts := map[checkdam.Rule]int{}
	for _, d := range p.allDesigns() {
		if d.Dam == nil {
			continue
		}
		designed++
		if d.Dam.Buildable {
			continue
		}
		dams++
		if !math.IsNaN(d.LowerM) {
			lower++
			if d.Dam.Notch == nil {
				unknown++
			}
		}
		seen := map[checkdam.Rule]bool{}
		for _, n := range d.Dam.Notes {
			if n.Fail && !seen[n.Rule] {
				seen[n.Rule] = true
				counts[n.Rule]++
			}
		}
	}
	rules := make([]checkdam.Rule, 0, len(counts))
	for rule := range counts {
		rules = append(rules, rule)
	}
	slices.SortFunc(rules, func(a, b checkdam.Rule) int { return cmp.Or(cmp.Compare(counts[b], counts[a]), cmp.Compare(a, b)) })
	var parts []string
	for _, rule := range rules {
		parts = append(parts, fmt.Sprintf("%s %d", rule, counts[rule]))
	}
	proviso := ""
	if unknown > 0 {
		proviso = fmt.Sprintf(" At %d of these the storm is not known, and the height holds for the least notch only.", unknown)
	}
	return Finding{Rule: FindingNotBuildable,
		Text: fmt.Sprintf("%d of %d dams cannot be built as designed, by reason (a dam may have several): %s. They keep their places and are in the sums; the cautions of each say why. %d of them can be built lower, as said there.%s", dams, designed, strings.Join(parts, ", "), lower, proviso),
	}, dams > 0
}

// heavyStone tells of dams whose stone is too heavy for hands.
func heavyStone(p *Plan) (Finding, bool) {
	var ids []string
	largestM, limitM := 0.0, math.NaN()
	for _, d := range p.allDesigns() {
		if d.Dam == nil {
			continue
		}
		for _, n := range d.Dam.Notes {
			if n.Rule == checkdam.RuleStone && !n.Fail && n.Got > n.Limit {
				ids = append(ids, d.id)
				largestM, limitM = max(largestM, n.Got), n.Limit
			}
		}
	}
	return Finding{Rule: FindingStone,
		Text: fmt.Sprintf("At %d of %d dams the storm asks for stone over %g m, too heavy for hands, up to %.2f m: %s. A wider notch, a flatter downstream face or less water makes it smaller; else it is placed by machine.", len(ids), p.Totals.Dams, limitM, largestM, listed(ids)),
	}, len(ids) > 0
}

// recalled tells once that designs rest on handbook values from memory, and on which.
func recalled(p *Plan) (Finding, bool) {
	sources := map[string]bool{}
	notch, dams := false, 0
	for _, d := range p.allDesigns() {
		for _, m := range d.Methods {
			sources["method "+string(m.Method)] = sources["method "+string(m.Method)] || m.Valid && m.Recalled
		}
		for _, n := range d.Notes {
			sources[n.Source] = sources[n.Source] || n.Recalled
		}
		if d.Dam == nil {
			continue
		}
		dams++
		notch = notch || d.Dam.Notch != nil
		for _, n := range d.Dam.Notes {
			sources[n.Source] = sources[n.Source] || n.Recalled
		}
		for _, s := range d.Dam.Stones {
			sources[s.Source] = sources[s.Source] || s.Valid && s.Recalled
		}
	}
	var keys []string
	for key, is := range sources {
		if is && key != "" {
			keys = append(keys, key)
		}
	}
	slices.Sort(keys)
	what := "Keys and aprons"
	if notch {
		what = "Notches, stone, keys and aprons"
	}
	return Finding{Rule: FindingRecalled,
		Text: fmt.Sprintf("%s rest on values recalled, not seen in print (handbook value recalled, verify): %s. Look them up before building.", what, strings.Join(keys, ", ")),
	}, dams > 0 && len(keys) > 0
}

// prism tells at which dams pond and sediment are not measured on the ground.
func prism(p *Plan) (Finding, bool) {
	var ids, why []string
	for _, d := range p.allDesigns() {
		if d.Dam != nil && d.Measured.Why != "" {
			ids = append(ids, d.id)
			why = append(why, d.Measured.Why)
		}
	}
	if len(ids) == 0 {
		return Finding{}, false
	}
	reason, n := mostFrequent(why)
	return Finding{Rule: FindingPrism,
		Text: fmt.Sprintf("At %d of %d dams pond and sediment are not resolved on the ground: %s. They are those of a prism of the section at the dam on an even bed, and no spread of them is known: low and high of sums hold them as they are. At %d of them: %s",
			len(ids), p.Totals.Dams, listed(ids), n, sentence(reason)),
	}, true
}

// notPriced tells what is missing for work, cost and years to fill.
func notPriced(p *Plan) (Finding, bool) {
	var missing []string
	w := p.Config.Works
	if w.Prices.DaysPerM3 == 0 {
		missing = append(missing, "person-days: the days it takes to place a m³ of rock")
	}
	if w.Prices.RockPerTonne == 0 || w.Prices.PerDay == 0 || w.Prices.DaysPerM3 == 0 {
		missing = append(missing, "cost: the prices of rock and of a day's work, and those days")
	}
	if w.Yield == (checkdam.Yield{}) {
		missing = append(missing, "years to fill: a sediment yield, low and high")
	}
	if p.Config.Gully.FormationYears == 0 {
		missing = append(missing, "gully loads a year: the years over which the gullies formed")
	}
	return Finding{Rule: FindingPrices,
		Text: fmt.Sprintf("Left empty (null) are, with what they need: %s.", strings.Join(missing, "; ")),
	}, len(missing) > 0 && p.Totals.Dams > p.Totals.Undesigned
}

// sentence makes a sentence of a reason.
func sentence(text string) string {
	first, n := utf8.DecodeRuneInString(text)
	return string(unicode.ToUpper(first)) + strings.TrimSuffix(text[n:], ".") + "."
}
