package hydro

import (
	"math"
	"sort"

	"siltstep/hydro/channel"
	"siltstep/hydro/siting"
)

// Gradient is the fall of a treated channel before dams stand in it and once their silt has filled up.
type Gradient struct {
	Series        int     // number of the series within its drainage; 0 for all of the drainage
	LengthM       float64 // treated length: of each dam from its axis to the end of its wedge or the axis of the next dam, gaps left out, m
	DropM         float64 // fall of the bed over that length, m
	KeptM         float64 // of it, what is left as falls at the dams, m
	Before, After float64 // mean slope of the bed, and of the full deposits, rise over run; NaN without a length
}

// GradientsOf returns the effective gradient of each series of a drainage, then that of all of them; nil where no dam stands.
//
// Before is the fall of the bed over the treated length, divided by it. After is what of that fall is left to the surfaces of the
// deposits, divided by the same length: the rest goes down at the dams, over rock. Deposits are taken as siting lays them: from the sill
// up at siting.Config.DepositRatio times the slope of the bed. At a ratio of 0 they are level and After is 0, which is what dams hold for sure.
// Measured slopes of deposits are 0.5 to 0.66 of the bed (Leopold1992, Nichols2016).
func (p *Plan) GradientsOf(drainage int) []Gradient {
	if p.Layouts == nil || len(p.Layouts[drainage].Sites) == 0 {
		return nil
	}
	return gradients(p.Network.Drainages[drainage].Profile.Stations, p.Layouts[drainage].Sites, p.Config.Siting.DepositRatio)
}

// gradients returns those of sites that rise upstream.
func gradients(stations []channel.Station, sites []siting.Site, ratio float64) []Gradient {
	sums := make([]Gradient, sites[len(sites)-1].Series+1)
	for k, s := range treated(sites) {
		dropM := bedAtM(stations, s.toM) - sites[k].BedM
		for _, n := range []int{0, sites[k].Series} {
			sums[n].LengthM += s.toM - s.fromM
			sums[n].DropM += dropM
			sums[n].KeptM += (1 - ratio) * dropM
		}
	}
	for n := range sums {
		g := &sums[n]
		g.Series, g.Before, g.After = n, g.DropM/g.LengthM, (g.DropM-g.KeptM)/g.LengthM
		if !(g.LengthM > 0) {
			g.Before, g.After = math.NaN(), math.NaN()
		}
	}
	return append(sums[1:], sums[0])
}

// stretch is a piece of a drainage between two stations, m.
type stretch struct{ fromM, toM float64 }

// treated returns the stretch that each dam treats, from its axis to the end of its wedge or the next axis. They rise and do not overlap.
func treated(sites []siting.Site) []stretch {
	out := make([]stretch, len(sites))
	for k, s := range sites {
		out[k] = stretch{s.StationM, max(s.StationM, s.WedgeEndM)}
		if k+1 < len(sites) {
			out[k].toM = min(out[k].toM, sites[k+1].StationM)
		}
	}
	return out
}

// bedAtM returns the level of the bed at a place, straight between stations, m; beyond an end that of the end.
func bedAtM(stations []channel.Station, stationM float64) float64 {
	i := sort.Search(len(stations), func(i int) bool { return stations[i].StationM >= stationM })
	switch {
	case i == len(stations):
		return stations[i-1].BedM
	case i == 0 || stations[i].StationM == stationM:
		return stations[i].BedM
	}
	a, b := stations[i-1], stations[i]
	return a.BedM + (b.BedM-a.BedM)*(stationM-a.StationM)/(b.StationM-a.StationM)
}
