package hydro

import (
	"math"
	"testing"

	"pgregory.net/rapid"
)

func TestSiltIsPassedDownASeries(t *testing.T) {
	inf := math.Inf(1)
	tests := []struct {
		name string
		dams []siltTrap // from the lowest upstream
		want []float64  // years
	}{
		// 30 m³ over 5 m³/ha of 2 ha, half of it kept.
		{"a dam alone", []siltTrap{{30, 2}}, []float64{6}},
		// The upper dam is given 5 m³ a year and keeps 2.5; the lower one 2.5 and 5 of its own, and keeps 3.75: full after 10/3.75 years.
		{"both keep", []siltTrap{{10, 1}, {10, 1}}, []float64{10 / 3.75, 4}},
		// After 4 years the upper one is full and the lower one holds 15; then it keeps 5 a year.
		{"the upper one is full first", []siltTrap{{20, 1}, {10, 1}}, []float64{5, 4}},
		{"a dam without a design lets all by", []siltTrap{{30, 1}, {0, 1}}, []float64{6, 0}},
		{"no land", []siltTrap{{30, 0}}, []float64{inf}},
	}
	for _, tt := range tests {
		for k, got := range yearsToFill(tt.dams, 5, 0.5) {
			if got != tt.want[k] && !(math.Abs(got-tt.want[k]) < 1e-9) {
				t.Errorf("%s: dam %d full after %g years, want %g", tt.name, k+1, got, tt.want[k])
			}
		}
	}
}

// Whatever the dams, when the last is full they hold no more than the land has yielded, and none is full sooner than alone with all the silt.
func TestSiltKeptIsNoMoreThanTheYield(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n, share := rapid.IntRange(1, 30).Draw(t, "dams"), rapid.Float64Range(0.1, 0.9).Draw(t, "share")
		const yield = 2.0 // m³/ha
		dams, held, land, last := make([]siltTrap, n), 0.0, 0.0, 0.0
		for k := range dams {
			dams[k] = siltTrap{rapid.Float64Range(0.1, 50).Draw(t, "holds"), rapid.Float64Range(0.01, 2).Draw(t, "land")}
			held, land = held+dams[k].holdsM3, land+dams[k].landHa
		}
		above := land
		for k, years := range yearsToFill(dams, yield, share) {
			if alone := dams[k].holdsM3 / (above * yield * share); years < alone*(1-1e-9) {
				t.Fatalf("dam %d full after %g years, alone after %g", k+1, years, alone)
			}
			above -= dams[k].landHa
			last = max(last, years)
		}
		if held > land*yield*last*(1+1e-9) {
			t.Fatalf("%g m³ held of %g", held, land*yield*last)
		}
	})
}
