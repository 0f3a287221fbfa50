package geojson

import (
	"math"
	"sort"

	"siltstep/hydro/channel"
)

// AtStation returns a value at a station of a profile, straight between the stations around
// it; values holds one for each station. NaN beyond the ends, where either neighbour is NaN,
// and where values does not hold one for each station, as where nothing was measured.
func AtStation(p channel.Profile, values []float64, stationM float64) float64 {
	n := len(p.Stations)
	if len(values) != n || n == 0 || !(stationM >= p.Stations[0].StationM && stationM <= p.Stations[n-1].StationM) {
		return math.NaN()
	}
	above := sort.Search(n, func(i int) bool { return p.Stations[i].StationM >= stationM })
	b := p.Stations[above]
	if b.StationM == stationM {
		return values[above]
	}
	a := p.Stations[above-1]
	w := (stationM - a.StationM) / (b.StationM - a.StationM)
	return values[above-1] + w*(values[above]-values[above-1])
}
