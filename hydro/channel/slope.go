package channel

import "math"

// The window of the bed slope is the longer of the two. Source: our own choice; over 10 m
// at 1 m cells an error of 0.1 m in each elevation leaves 0.0095 in the slope.
const (
	slopeWindowM     = 10.0 // m
	slopeWindowCells = 5.0  // cell sides
)

// slopeWindow returns the total length over which bed slope is told, in metres.
func slopeWindow(cellM float64) float64 { return max(slopeWindowM, slopeWindowCells*cellM) }

// slopes returns the bed slope at each station, rise over run: least squares of bed on
// station over a window of windowM in total, centred on the station. Near an end the window
// keeps its length and lies to one side; a shorter drainage is taken whole. NaN where the
// window holds fewer than two different stations. Stations rise.
func slopes(stationM, bedM []float64, windowM float64) []float64 {
	out := make([]float64, len(stationM))
	if len(out) == 0 {
		return out
	}
	const slackM = 1e-9 // a station on the edge of the window is inside whatever the rounding
	startM, endM := stationM[0], stationM[len(stationM)-1]
	from, to := 0, 0
	for k, s := range stationM {
		lowM := max(startM, min(s-windowM/2, endM-windowM))
		for stationM[from] < lowM-slackM {
			from++
		}
		for to < len(stationM) && stationM[to] <= lowM+windowM+slackM {
			to++
		}
		out[k] = leastSquares(stationM[from:to], bedM[from:to])
	}
	return out
}

// setSlopes sets the bed slope at the stations of a profile, each run of stations with a bed on
// its own: no slope is read across a cut or standing water.
func setSlopes(p Profile, windowM float64) {
	st := p.Stations
	stationM, bedM := make([]float64, len(st)), make([]float64, len(st))
	for i, s := range st {
		stationM[i], bedM[i] = s.StationM, s.BedM
	}
	for from := 0; from < len(st); {
		if st[from].NoBed {
			st[from].Slope = math.NaN()
			from++
			continue
		}
		to := from + 1
		for to < len(st) && !st[to].NoBed {
			to++
		}
		for k, slope := range slopes(stationM[from:to], bedM[from:to], windowM) {
			st[from+k].Slope = slope
		}
		from = to
	}
}

// leastSquares returns the slope of y on x, NaN where fewer than two x differ. A bed that
// never falls with the station has a slope of zero or more.
func leastSquares(x, y []float64) float64 {
	var meanX, meanY float64
	for i := range x {
		meanX += x[i]
		meanY += y[i]
	}
	meanX /= float64(len(x))
	meanY /= float64(len(x))
	var xx, xy float64
	for i := range x {
		xx += (x[i] - meanX) * (x[i] - meanX)
		xy += (x[i] - meanX) * (y[i] - meanY)
	}
	if xx == 0 {
		return math.NaN()
	}
	return max(0, xy/xx)
}
