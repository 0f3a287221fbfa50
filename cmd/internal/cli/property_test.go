package cli

import (
	"math"
	"testing"

	"github.com/paulmach/orb"

	"siltstep/hydro/channel"
)

// A drainage runs 100 m east along y = 5, with a station every 10 m; a second has a single station.
func TestPropertyShares(t *testing.T) {
	var long channel.Profile
	for x := 0.0; x <= 100; x += 10 {
		long.Stations = append(long.Stations, channel.Station{StationM: x, X: x, Y: 5})
	}
	n := &channel.Network{Drainages: []channel.Drainage{{Profile: long}, {Profile: channel.Profile{Stations: long.Stations[:1]}}}}
	box := func(west, east float64) orb.Polygon {
		return orb.Polygon{{{west, 0}, {east, 0}, {east, 10}, {west, 10}, {west, 0}}}
	}
	for _, tt := range []struct {
		name string
		land property
		want float64
	}{
		{"all inside", property{box(-1, 101)}, 1},
		{"none", property{box(200, 300)}, 0},
		// Stations 0 to 40 inside: 40 m, and half of the step to 50.
		{"the line between two stations", property{box(-1, 44)}, 0.45},
		// And 80 to 100: 20 m and half of the step from 70.
		{"two pieces of land", property{box(-1, 44), box(76, 101)}, 0.7},
		{"the line on a station counts as inside", property{box(-1, 50)}, 0.55},
	} {
		got := tt.land.shares(n)
		if len(got) != 2 || math.Abs(got[0]-tt.want) > 1e-9 || got[1] != 0 {
			t.Errorf("%s: %v, want %g and 0", tt.name, got, tt.want)
		}
	}
	if got := property(nil).shares(n); got != nil {
		t.Errorf("without a property: %v, want nil", got)
	}
	if property(nil).area() != nil {
		t.Error("without a property structures are limited")
	}
}
