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

func TestBodiesAreKeptApartBySiting(t *testing.T) {
	// On 20 % dams of 0.6 m on an even bed would stand 3 m apart, with bodies of 0.5 + 4.5·0.6 = 3.2 m: sized alone such a dam fails.
	section, err := checkdam.TrapezoidSection(2, 1, 2)
	if err != nil {
		t.Fatal(err)
	}
	r := Defaults().Works.request(checkdam.LooseRock)
	r.HeightM, r.Slope, r.Section, r.PeakM3s = 0.6, 0.2, section, math.NaN()
	if d, err := checkdam.Size(r); err != nil || d.Buildable {
		t.Errorf("alone: buildable %v, %v; want a dam that touches the next", d.Buildable, err)
	}
	for name, size := range map[string]func(checkdam.Request) (checkdam.Design, error){"sized": checkdam.Size, "appraised": checkdam.Appraise} {
		if d, err := sizeAt(r, size); err != nil || !d.Buildable {
			t.Errorf("%s: buildable %v, %v; %+v", name, d.Buildable, err, d.Notes)
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
