package hydro

import (
	"fmt"
	"math"
	"slices"

	"siltstep/hydro/storm"
)

// rain tells that no rainfall was given.
func rain(p *Plan) (Finding, bool) {
	text := "No rainfall was given, and none is assumed: storm peaks, notches and stone sizes are left empty (null). They need a rainfall depth or intensity for this place."
	if p.Totals.Dams > p.Totals.Undesigned {
		text += " Rock, work and cost of dams are then those up to the sill of the notch: the wings beside it come on top."
	}
	return Finding{Rule: FindingRain, Text: text}, !p.Config.Storm.given()
}

// lookedUp tells what is to be said of a curve number that was looked up.
func lookedUp(s Storm) []Finding {
	var out []Finding
	for _, n := range s.Notes {
		out = append(out, Finding{Rule: FindingRunoff, Text: n.Text, Source: n.Source})
	}
	return out
}

// noPeaks tells where there is no peak although rain is given, and why, the most frequent reason first. Truncated catchments have a finding of
// their own.
func noPeaks(p *Plan) (Finding, bool) {
	var why []string
	dams := 0
	for _, d := range p.allDesigns() {
		if d.why != "" && d.why != whyTruncated {
			dams, why = dams+1, append(why, d.why)
		}
	}
	outlets := 0
	for i := range p.outlets {
		if o := &p.outlets[i]; o.why != "" && o.why != whyTruncated {
			outlets, why = outlets+1, append(why, o.why)
		}
	}
	if len(why) == 0 || !p.Config.Storm.given() {
		return Finding{}, false
	}
	reason, n := mostFrequent(why)
	text := fmt.Sprintf("Rain is given, yet the storm peak is not known at %d of %d drainages and %d of %d dams: what rests on it is left empty (null). ", outlets, len(p.outlets), dams, p.Totals.Dams)
	if n < len(why) {
		text += fmt.Sprintf("At %d of these %d places: ", n, len(why))
	}
	return Finding{Rule: FindingPeak, Text: text + sentence(reason)}, true
}

// truncatedDams tells which dams have no peak because of the edge of the data.
func truncatedDams(p *Plan) (Finding, bool) {
	var ids []string
	for _, d := range p.allDesigns() {
		if d.why == whyTruncated {
			ids = append(ids, d.id)
		}
	}
	return Finding{Rule: FindingTruncatedDams,
		Text: fmt.Sprintf("%d of %d dams have no storm peak, no notch and no stone: %s. Water enters their catchments over the edge of the data. Give what flows in there (--inflow), declare that nothing does (flow.edge: closed), or bring more data.", len(ids), p.Totals.Dams, listed(ids)),
	}, len(ids) > 0
}

// spread tells how far the methods lie apart at the dams, or at the drainages where there is no dam.
func spread(p *Plan) (Finding, bool) {
	var ratios []float64
	known, where := 0, "dams"
	add := func(low, high float64) {
		if !math.IsNaN(low) {
			known++
			if high > low && low > 0 {
				ratios = append(ratios, high/low)
			}
		}
	}
	for _, d := range p.allDesigns() {
		add(d.LowM3s, d.HighM3s)
	}
	if known == 0 {
		where = "lower ends of drainages"
		for i := range p.outlets {
			add(p.outlets[i].lowM3s, p.outlets[i].highM3s)
		}
	}
	f := Finding{Rule: FindingSpread, Source: "Genereux2003"}
	switch {
	case known == 0:
		return Finding{}, false
	case len(ratios) == 0:
		f.Text = fmt.Sprintf("Only one method stands behind each storm peak at the %d %s: without a gauge the true one may be half or twice as large. Give what a second method needs: a runoff coefficient and a curve number.", known, where)
	default:
		slices.Sort(ratios)
		f.Text = fmt.Sprintf("At %d of %d %s more than one method gives a storm peak: the highest is %.3g times the lowest at the median, up to %.3g. %s Without a gauge the true peak may still be half or twice as large.",
			len(ratios), known, where, ratios[len(ratios)/2], ratios[len(ratios)-1], p.Config.Storm.rule())
	}
	return f, true
}

// rule tells which peak dams are sized for.
func (s Storm) rule() string {
	if s.Method == "" {
		return "Notch and stone are sized for the highest."
	}
	return fmt.Sprintf("Notch and stone are sized by the %s method, as asked for.", s.Method)
}

// floorActs tells at how many dams the time of concentration is shorter than methods are made for.
func floorActs(p *Plan) (Finding, bool) {
	dams := 0
	for _, d := range p.allDesigns() {
		if d.ConcentrationS <= storm.LeastConcentrationS {
			dams++
		}
	}
	const minuteS = 60
	return Finding{Rule: FindingConcentration, Source: "SCS1986",
		Text: fmt.Sprintf("At %d of %d dams water is quicker from the divide than %g min, and the time of concentration counts as that: the least that methods and rain tables are made for. Times are by velocity along the flow path, without sheet flow at its top and with channels that run %g m deep in the mean (hydraulic radius): rather too short than too long, so that peaks are rather too high.",
			dams, p.Totals.Dams, storm.LeastConcentrationS/minuteS, bankfullM),
	}, dams > 0
}

// heeds tells once each what else is to be heeded of the peaks: the first of each rule, and at how many dams.
func heeds(p *Plan) []Finding {
	var out []Finding
	for _, rule := range []storm.Rule{storm.RuleMethod, storm.RuleCurveNumber, storm.RuleRain, storm.RuleSlope} {
		n, first := 0, storm.Note{}
		for _, d := range p.allDesigns() {
			at := slices.IndexFunc(d.Notes, func(n storm.Note) bool {
				return n.Rule == rule && !n.Recalled && (rule != storm.RuleSlope || d.ConcentrationS > storm.LeastConcentrationS)
			})
			if at < 0 {
				continue
			}
			if n++; n == 1 {
				first = d.Notes[at]
			}
		}
		if n > 0 {
			out = append(out, Finding{Rule: FindingStorm, Source: first.Source, Text: fmt.Sprintf("Of the storm at %d of %d dams, as at the first: %s", n, p.Totals.Dams, first.Text)})
		}
	}
	return out
}

// sited is a design with the id of its dam and why it has no peak.
type sited struct {
	*Design
	id, why string
}

// allDesigns lists the designs of all dams.
func (p *Plan) allDesigns() []sited {
	var out []sited
	for i := range p.Designs {
		for k := range p.Designs[i] {
			d := &p.Designs[i][k]
			out = append(out, sited{d, p.Layouts[i].Sites[k].ID, d.noPeak})
		}
	}
	return out
}

// mostFrequent returns the text that comes most often, of equal ones the one that comes first, and how often it comes.
func mostFrequent(texts []string) (string, int) {
	counts := map[string]int{}
	best := ""
	for _, t := range texts {
		counts[t]++
	}
	for _, t := range texts {
		if counts[t] > counts[best] {
			best = t
		}
	}
	return best, counts[best]
}
