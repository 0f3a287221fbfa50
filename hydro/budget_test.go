package hydro

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"siltstep/hydro/siting"
)

// phases words what a budget does with each series.
func phases(list []Series) string {
	var words []string
	for _, s := range list {
		if s.LeftOut {
			words = append(words, s.ID+" out")
		} else {
			words = append(words, fmt.Sprintf("%s %d.%d", s.ID, s.Phase, s.Order))
		}
	}
	return strings.Join(words, ", ")
}

func TestBudget(t *testing.T) {
	nan := math.NaN()
	// Value: treated length times severity; 80: D01-S1 20 m, 16; D01-S2 10 m, 8. 50: D02-S1 30 m, 15. 10: D03-S1 10 m, 1.
	plan := func() *Plan {
		return drawnPlan([]float64{80, 50, 10, nan, 0}, []drawn{{0, []float64{4, 4}}, {50, []float64{5}}}, []drawn{{0, []float64{2, 2, 2}}}, []drawn{{0, []float64{3}}},
			[]drawn{{0, []float64{1}}}, []drawn{{0, []float64{1}}})
	}
	for _, c := range []struct {
		name   string
		budget Budget
		want   string // year and place in the build order
	}{
		// Drainages by value for rock: D02 15/6 = 2.5, D01 24/13 = 1.85, D03 1/3; D05 is worth nothing, D04 nobody knows.
		{"none", Budget{}, "D01-S1 0.2, D01-S2 0.3, D02-S1 0.1, D03-S1 0.4, D04-S1 0.6, D05-S1 0.5"},
		{"14 t: 16 + 15 for 8 + 6", Budget{14, BudgetRock, 1}, "D01-S1 1.2, D01-S2 out, D02-S1 1.1, D03-S1 out, D04-S1 out, D05-S1 out"},
		{"13 t: 16 + 8 for 13 beat 15 + 8 for 11 and 15 for 6", Budget{13, BudgetRock, 0}, "D01-S1 1.1, D01-S2 1.2, D02-S1 out, D03-S1 out, D04-S1 out, D05-S1 out"},
		{"8 t in each of three years: 16; 15; 8 + 1", Budget{8, BudgetRock, 3}, "D01-S1 1.1, D01-S2 3.3, D02-S1 2.2, D03-S1 3.4, D04-S1 out, D05-S1 out"},
		{"140 of money is 14 t", Budget{140, BudgetMoney, 1}, "D01-S1 1.2, D01-S2 out, D02-S1 1.1, D03-S1 out, D04-S1 out, D05-S1 out"},
		{"7 person-days are 14 t", Budget{7, BudgetDays, 1}, "D01-S1 1.2, D01-S2 out, D02-S1 1.1, D03-S1 out, D04-S1 out, D05-S1 out"},
		{"for nothing", Budget{0.5, BudgetRock, 5}, "D01-S1 out, D01-S2 out, D02-S1 out, D03-S1 out, D04-S1 out, D05-S1 out"},
	} {
		p := plan()
		if err := c.budget.validate(); err != nil {
			t.Fatal(err)
		}
		list, found := p.applyBudget(c.budget)
		if got := phases(list); got != c.want {
			t.Errorf("%s: %s, want %s", c.name, got, c.want)
		}
		dams, kept := 0, 0
		for i := range p.Layouts {
			dams += len(p.Layouts[i].Sites)
			if len(p.Layouts[i].Sites) != len(p.Designs[i]) {
				t.Errorf("%s: %d dams, %d designs", c.name, len(p.Layouts[i].Sites), len(p.Designs[i]))
			}
		}
		for _, s := range list {
			if !s.LeftOut {
				kept += s.Dams
			}
		}
		if dams != kept {
			t.Errorf("%s: %d dams in the plan, %d in the series that are built", c.name, dams, kept)
		}
		if (len(found) == 0) != (c.budget == Budget{}) {
			t.Errorf("%s: findings %v", c.name, found)
		}
	}
}

func TestBudgetFindings(t *testing.T) {
	nan := math.NaN()
	p := drawnPlan([]float64{80, 50, nan, 90, 0}, []drawn{{0, []float64{4, 4}}, {50, []float64{5}}}, []drawn{{0, []float64{2, 2, 2}}}, []drawn{{0, []float64{1}}}, []drawn{{0, []float64{1, nan}}}, []drawn{{0, []float64{1}}})
	_, found := p.applyBudget(Budget{10, BudgetRock, 1})
	want := []Finding{
		{Rule: FindingLeftOut, Text: "The budget of 10.00 t of rock pays for 1 of 6 series, dams in all 2, for 8.00 t: the choice with the most treated length weighted by severity. " +
			"Left out, dams in all 4: D01-S2 (5.00 t), D02-S1 (6.00 t). All of them would take 11.00 t more."},
		{Rule: FindingNotWeighed, Text: "A budget cannot weigh these series, so that they are left out: D03-S1 (the severity of the drainage is not known), D04-S1 (1 of its dams could not be designed), " +
			"D05-S1 (nothing to gain: severity or treated length is 0). Find what is missing, or plan without a budget."},
	}
	if fmt.Sprint(found) != fmt.Sprint(want) {
		t.Errorf("got\n%v\nwant\n%v", found, want)
	}
	p = drawnPlan([]float64{80, 80}, []drawn{{0, []float64{4}}}, []drawn{{0, []float64{5}}})
	if _, found = p.applyBudget(Budget{90, BudgetMoney, 2}); len(found) != 0 {
		t.Errorf("two years pay for both, yet %v", found)
	}
	p = drawnPlan([]float64{80}, []drawn{{0, []float64{4}}})
	if _, found = p.applyBudget(Budget{9, BudgetMoney, 2}); len(found) != 1 || !strings.Contains(found[0].Text, "9.00 USD a year for 2 years pays for none of 1 series: the least takes 40.00 USD. Left out, dams in all 1: D01-S1 (40.00 USD). All of them would take 40.00 USD more.") {
		t.Errorf("got %v", found)
	}
}

// A series that takes more than a year brings is never built, however many years there are; that is said.
func TestBudgetOfManySmallYears(t *testing.T) {
	p := drawnPlan([]float64{80, 80}, []drawn{{0, []float64{4}}}, []drawn{{0, []float64{5}}})
	if _, found := p.applyBudget(Budget{4.5, BudgetRock, 2}); len(found) != 1 || !strings.Contains(found[0].Text, "More than one year brings, and no series is built by halves: 1 of them.") {
		t.Errorf("got %v", found)
	}
}

func TestBudgetOfWhatIsNotKnown(t *testing.T) {
	p := drawnPlan([]float64{80}, []drawn{{0, []float64{4}}})
	p.Designs[0][0].Cost = math.NaN()
	list, found := p.applyBudget(Budget{1000, BudgetMoney, 1})
	if !list[0].LeftOut || len(found) != 1 || !strings.Contains(found[0].Text, "what it takes is not known") {
		t.Errorf("%s, %v", phases(list), found)
	}
}

// What stands already costs nothing more; what is begun is finished first.
func TestBudgetOfWhatIsBegun(t *testing.T) {
	p := drawnPlan([]float64{80, 50, 10, 90}, []drawn{{0, []float64{4}}}, []drawn{{0, []float64{2, 2}}}, []drawn{{0, []float64{3, 3}}}, []drawn{{0, []float64{5}}})
	p.Layouts[2].Sites[1].Edit = siting.Built // 3 t to go, poor as it is
	p.Layouts[3].Sites[0].Edit = siting.Built
	list, found := p.applyBudget(Budget{7, BudgetRock, 1})
	// 4 t are left: 4 t for 10 m at 80 %, or 4 t for 20 m at 50 %.
	if got, want := phases(list), "D01-S1 out, D02-S1 1.1, D03-S1 1.2, D04-S1 0.0"; got != want {
		t.Errorf("got %s, want %s", got, want)
	}
	if len(found) != 2 || !strings.Contains(found[0].Text, "pays for 2 of 4 series, dams in all 3, for 7.00 t:") || !strings.Contains(found[1].Text, "D03-S1 (3.00 t to go).") {
		t.Errorf("findings %v", found)
	}
	if len(p.Layouts[2].Sites) != 2 || len(p.Layouts[3].Sites) != 1 {
		t.Error("dams that stand left the plan")
	}
	p.applyBudget(Budget{1, BudgetRock, 1}) // less than what is begun takes
	if len(p.Layouts[2].Sites) != 2 || len(p.Layouts[1].Sites) != 0 {
		t.Error("a small budget must leave out all but what is begun")
	}
}

func TestBudgetOutOfRange(t *testing.T) {
	for _, c := range []struct {
		budget Budget
		want   string
	}{
		{Budget{Amount: 1}, "budget in \"\""},
		{Budget{1, "beads", 1}, "budget in \"beads\""},
		{Budget{0, BudgetRock, 1}, "budget 0; more than 0"},
		{Budget{math.NaN(), BudgetRock, 1}, "budget NaN"},
		{Budget{math.Inf(1), BudgetRock, 1}, "budget +Inf"},
		{Budget{1, BudgetRock, -1}, "budget for -1 years"},
		{Budget{1, BudgetRock, 31}, "allowed is 1 to 30"},
	} {
		if err := c.budget.validate(); err == nil || !strings.Contains(err.Error(), c.want) {
			t.Errorf("%+v: %v, want %q", c.budget, err, c.want)
		}
	}
}
