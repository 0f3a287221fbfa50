package hydro_test

import (
	"math"
	"testing"

	"siltstep/hydro"
	"siltstep/hydro/checkdam"
)

func TestYearsToFillCountTheSiltOnce(t *testing.T) {
	yield := checkdam.Yield{LowM3PerHa: 0.5, HighM3PerHa: 3}
	p := analyze(t, ditch(1), func(c *hydro.Config) { rainy(c); c.Works.Yield = yield }, nil)
	sites, designs := p.Layouts[0].Sites, p.Designs[0]
	if len(sites) < 5 {
		t.Fatalf("%d dams", len(sites))
	}
	heldM3 := 0.0
	for k, d := range designs {
		s, ha := d.Dam.Storage, sites[k].CatchmentM2/10_000
		heldM3 += s.SedimentM3
		// With all the silt of its catchment, 80 % of 3 m³/ha or 20 % of 0.5 m³/ha is kept.
		soonest, latest := s.SedimentM3/(ha*3*0.8), s.SedimentM3/(ha*0.5*0.2)
		if top := k == len(sites)-1; top && (math.Abs(s.FillYearsLow/soonest-1) > 1e-9 || math.Abs(s.FillYearsHigh/latest-1) > 1e-9) {
			t.Errorf("the highest dam: %g to %g years, want %g to %g", s.FillYearsLow, s.FillYearsHigh, soonest, latest)
		} else if !top && !(s.FillYearsLow > soonest && s.FillYearsHigh >= latest) {
			t.Errorf("%s below others: %g to %g years, alone %g to %g", sites[k].ID, s.FillYearsLow, s.FillYearsHigh, soonest, latest)
		}
	}
	// All are full only after the land has yielded what they hold.
	if last, ha := designs[0].Dam.Storage.FillYearsHigh, sites[0].CatchmentM2/10_000; heldM3 > last*0.5*ha {
		t.Errorf("%g m³ held after %g years of 0.5 m³/ha from %g ha", heldM3, last, ha)
	}
}
