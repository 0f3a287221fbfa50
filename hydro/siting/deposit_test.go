package siting

import (
	"math"
	"testing"
)

// Level deposit, then half the bed slope: over a bed that rises by 0.4 m the surface rises
// by 0.2 m.
func TestDepositM(t *testing.T) {
	sites := []Site{
		{StationM: 10, BedM: 1, SillM: 1.6, WedgeEndM: 30},
		{StationM: 25, BedM: 1.5, SillM: 2.1, WedgeEndM: 40},
	}
	for _, tt := range []struct {
		name                        string
		ratio, stationM, bedM, want float64
	}{
		{"below all", 0, 9.9, 1, math.NaN()},
		{"at the axis", 0, 10, 1, 1.6},
		{"level", 0, 20, 1.4, 1.6},
		{"half the bed slope", 0.5, 20, 1.4, 1.8},
		{"two wedges: the nearest dam below", 0, 26, 1.5, 2.1},
		{"above all", 0, 40.1, 2, math.NaN()},
	} {
		got := DepositM(sites, tt.ratio, tt.stationM, tt.bedM)
		if math.Abs(got-tt.want) > 1e-12 || math.IsNaN(got) != math.IsNaN(tt.want) {
			t.Errorf("%s: %v, want %v", tt.name, got, tt.want)
		}
	}
}
