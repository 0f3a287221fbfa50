package siting

import (
	"fmt"
	"math"

	"siltstep/hydro/channel"
)

// Values over or under which a dam carries a caution.
const (
	BestCatchmentM2     = 20_000.0 // m²; below it dams hold best. Source: our own choice, the lower half of EPACheckDam's 2 to 10 acres
	EngineerCatchmentM2 = 40_000.0 // m²; over it an engineer is needed. Source: EPACheckDam and most state handbooks, 10 acres
	BestSlope           = 0.08     // rise over run; over it dams alone are usually inadequate. Source: IndianaCheckDam, read in a copy
	BestHeightM         = 0.6      // m; over it loose rock is cautioned. Source: CVCSwale; EPACheckDam, 2 ft (from memory)
	BestCellM           = 2.0      // m; coarser cells lower confidence. Source: our own choice
	ConfluenceM         = 10.0     // m; nearer than this a dam may be struck from the side. Source: common practice, one spacing; the figure is our own
)

// cautions returns what to heed at a dam, the last of stands, always in the same order.
func (l *layer) cautions(stands []stand, s *Site) []Reason {
	b, cfg := l.bed, l.cfg
	p, below := stands[len(stands)-1], beneath(stands[:len(stands)-1])
	var out []Reason
	add := func(is bool, rule Rule, got, limit float64, format string, args ...any) {
		if is {
			out = append(out, Reason{rule, got, limit, fmt.Sprintf(format, args...)})
		}
	}
	nan := math.NaN()
	add(s.EffectiveHeightM > RefusedHeightM, RuleEngineer, s.EffectiveHeightM, RefusedHeightM,
		"This dam is %.2f m high: a licensed engineer must design it", s.EffectiveHeightM)
	add(s.CatchmentM2 > EngineerCatchmentM2, RuleEngineer, s.CatchmentM2, EngineerCatchmentM2,
		"The catchment is %s, over %s: a licensed engineer must design this dam", hectares(s.CatchmentM2), hectares(EngineerCatchmentM2))
	add(b.stations[p.station].Truncated, RuleTruncated, nan, nan,
		"Water enters the catchment of this dam over the edge of the data: its area is at least %s, and no notch or stone can be sized until that is settled", hectares(s.CatchmentM2))
	add(s.CatchmentM2 > BestCatchmentM2, RuleCatchment, s.CatchmentM2, BestCatchmentM2,
		"The catchment is %s: small dams hold best below %s", hectares(s.CatchmentM2), hectares(BestCatchmentM2))
	add(s.Slope > BestSlope, RuleSlope, s.Slope, BestSlope,
		"The bed slope is %s: above %s check dams alone are usually inadequate", percent(s.Slope), percent(BestSlope))
	add(s.EffectiveHeightM > BestHeightM, RuleHeight, s.EffectiveHeightM, BestHeightM,
		"This dam is %.2f m high: many low dams hold better than a few high ones, and loose rock is best at %g m or less", s.EffectiveHeightM, BestHeightM)
	add(s.Base == OnFooter, RuleBase, nan, nan,
		"This is the lowest dam of its series and no stable bed is known below it: dig a footer of rock across the bed at the end of its apron, or start from bedrock")
	add(s.Edit != "", RuleEdit, nan, nan, "%s", editText(s.Edit))
	if dist, ok := confluenceM(l.d, s.StationM); ok {
		add(dist < ConfluenceM, RuleConfluence, dist, ConfluenceM,
			"A confluence lies %.1f m away: flow from the side may strike this dam or go round it", dist)
	}
	step, exposed := b.lipBelow(p.axisM, p.downM+StepLookM, cfg.SlopeMax, below)
	add(exposed, RuleStep, step.dropM, StepM,
		"The bed drops %.1f m on a step whose lip lies %.1f m below the toe of this dam: treat the step first, or it may eat its way up and undermine the dam",
		step.dropM, max(0, p.axisM-p.downM-step.stationM))
	if drowned, ok := b.lipBelow(p.meetM, p.meetM-p.axisM, cfg.SlopeMax, nil); ok && drowned.stationM > p.axisM {
		add(true, RuleStep, drowned.dropM, StepM,
			"A step of %.1f m lies %.1f m above this dam, and its pond is to drown it: check on the ground that the sill stands as high as the lip",
			drowned.dropM, drowned.stationM-p.axisM)
	}
	if below != nil {
		gap, bodiesM := p.axisM-below.axisM, below.upM+p.downM
		add(gap < bodiesM-1e-6, RuleClose, gap, bodiesM,
			"The dam below is only %.1f m away, and their bodies would overlap: one rock chute may do better here", gap)
	}
	add(p.cutOff.rule == RuleWater, RuleWater, p.cutOff.depthM, channel.StandingM,
		"The wedge of this dam would reach a place where water stands %.2f m deep (stock pond, road fill or pit) and is cut off there: walk it before building", p.cutOff.depthM)
	add(p.cutOff.rule == RuleCut, RuleCut, nan, nan,
		"The wedge of this dam would reach a place that was cut through in the elevation model (road fill, culvert or bank) and is cut off there: keep silt and water off what passes under it")
	add(p.cutOff.rule == RuleStockPond, RuleStockPond, nan, nan,
		"The wedge of this dam would reach a stock pond and is cut off there")
	add(p.runsOut, RuleWedge, nan, nan,
		"The bed does not rise to the sill before the upper end of the drainage: the wedge is cut off there, and the pond may reach further")
	add(l.d.Into < 0 && s.StationM < p.downM, RuleLowerEnd, s.StationM, p.downM,
		"This dam stands at the lower end of the drainage, where flow ends or leaves the data: look at what lies below its toe")
	add(l.cellM > BestCellM, RuleCoarse, l.cellM, BestCellM,
		"Cells of %.4g m blur the bed: measure spacing and drop on the ground before building", l.cellM)
	return out
}

// editText says what the field asked for.
func editText(a Action) string {
	switch a {
	case Built:
		return "This dam was reported as built: place and height are kept as they are, whatever limit they pass"
	case Fix:
		return "Place and height of this dam were set in the field: no limit was held against them"
	}
	return "This dam was moved here in the field: no limit of the place was held against it"
}

// confluenceM returns the distance along the channel to the nearest confluence in metres, the
// drainage's own lower end included where it joins another; ok is false where there is none.
func confluenceM(d *channel.Drainage, s float64) (dist float64, ok bool) {
	dist = math.Inf(1)
	if d.Into >= 0 {
		dist = s
	}
	for _, c := range d.ConfluencesM {
		dist = min(dist, math.Abs(s-c))
	}
	return dist, !math.IsInf(dist, 1)
}
