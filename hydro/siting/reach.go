package siting

import (
	"fmt"
	"math"

	"siltstep/hydro/channel"
)

// run is a maximal piece of a drainage whose stations have the same faults.
type run struct {
	first, last int     // stations, both included
	fromM, toM  float64 // midway to the stations beyond, or the ends of the drainage
	faults      faults
}

// runs splits a drainage into runs from the lower end upstream; blocked is told by station. A run without a fault that is shorter than minReachM becomes tooShort.
func runs(d *channel.Drainage, blocked []faults, incision windowed, cellM float64, cfg Config, inside Area) []run {
	var out []run
	st := d.Profile.Stations
	for i := range st {
		f := judge(d, i, blocked[i], incision, cellM, cfg, inside)
		if n := len(out); n > 0 && out[n-1].faults == f {
			out[n-1].last = i
			continue
		}
		out = append(out, run{first: i, last: i, faults: f})
	}
	for k := range out {
		r := &out[k]
		r.fromM, r.toM = d.Profile.MidwayM(r.first-1), d.Profile.MidwayM(r.last)
		if r.faults == 0 && r.toM-r.fromM < minReachM(cellM) {
			r.faults = tooShort
		}
	}
	return out
}

// minReachM is the least length of an eligible reach in metres: the length over which bed
// slope is measured, 10 m or 5 cells.
func minReachM(cellM float64) float64 { return max(10, 5*cellM) }

// reach turns a run into a reach with all its reasons.
func (r run) reach(d *channel.Drainage, incision windowed, cellM float64, cfg Config) Reach {
	out := Reach{Drainage: d.ID, FromM: r.fromM, ToM: r.toM, Eligible: r.faults == 0}
	for bit := tooFlat; bit <= tooShort; bit <<= 1 {
		if r.faults&bit != 0 {
			out.Reasons = append(out.Reasons, r.reason(bit, d.Profile.Stations, incision, cellM, cfg))
		}
	}
	return out
}

// reason words one fault with the worst value of the run.
func (r run) reason(bit faults, all []channel.Station, incision windowed, cellM float64, cfg Config) Reason {
	st := all[r.first : r.last+1]
	nan := math.NaN()
	switch bit {
	case tooFlat:
		got := worst(st, math.Min, func(s channel.Station) float64 { return s.Slope })
		return Reason{RuleSlope, got, cfg.SlopeMin, fmt.Sprintf("The bed is too flat: its slope goes down to %s, and the least is %s", percent(got), percent(cfg.SlopeMin))}
	case tooSteep:
		got := worst(st, math.Max, func(s channel.Station) float64 { return s.Slope })
		return cfg.tooSteepReason(got)
	case slopeUnknown:
		return Reason{RuleSlope, nan, nan, "The bed slope cannot be told here"}
	case tooSmall:
		got := worst(st, math.Min, func(s channel.Station) float64 { return s.CatchmentM2 })
		return Reason{RuleCatchment, got, cfg.CatchmentMinM2, fmt.Sprintf("The catchment is too small: it goes down to %s, and the least is %s", hectares(got), hectares(cfg.CatchmentMinM2))}
	case tooLarge:
		got := worst(st, math.Max, func(s channel.Station) float64 { return s.CatchmentM2 })
		return Reason{RuleCatchment, got, cfg.CatchmentMaxM2, fmt.Sprintf("The catchment is too large for hand-built dams: it goes up to %s, and the most is %s", hectares(got), hectares(cfg.CatchmentMaxM2))}
	case tooShallow:
		got := incision.least(r.first, r.last)
		return Reason{RuleIncision, got, cfg.MinIncisionM, fmt.Sprintf("The bed is cut only %.2f m into the land at its shallowest, and the least is %.3g m", got, cfg.MinIncisionM)}
	case incisionUnknown:
		return Reason{RuleIncision, nan, cfg.MinIncisionM, "How far the bed is cut into the land cannot be told here"}
	case standingWater:
		got := worst(st, math.Max, func(s channel.Station) float64 { return s.FillM })
		return Reason{RuleWater, got, channel.MaxFillM, fmt.Sprintf("Water would stand up to %.2f m deep here (stock pond, road fill or pit): walk it", got)}
	case onCut:
		return Reason{RuleCut, nan, nan, "A blockage in the elevation model was cut through here (road fill, culvert or bank): the bed is not seen, and a dam would block what passes under it"}
	case inStockPond:
		return Reason{RuleStockPond, nan, nan, "This piece lies in a stock pond or playa, declared or likely: walk it"}
	case offProperty:
		return Reason{RuleProperty, nan, nan, fmt.Sprintf("This piece lies outside the property, or so near its line that a dam body of %.3g m would cross it", cfg.bodyM())}
	case coarse:
		return Reason{RuleCoarse, cellM, MaxSiteCellM, fmt.Sprintf("Cells of %.4g m can screen drainages but cannot site check dams: cells of at most %g m are needed", cellM, MaxSiteCellM)}
	case atConfluence:
		return Reason{RuleConfluence, 0, nan, "The lower end is the confluence and lies in the channel of the larger drainage"}
	}
	return Reason{RuleShort, r.toM - r.fromM, minReachM(cellM), fmt.Sprintf("Only %.1f m meet the limits: a reach needs at least %.4g m, the length over which bed slope is measured", r.toM-r.fromM, minReachM(cellM))}
}

// worst folds one value of the stations, of which there is at least one.
func worst(st []channel.Station, pick func(a, b float64) float64, value func(channel.Station) float64) float64 {
	w := value(st[0])
	for _, s := range st[1:] {
		w = pick(w, value(s))
	}
	return w
}

func percent(slope float64) string { return fmt.Sprintf("%.3g %%", 100*slope) }
func hectares(m2 float64) string   { return fmt.Sprintf("%.2f ha", m2/10_000) }
