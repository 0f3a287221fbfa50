package chart

import (
	"siltstep/hydro/channel"
	"siltstep/hydro/siting"
)

// wedgePoint is a place along a sediment wedge, m.
type wedgePoint struct{ stationM, bedM, depositM float64 }

// wedge returns the wedge behind dam i from its axis upstream: at the axis, at each station
// in between and at its upper end. Where the bed stands above the deposit the wedge is empty.
func (p Profile) wedge(i int) []wedgePoint {
	s := p.Sites[i]
	own := p.Sites[i : i+1]
	out := []wedgePoint{{s.StationM, s.BedM, s.SillM}}
	add := func(stationM, bedM float64) {
		out = append(out, wedgePoint{stationM, bedM, max(bedM, siting.DepositM(own, p.DepositRatio, stationM, bedM))})
	}
	for _, st := range p.Stations {
		if st.StationM > s.StationM && st.StationM < s.WedgeEndM {
			add(st.StationM, st.BedM)
		}
	}
	add(s.WedgeEndM, bedAt(p.Stations, s.WedgeEndM))
	return out
}

// bedAt returns the bed straight between stations, m; beyond an end, that of the end.
func bedAt(stations []channel.Station, stationM float64) float64 {
	for i := 1; i < len(stations); i++ {
		if a, b := stations[i-1], stations[i]; stationM <= b.StationM && b.StationM > a.StationM {
			return a.BedM + (b.BedM-a.BedM)*max(stationM-a.StationM, 0)/(b.StationM-a.StationM)
		}
	}
	return stations[len(stations)-1].BedM
}
