package hydro

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"siltstep/hydro/siting"
)

// BudgetUnit is what a budget is counted in.
type BudgetUnit string

// The units of a budget.
const (
	BudgetMoney BudgetUnit = "money"       // of Works.Prices.Currency
	BudgetRock  BudgetUnit = "rock"        // t to order, waste included
	BudgetDays  BudgetUnit = "person-days" // of hand labour
)

// MostBudgetYears is the most years that a budget may run. Source: our own choice.
const MostBudgetYears = 30

// Budget is what may be spent in each of some years; what is left of one year does not pass to the next. The zero value
// sets no limit, and all series are built.
type Budget struct {
	Amount float64 // a year, in Unit
	Unit   BudgetUnit
	Years  int // 0 stands for 1
}

// Given reports whether there is a limit.
func (b Budget) Given() bool { return b.Unit != "" }

// The rules of findings of a budget.
const (
	FindingLeftOut    = "series-left-out"
	FindingBegun      = "series-begun"
	FindingNotWeighed = "series-not-weighed"
	FindingNotProven  = "budget-not-proven"
)

// mostNamedSeries is how many series a finding names one by one; all are in the table of series. Source: our own choice.
const mostNamedSeries = 12

// validate reports an amount, a unit or a number of years out of range; nil for no budget.
func (b Budget) validate() error {
	switch {
	case b == Budget{}:
		return nil
	case !slices.Contains([]BudgetUnit{BudgetMoney, BudgetRock, BudgetDays}, b.Unit):
		return fmt.Errorf("budget in %q; it is in %s, %s or %s", b.Unit, BudgetMoney, BudgetRock, BudgetDays)
	case !(b.Amount > 0) || math.IsInf(b.Amount, 1):
		return fmt.Errorf("budget %g; more than 0, and finite", b.Amount)
	case b.Years < 0 || b.Years > MostBudgetYears:
		return fmt.Errorf("budget for %d years; allowed is 1 to %d", b.Years, MostBudgetYears)
	}
	return nil
}

// costOf returns what the dams of a series that are still to be built take of the budget; NaN where that is not known of
// each of them.
func (b Budget) costOf(s *Series) float64 {
	if s.togo.Undesigned > 0 {
		return math.NaN()
	}
	return b.knownOf(s.togo)
}

// knownOf returns what dams take of the budget as far as it is known; NaN where it is known of none.
func (b Budget) knownOf(q Quantities) float64 {
	switch b.Unit {
	case BudgetMoney:
		return q.Cost
	case BudgetDays:
		return q.PersonDays
	}
	return q.RockT
}

// text words an amount of the budget.
func (b Budget) text(amount float64, currency string) string {
	switch b.Unit {
	case BudgetMoney:
		return strings.TrimSpace(fmt.Sprintf("%.2f %s", amount, currency))
	case BudgetDays:
		return fmt.Sprintf("%.2f person-days", amount)
	}
	return fmt.Sprintf("%.2f t", amount)
}

// applyBudget lists the series of a plan as they will be built, and what is to be said of that. Within a budget each year takes the
// series left that have the greatest Value together for its cost, exactly as siting.Pick does; the rest is left
// out, and its dams leave Layouts and Designs. A series of which severity or cost is not known cannot be weighed, and is left out
// too. A series of which a dam stands already is never left out: what it still takes comes first, from the first year.
func (p *Plan) applyBudget(b Budget) ([]Series, []Finding) {
	list := seriesOf(p)
	proven := true
	if b.Given() {
		proven = b.choose(list)
	}
	p.leaveOut(list)
	buildOrder(list, b)
	p.stepsBefore(list)
	return list, p.budgetFindings(list, b, proven)
}

// choose sets Phase and LeftOut; proven is false where a better choice may be there.
func (b Budget) choose(list []Series) (proven bool) {
	proven = true
	values, costs := make([]float64, len(list)), make([]float64, len(list))
	amount := b.Amount
	for i := range list {
		s := &list[i]
		values[i], costs[i] = s.Value, b.costOf(s)
		if s.begun() {
			values[i] = 0
		}
		if s.begun() && s.Built < s.Dams {
			s.Phase = 1
			if known := b.knownOf(s.togo); known > 0 {
				amount -= known
			}
		}
	}
	for year := 1; year <= max(1, b.Years); year++ {
		chosen, best := siting.Pick(values, costs, hundredth(amount))
		amount = b.Amount
		proven = proven && best
		for i, yes := range chosen {
			if yes {
				list[i].Phase, values[i] = year, 0
			}
		}
	}
	for i := range list {
		list[i].LeftOut = list[i].Phase == 0 && !list[i].begun()
	}
	return proven
}

// begun reports whether a dam of a series stands already.
func (s *Series) begun() bool { return s.Built > 0 }

// cannotWeigh says why a series cannot be weighed against a budget; empty where it can.
func (b Budget) cannotWeigh(s *Series) string {
	switch {
	case math.IsNaN(s.Severity):
		return "the severity of the drainage is not known"
	case s.togo.Undesigned > 0:
		return fmt.Sprintf("%d of its dams could not be designed", s.togo.Undesigned)
	case math.IsNaN(b.costOf(s)):
		return "what it takes is not known"
	case !(s.Value > 0):
		return "nothing to gain: severity or treated length is 0"
	}
	return ""
}

// budgetFindings says what a budget leaves out, and what that would take.
func (p *Plan) budgetFindings(list []Series, b Budget, proven bool) []Finding {
	if !b.Given() {
		return nil
	}
	var out []Finding
	var kept, left Quantities
	var names, odd, begun []string
	taken, dear, leastCost := 0, 0, math.Inf(1)
	for i := range list {
		s := &list[i]
		why := b.cannotWeigh(s)
		switch {
		case s.Order > 0:
			taken++
			kept.Add(s.togo)
			if s.begun() {
				begun = append(begun, fmt.Sprintf("%s (%s to go)", s.ID, p.amount(b, b.knownOf(s.togo))))
			}
		case !s.LeftOut: // it stands
		case why != "":
			odd = append(odd, fmt.Sprintf("%s (%s)", s.ID, why))
		default:
			left.Add(s.togo)
			leastCost = min(leastCost, b.costOf(s))
			if b.costOf(s) > b.Amount {
				dear++
			}
			names = append(names, fmt.Sprintf("%s (%s)", s.ID, p.amount(b, b.costOf(s))))
		}
	}
	if len(names) > 0 {
		text := fmt.Sprintf("%s pays for %d of %d series, dams in all %d, for %s: the choice with the most treated length weighted by severity.",
			p.budgetText(b), taken, len(list), kept.Dams, p.amount(b, b.knownOf(kept)))
		if taken == 0 {
			text = fmt.Sprintf("%s pays for none of %d series: the least takes %s.", p.budgetText(b), len(list), p.amount(b, leastCost))
		}
		text += fmt.Sprintf(" Left out, dams in all %d: %s. All of them would take %s more.", left.Dams, someSeries(names), p.amount(b, b.knownOf(left)))
		if b.Years > 1 && dear > 0 && taken > 0 {
			text += fmt.Sprintf(" More than one year brings, and no series is built by halves: %d of them.", dear)
		}
		out = append(out, Finding{Rule: FindingLeftOut, Text: text})
	}
	if len(begun) > 0 {
		out = append(out, Finding{Rule: FindingBegun,
			Text: fmt.Sprintf("Series of which dams stand already are finished first, in year 1, whatever the budget: %s.", someSeries(begun))})
	}
	if len(odd) > 0 {
		out = append(out, Finding{Rule: FindingNotWeighed,
			Text: fmt.Sprintf("A budget cannot weigh these series, so that they are left out: %s. Find what is missing, or plan without a budget.", someSeries(odd))})
	}
	if !proven {
		out = append(out, Finding{Rule: FindingNotProven,
			Text: "The series are so alike in gain for what they take that the search for the best choice was cut short: the choice fits the budget, but a slightly better one may be there."})
	}
	return out
}

// budgetText begins a sentence about a budget.
func (p *Plan) budgetText(b Budget) string {
	text := "The budget of " + p.amount(b, b.Amount)
	if b.Unit == BudgetRock {
		text += " of rock"
	}
	if b.Years > 1 {
		text += fmt.Sprintf(" a year for %d years", b.Years)
	}
	return text
}

// amount words an amount of a budget in the money of the plan.
func (p *Plan) amount(b Budget, x float64) string { return b.text(x, p.Config.Works.Prices.Currency) }

// someSeries lists the first of many.
func someSeries(names []string) string {
	if more := len(names) - mostNamedSeries; more > 0 {
		return fmt.Sprintf("%s and %d more, see the series", strings.Join(names[:mostNamedSeries], ", "), more)
	}
	return strings.Join(names, ", ")
}
