package siting

import "math"

// DepositM returns the elevation in metres of the surface of the full sediment wedge at a
// station whose bed lies at bedM: level with the sill and, over a rising bed, ratio times
// that rise above it. Of several wedges that of the nearest dam below counts. NaN where no
// wedge reaches. sites rise upstream.
func DepositM(sites []Site, ratio, stationM, bedM float64) float64 {
	for i := len(sites) - 1; i >= 0; i-- {
		s := sites[i]
		if s.StationM <= stationM && stationM <= s.WedgeEndM {
			return s.SillM + ratio*(bedM-s.BedM)
		}
	}
	return math.NaN()
}
