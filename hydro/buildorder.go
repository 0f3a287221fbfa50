package hydro

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"siltstep/hydro/erosion"
)

// buildOrder sets the order in which the series that are neither left out nor stand already are built: year by year; in a year the drainage first
// with the most value for what its series take; in a drainage from the base level up. What they take is counted in the unit of the
// budget; without one in money where it is known of each series, else in rock. Drainages of which value or cost is not known come last,
// by severity.
func buildOrder(list []Series, b Budget) {
	if !b.Given() {
		b.Unit = BudgetMoney
		if slices.ContainsFunc(list, func(s Series) bool { return math.IsNaN(s.Cost) }) {
			b.Unit = BudgetRock
		}
	}
	type crew struct{ phase, drainage int } // where work goes on without moving
	value, cost := map[crew]float64{}, map[crew]float64{}
	var order []*Series
	for i := range list {
		if s := &list[i]; !s.LeftOut && s.Built < s.Dams {
			at := crew{s.Phase, s.Drainage}
			value[at] += s.Value
			cost[at] += b.knownOf(s.togo)
			order = append(order, s)
		}
	}
	gain := func(s *Series) float64 {
		at := crew{s.Phase, s.Drainage}
		return value[at] / cost[at]
	}
	slices.SortStableFunc(order, func(x, y *Series) int {
		return cmp.Or(cmp.Compare(x.Phase, y.Phase), cmp.Compare(gain(y), gain(x)), cmp.Compare(y.Severity, x.Severity),
			cmp.Compare(x.Drainage, y.Drainage), cmp.Compare(x.Number, y.Number))
	})
	for i, s := range order {
		s.Order = i + 1
	}
}

// stepsBefore sets what comes before the dams of each series that is to be built. Headcuts in tributaries are not looked at.
func (p *Plan) stepsBefore(list []Series) {
	for i := range list {
		if s := &list[i]; s.Order > 0 {
			s.Before = slices.Concat(p.headcutSteps(s, list), baseSteps(s, list))
		}
	}
}

// headcutSteps returns what is to be done at the headcuts of the drainage of a series: at each within it, at the nearest above it,
// and at the nearest below it that no series reaches.
func (p *Plan) headcutSteps(s *Series, list []Series) (steps []string) {
	if s.Drainage >= len(p.Erosion) {
		return nil
	}
	var above, below []erosion.Headcut
	for _, h := range p.Erosion[s.Drainage].Headcuts {
		switch {
		case h.Cause != erosion.CauseHeadcut:
		case h.StationM > s.ToM:
			above = append(above, h)
		case h.StationM >= s.FromM:
			steps = append(steps, headcutStep(h)+", within the series: lead inflow away from its lip where a stable place takes it, and treat the step, before any dam.")
		case !slices.ContainsFunc(list, func(o Series) bool {
			return o.Drainage == s.Drainage && !o.LeftOut && h.StationM >= o.FromM && h.StationM <= o.ToM
		}):
			below = append(below, h)
		}
	}
	if n := len(above); n > 0 {
		steps = append(steps, headcutStep(above[0])+andMore(n-1)+", above the series: lead inflow away from the lip, and treat the step, before any dam; while it works up the bed it sends silt down on the dams.")
	}
	if n := len(below); n > 0 {
		steps = append(steps, headcutStep(below[n-1])+andMore(n-1)+", below the series: treat the step before any dam; it works up the bed and takes the footing from the lowest one.")
	}
	return steps
}

func headcutStep(h erosion.Headcut) string {
	return fmt.Sprintf("Headcut of %.2f m at station %.1f m", h.HeightM, h.StationM)
}

func andMore(n int) string {
	if n == 0 {
		return ""
	}
	return fmt.Sprintf(" and %d more", n)
}

// baseSteps tells of the series next below in the drainage where it is left out, or built later.
func baseSteps(s *Series, list []Series) []string {
	for i := range list {
		low := &list[i]
		if low.Drainage != s.Drainage || low.Number != s.Number-1 {
			continue
		}
		switch {
		case low.LeftOut:
			return []string{fmt.Sprintf("%s, next below, is left out: see that the bed at the foot of this series holds, or give its lowest dam a footer.", low.ID)}
		case low.Order > s.Order:
			return []string{fmt.Sprintf("%s, next below, is built later, in year %d: see that the bed at the foot of this series holds until then.", low.ID, low.Phase)}
		}
	}
	return nil
}
