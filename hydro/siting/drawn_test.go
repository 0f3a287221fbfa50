package siting

import (
	"math"

	"siltstep/hydro/channel"
)

// drawn returns a drainage by name D07 that runs due east, upstream, along y = 0 from x = 0,
// with a station every stepM metres and the bed of the function; its catchment is 1 ha all along.
// Slopes are central differences over two steps, one-sided at the ends.
func drawn(lengthM, stepM float64, bedM func(s float64) float64) *channel.Drainage {
	n := int(math.Round(lengthM/stepM)) + 1
	d := &channel.Drainage{ID: "D07", Into: -1, IntoCell: -1, CatchmentM2: 10_000}
	for i := range n {
		s := float64(i) * stepM
		lo, hi := max(s-stepM, 0), min(s+stepM, float64(n-1)*stepM)
		d.Profile.Stations = append(d.Profile.Stations, channel.Station{
			StationM: s, X: s, Cell: i,
			GroundM: bedM(s), BedM: bedM(s), Slope: (bedM(hi) - bedM(lo)) / (hi - lo),
			CatchmentM2: 10_000,
		})
	}
	return d
}

// ramp is a bed of one slope.
func ramp(slope float64) func(float64) float64 {
	return func(s float64) float64 { return 100 + slope*s }
}

// at sets the stations from fromM to toM.
func at(d *channel.Drainage, fromM, toM float64, set func(*channel.Station)) {
	for i := range d.Profile.Stations {
		if s := &d.Profile.Stations[i]; s.StationM >= fromM && s.StationM <= toM {
			set(s)
		}
	}
}

// evenSlope sets the slope of every station: that of a least-squares fit long enough to hide a step.
func evenSlope(d *channel.Drainage, slope float64) {
	at(d, 0, math.Inf(1), func(s *channel.Station) { s.Slope = slope })
}

// westOf is a property that ends at x.
func westOf(x float64) Area { return func(px, _ float64) bool { return px <= x } }

// rulesOf lists the rules of some reasons.
func rulesOf(reasons []Reason) []Rule {
	var out []Rule
	for _, r := range reasons {
		out = append(out, r.Rule)
	}
	return out
}
