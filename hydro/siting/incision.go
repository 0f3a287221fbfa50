package siting

import (
	"math"

	"siltstep/hydro/channel"
)

// windowed is the incision at each station as a mean over minReachM, in metres, so that one odd
// section does not break a reach in two. NaN where it cannot be told; nil where it was not judged.
type windowed []float64

// incisionOf evens out the incision of a drainage, each run of stations with a bed on its own.
func incisionOf(p channel.Profile, ground Ground, cellM float64) windowed {
	st := p.Stations
	if ground.IncisionM == nil {
		return nil
	}
	if len(ground.IncisionM) != len(st) {
		panic("siting: incision is needed for each station")
	}
	out := make(windowed, len(st))
	for from := 0; from < len(st); {
		if st[from].NoBed {
			out[from] = math.NaN()
			from++
			continue
		}
		to := from + 1
		for to < len(st) && !st[to].NoBed {
			to++
		}
		out.even(st[from:to], ground.IncisionM[from:to], from, minReachM(cellM))
		from = to
	}
	return out
}

// even sets the means of one run of stations, the first of which is station at. As with the bed slope the
// window is centred, and near an end of the run it keeps its length and lies to one side.
func (w windowed) even(st []channel.Station, incisionM []float64, at int, windowM float64) {
	const slackM = 1e-9 // a station on the edge of the window is inside whatever the rounding
	startM, endM := st[0].StationM, st[len(st)-1].StationM
	from, to := 0, 0
	for k, s := range st {
		lowM := max(startM, min(s.StationM-windowM/2, endM-windowM))
		for st[from].StationM < lowM-slackM {
			from++
		}
		for to < len(st) && st[to].StationM <= lowM+windowM+slackM {
			to++
		}
		w[at+k] = meanKnown(incisionM[from:to])
	}
}

// meanKnown returns the mean of the values that are not NaN; NaN where there is none.
func meanKnown(values []float64) float64 {
	sum, n := 0.0, 0.0
	for _, v := range values {
		if !math.IsNaN(v) {
			sum += v
			n++
		}
	}
	return sum / n
}

// levelM is what rounding may take from the mean of equal depths, m.
const levelM = 1e-9

// judge returns what the incision at station i is short of.
func (w windowed) judge(i int, cfg Config) faults {
	switch {
	case w == nil || cfg.MinIncisionM == 0 || w[i] >= cfg.MinIncisionM-levelM:
		return 0
	case math.IsNaN(w[i]):
		return incisionUnknown
	}
	return tooShallow
}

// least returns the least known incision of stations first to last, m.
func (w windowed) least(first, last int) float64 {
	least := math.Inf(1)
	for _, v := range w[first : last+1] {
		if v < least {
			least = v
		}
	}
	return least
}
