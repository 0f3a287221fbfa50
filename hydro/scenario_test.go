package hydro

import (
	"fmt"
	"math"
	"slices"
	"testing"

	"siltstep/hydro/siting"
)

func TestScenarios(t *testing.T) {
	nan := math.NaN()
	p := drawnPlan([]float64{50, 50, 50}, []drawn{{0, []float64{1, 2}}, {50, []float64{3}}}, nil, []drawn{{0, []float64{4}}})
	way := func(name string, dams int, rockT, bareM, silt float64) siting.Alternative {
		return siting.Alternative{Name: name, Dams: dams, RockT: rockT, OpenM: bareM, SiltM3: silt}
	}
	least, few := string(siting.LeastRock), string(siting.FewestDams)
	for i, l := range []siting.Layout{
		{EligibleM: 70, Chosen: way(least, 3, 6.001, 1, nan), March: way(siting.MarchName, 4, 9, 2, nan), Others: []siting.Alternative{way(least, 3, 6.001, 1, nan), way(few, 2, 8, 1.5, nan)}},
		{EligibleM: 5},
		{EligibleM: 20, Chosen: way(least, 1, 4, 0, 7), March: way(siting.MarchName, 2, 5, 3, 7), Others: []siting.Alternative{way(least, 1, 4, 0, 7), way(few, 1, 4, 0, 7)}},
	} {
		l.Sites = p.Layouts[i].Sites
		p.Layouts[i] = l
	}
	lines := func() (out []string) {
		for _, s := range p.scenarios() {
			out = append(out, fmt.Sprintf("%s: %d dams, %d series, %g of %g m treated, %g bare, %g t, %g m³ silt", s.Name, s.Dams, s.Series, s.TreatedM, s.EligibleM, s.UncoveredM, s.RockT, s.SedimentM3))
		}
		return out
	}
	want := []string{
		"none: 0 dams, 0 series, 0 of 95 m treated, 95 bare, 0 t, 0 m³ silt",
		"least-rock: 4 dams, 3 series, 40 of 95 m treated, 6 bare, 10 t, NaN m³ silt",
		"fewest-dams: 3 dams, 0 series, NaN of 95 m treated, 6.5 bare, 12 t, NaN m³ silt",
		"plain-march: 6 dams, 0 series, NaN of 95 m treated, 10 bare, 14 t, NaN m³ silt",
	}
	if got := lines(); !slices.Equal(got, want) {
		t.Errorf("got\n%q\nwant\n%q", got, want)
	}
	// With places of dams given by the field a march is not looked for; without a comparison only what was chosen is known.
	p.Layouts[0].March, p.Layouts[0].Others = siting.Alternative{}, nil
	if got := lines(); !slices.Equal(got, want[:2]) {
		t.Errorf("got\n%q\nwant\n%q", got, want[:2])
	}
}
