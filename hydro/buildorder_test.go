package hydro

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"

	"siltstep/hydro/erosion"
)

func TestStepsBeforeASeries(t *testing.T) {
	// Series from 0 to 20 m, 50 to 60 m and 100 to 110 m.
	p := drawnPlan([]float64{80}, []drawn{{0, []float64{1, 1}}, {50, []float64{1}}, {100, []float64{1}}})
	p.Erosion[0].Headcuts = []erosion.Headcut{
		{StationM: 10, HeightM: 0.4, Cause: erosion.CauseHeadcut},
		{StationM: 30, HeightM: 0.5, Cause: erosion.CauseRoad},
		{StationM: 35, HeightM: 0.6, Cause: erosion.CauseHeadcut},
		{StationM: 70, HeightM: 0.7, Cause: erosion.CauseHeadcut},
	}
	list, _ := p.applyBudget(Budget{})
	for i, want := range [][]string{
		{"Headcut of 0.40 m at station 10.0 m, within", "Headcut of 0.60 m at station 35.0 m and 1 more, above"},
		{"Headcut of 0.70 m at station 70.0 m, above", "Headcut of 0.60 m at station 35.0 m, below"}, // that at 10 m is in a series
		{"Headcut of 0.70 m at station 70.0 m and 1 more, below"},
	} {
		got := list[i].Before
		if len(got) != len(want) || !slices.EqualFunc(got, want, strings.HasPrefix) {
			t.Errorf("%s: %q, want %q", list[i].ID, got, want)
		}
	}
}

func TestStepsAboveASeriesNotYetBuilt(t *testing.T) {
	// 10 m for 9 t, 10 m for 2 t, 10 m for 3 t; 4 t pay for the second, then the third, never the first.
	draw := func() *Plan {
		return drawnPlan([]float64{80}, []drawn{{0, []float64{9}}, {50, []float64{3}}, {100, []float64{2}}})
	}
	p := draw()
	list, _ := p.applyBudget(Budget{4, BudgetRock, 2})
	got := fmt.Sprint(phases(list), list[0].Before, list[1].Before, list[2].Before)
	want := "D01-S1 out, D01-S2 2.2, D01-S3 1.1[] " +
		"[D01-S1, next below, is left out: see that the bed at the foot of this series holds, or give its lowest dam a footer.] " +
		"[D01-S2, next below, is built later, in year 2: see that the bed at the foot of this series holds until then.]"
	if got != want {
		t.Errorf("got\n%s\nwant\n%s", got, want)
	}
	p = draw()
	if list, _ = p.applyBudget(Budget{}); len(list[1].Before)+len(list[2].Before) > 0 {
		t.Errorf("without a budget: %q, %q", list[1].Before, list[2].Before)
	}
}

// Without a budget drainages go by gain for money where that is known of all, else for rock.
func TestBuildOrderCountsMoneyWhereKnown(t *testing.T) {
	p := drawnPlan([]float64{50, 50}, []drawn{{0, []float64{4}}}, []drawn{{0, []float64{5}}})
	p.Designs[0][0].Cost = 90 // dearer than the 50 of the other, though less rock
	list, _ := p.applyBudget(Budget{})
	if got := phases(list); got != "D01-S1 0.2, D02-S1 0.1" {
		t.Errorf("by money: %s", got)
	}
	p.Designs[1][0].Cost = math.NaN()
	list, _ = p.applyBudget(Budget{})
	if got := phases(list); got != "D01-S1 0.1, D02-S1 0.2" {
		t.Errorf("by rock: %s", got)
	}
}
