package siting

import (
	"fmt"
	"math"

	"siltstep/hydro/channel"
)

// landReason words one fault of the land with the worst value of the run.
func (j *judge) landReason(bit faults, r run) Reason {
	nan, cfg, st := math.NaN(), j.cfg, j.d.Profile.Stations
	slope := func(i int) float64 { return st[i].Slope }
	catchmentM2 := func(i int) float64 { return st[i].CatchmentM2 }
	switch bit {
	case tooFlat:
		got := r.worst(math.Min, slope)
		return Reason{RuleSlope, got, cfg.SlopeMin, fmt.Sprintf("The bed is too flat: its slope goes down to %s, and the least is %s", percent(got), percent(cfg.SlopeMin))}
	case tooSteep:
		return cfg.tooSteepReason(r.worst(math.Max, slope))
	case slopeUnknown:
		return Reason{RuleSlope, nan, nan, "The bed slope cannot be told here"}
	case tooSmall:
		got := r.worst(math.Min, catchmentM2)
		return Reason{RuleCatchment, got, cfg.CatchmentMinM2, fmt.Sprintf("The catchment is too small: it goes down to %s, and the least is %s", hectares(got), hectares(cfg.CatchmentMinM2))}
	case tooLarge:
		got := r.worst(math.Max, catchmentM2)
		return Reason{RuleCatchment, got, cfg.CatchmentMaxM2, fmt.Sprintf("The catchment is too large for hand-built dams: it goes up to %s, and the most is %s", hectares(got), hectares(cfg.CatchmentMaxM2))}
	case tooShallow:
		got := j.incision.least(r.first, r.last)
		return Reason{RuleIncision, got, cfg.MinIncisionM, fmt.Sprintf("The bed is cut only %.2f m into the land at its shallowest, and the least is %.3g m", got, cfg.MinIncisionM)}
	case incisionUnknown:
		return Reason{RuleIncision, nan, cfg.MinIncisionM, "How far the bed is cut into the land cannot be told here"}
	case standingWater:
		got := r.worst(math.Max, func(i int) float64 { return st[i].FillM })
		return Reason{RuleWater, got, channel.MaxFillM, fmt.Sprintf("Water would stand up to %.2f m deep here (stock pond, road fill or pit): walk it", got)}
	case onCut:
		return Reason{RuleCut, nan, nan, "A blockage in the elevation model was cut through here (road fill, culvert or bank): the bed is not seen, and a dam would block what passes under it"}
	case inStockPond:
		return Reason{RuleStockPond, nan, nan, "This piece lies in a stock pond or playa, declared or likely: walk it"}
	case offProperty:
		return Reason{RuleProperty, nan, nan, "This piece lies outside the property"}
	case coarse:
		return Reason{RuleCoarse, j.cellM, MaxSiteCellM, fmt.Sprintf("Cells of %.4g m can screen drainages but cannot site check dams: cells of at most %g m are needed", j.cellM, MaxSiteCellM)}
	case atConfluence:
		return Reason{RuleConfluence, 0, nan, "The lower end is the confluence and lies in the channel of the larger drainage"}
	}
	return j.nearReason(bit, r)
}

// nearReason words what a run lies in or too near to, with the least distance.
func (j *judge) nearReason(bit faults, r run) Reason {
	reason := func(rule Rule, limitM float64, what string, of obstacles) Reason {
		got := r.worst(math.Min, j.distanceTo(of))
		if got == 0 {
			return Reason{rule, got, limitM, fmt.Sprintf("This piece meets %s, and the least distance is %g m", what, limitM)}
		}
		return Reason{rule, got, limitM, fmt.Sprintf("This piece comes within %.1f m of %s, and the least distance is %g m", got, what, limitM)}
	}
	switch bit {
	case nearBuilding:
		return reason(RuleBuilding, j.cfg.BuildingM, "a building", j.near.buildings)
	case nearRoad:
		return reason(RuleRoad, j.cfg.RoadM, "a road", j.near.roads)
	case nearStream:
		return reason(RuleLiveStream, j.cfg.StreamM, "a live stream", j.near.streams)
	}
	return Reason{RuleExclusion, math.NaN(), math.NaN(), "This piece lies in an area that was declared closed to dams"}
}

func (j *judge) distanceTo(of obstacles) func(station int) float64 {
	return func(i int) float64 {
		st := j.d.Profile.Stations[i]
		return of.distanceM(st.X, st.Y)
	}
}

// placeReason words one fault of places with the worst value of the run.
func (j *judge) placeReason(bit faults, r run) Reason {
	nan, cfg := math.NaN(), j.cfg
	switch bit {
	case wideBed:
		got := r.worst(math.Max, func(i int) float64 { return j.places[i].BedWidthM })
		return Reason{RuleBedWidth, got, cfg.BedWidthMaxM, fmt.Sprintf("The bed is too wide for hand-built dams: it goes up to %.1f m, and the most is %g m", got, cfg.BedWidthMaxM)}
	case wideTop:
		got := r.worst(math.Max, func(i int) float64 { return j.places[i].TopWidthM })
		return Reason{RuleTopWidth, got, cfg.TopWidthMaxM, fmt.Sprintf("It is too far from bank top to bank top: up to %.1f m, and the most is %g m", got, cfg.TopWidthMaxM)}
	case nearConfluence:
		got := r.worst(math.Min, func(i int) float64 {
			dist, _ := confluenceM(j.d, j.d.Profile.Stations[i].StationM)
			return dist
		})
		return Reason{RuleConfluence, got, cfg.ConfluenceM, fmt.Sprintf("A confluence lies %.1f m away along the channel, and the least is %g m", got, cfg.ConfluenceM)}
	case onBend:
		got := r.worst(math.Min, j.radiusM)
		return Reason{RuleBend, got, cfg.BendRadiusM, fmt.Sprintf("The channel bends too tightly: with a radius down to %.1f m, and the least is %g m", got, cfg.BendRadiusM)}
	case overProperty:
		return Reason{RuleProperty, nan, nan, fmt.Sprintf("The property line is so near that even the lowest dam, with a body of %.3g m, would cross it", 2*j.halfM)}
	}
	got := r.worst(math.Min, j.distanceTo(j.near.exclusions))
	return Reason{RuleExclusion, got, j.halfM, fmt.Sprintf("An area closed to dams lies %.1f m away: even the lowest dam, with a body of %.3g m, would reach into it", got, 2*j.halfM)}
}

// sectionReason gives the cause that keeps dams of the most stations of a run from being sized; of equals the lowest.
func (j *judge) sectionReason(r run) Reason {
	count, why := map[string]int{}, ""
	for i := r.first; i <= r.last; i++ {
		if j.place[i]&noSection != 0 {
			count[j.places[i].Why]++
		}
	}
	for i := r.first; i <= r.last; i++ {
		if w := j.places[i].Why; j.place[i]&noSection != 0 && (why == "" || count[w] > count[why]) {
			why = w
		}
	}
	text := "No dam can be sized here"
	if why != "" {
		text += ": " + why
	}
	return Reason{RuleSection, math.NaN(), math.NaN(), text}
}

// bankReasons gives why the lowest dam cannot be built along a run: of each rule the reason of the station that is
// furthest from its limit, of equals the lowest.
func (j *judge) bankReasons(r run) (out []Reason) {
	for i := r.first; i <= r.last; i++ {
		if j.place[i]&lowBanks != 0 {
			out = keepWorst(out, *j.places[i].Offers[0].Fault)
		}
	}
	return out
}

// keepWorst puts a reason in place of one of the same rule that lies nearer to its limit, or at the end.
func keepWorst(all []Reason, next Reason) []Reason {
	for k := range all {
		if all[k].Rule != next.Rule {
			continue
		}
		if math.Abs(next.Got-next.Limit) > math.Abs(all[k].Got-all[k].Limit) {
			all[k] = next
		}
		return all
	}
	return append(all, next)
}

func (j *judge) shortReason(r run) Reason {
	leastM := minReachM(j.cellM)
	return Reason{RuleShort, r.toM - r.fromM, leastM, fmt.Sprintf("Only %.1f m meet the limits: a reach needs at least %.4g m, the length over which bed slope is measured", r.toM-r.fromM, leastM)}
}

func percent(slope float64) string { return fmt.Sprintf("%.3g %%", 100*slope) }
func hectares(m2 float64) string   { return fmt.Sprintf("%.2f ha", m2/10_000) }
