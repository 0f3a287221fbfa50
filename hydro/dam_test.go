package hydro

import (
	"math"
	"testing"

	"siltstep/hydro/checkdam"
	"siltstep/hydro/siting"
)

func TestSlopeAtADam(t *testing.T) {
	// Where no slope is told: 0.6 m in 12 m of wedge is 0.05; with a deposit at half of the bed slope the bed climbs twice that.
	site := siting.Site{StationM: 100, WedgeEndM: 112, EffectiveHeightM: 0.6}
	tests := []struct {
		name               string
		slope, ratio, want float64
	}{
		{"told", 0.08, 0, 0.08},
		{"not told", math.NaN(), 0, 0.05},
		{"level", 0, 0, 0.05},
		{"deposit", math.NaN(), 0.5, 0.1},
	}
	for _, tt := range tests {
		site.Slope = tt.slope
		if got := slopeAt(&site, tt.ratio); math.Abs(got-tt.want) > 1e-12 {
			t.Errorf("%s: %g, want %g", tt.name, got, tt.want)
		}
	}
}

func TestSpacingOfTheSiteGoesBeforeThatOfAnEvenBed(t *testing.T) {
	// On 18 % dams of 0.6 m would stand 3.33 m apart, with bodies of 0.5 + 4.5·0.6 = 3.2 m; on 20 % 3 m.
	section, err := checkdam.TrapezoidSection(2, 1, 2)
	if err != nil {
		t.Fatal(err)
	}
	r := Defaults().Works.request(checkdam.LooseRock)
	r.HeightM, r.Slope, r.Section, r.PeakM3s = 0.6, 0.2, section, math.NaN()
	nan := math.NaN()
	for name, tt := range map[string]struct {
		down, up float64
		want     bool
	}{"alone": {nan, nan, true}, "one near below": {3, nan, false}, "one near above": {8, 3, false}, "both far": {4, 4, true}} {
		d, err := sizeAt(r, &siting.Site{SpacingDownM: tt.down, SpacingUpM: tt.up})
		if err != nil || d.Buildable != tt.want {
			t.Errorf("%s: buildable %v, want %v; %+v, %v", name, d.Buildable, tt.want, d.Notes, err)
		}
	}
}

func TestPricesOfRock(t *testing.T) {
	rock := checkdam.Rock{TotalM3: 10, OrderTonnes: 20}
	nan := math.NaN()
	for _, tt := range []struct {
		prices     Prices
		days, cost float64
	}{
		{Prices{}, nan, nan},
		{Prices{DaysPerM3: 0.5}, 5, nan},
		{Prices{RockPerTonne: 40, PerDay: 150}, nan, nan},
		{Prices{RockPerTonne: 40, DaysPerM3: 0.5}, 5, nan},
		{Prices{RockPerTonne: 40, PerDay: 150, DaysPerM3: 0.5}, 5, 1550}, // 20·40 + 5·150
	} {
		days, cost := tt.prices.of(rock)
		same := func(a, b float64) bool { return a == b || math.IsNaN(a) && math.IsNaN(b) }
		if !same(days, tt.days) || !same(cost, tt.cost) {
			t.Errorf("%+v: %g days and %g, want %g and %g", tt.prices, days, cost, tt.days, tt.cost)
		}
	}
}
