package erosion

import (
	"math"

	"siltstep/hydro/channel"
)

// summarise fills in what is told of a drainage as a whole from IncisionM.
func (d *Depths) summarise(stations []channel.Station, incisedM float64) {
	lengths := lengthsM(stations)
	var all, known, incised, sum float64
	for i, lengthM := range lengths {
		all += lengthM
		depthM := d.IncisionM[i]
		if math.IsNaN(depthM) {
			continue
		}
		known += lengthM
		sum += lengthM * depthM
		if depthM >= incisedM {
			incised += lengthM
		}
	}
	d.MeanM, d.IncisedShare, d.KnownShare = sum/known, incised/known, known/all // NaN for 0/0
	if len(stations) == 0 {
		d.KnownShare = 0
	}
	d.MaxM = greatestMean(stations, lengths, d.IncisionM)
}

// lengthsM returns the length of channel that each station stands for: half way to both neighbours. A single station
// counts as one metre.
func lengthsM(stations []channel.Station) []float64 {
	out := make([]float64, len(stations))
	for i := 1; i < len(stations); i++ {
		half := (stations[i].StationM - stations[i-1].StationM) / 2
		out[i-1] += half
		out[i] += half
	}
	if len(out) == 1 {
		out[0] = 1
	}
	return out
}

// greatestMean returns the greatest of the means, by length, of the known depths within averagedM around each known station;
// NaN where none is known.
func greatestMean(stations []channel.Station, lengths, depthM []float64) float64 {
	const slackM = 1e-9
	most := math.NaN()
	from := 0
	for i, s := range stations {
		if math.IsNaN(depthM[i]) {
			continue
		}
		for stations[from].StationM < s.StationM-averagedM/2-slackM {
			from++
		}
		var sum, lengthM float64
		for k := from; k < len(stations) && stations[k].StationM <= s.StationM+averagedM/2+slackM; k++ {
			if !math.IsNaN(depthM[k]) {
				sum += lengths[k] * depthM[k]
				lengthM += lengths[k]
			}
		}
		if mean := sum / lengthM; mean > most || math.IsNaN(most) {
			most = mean
		}
	}
	return most
}
