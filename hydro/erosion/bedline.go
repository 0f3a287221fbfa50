package erosion

import (
	"slices"

	"siltstep/hydro/channel"
)

// bedLine is a straight bed.
type bedLine struct {
	fromM, levelM float64 // a place of it: station and level, m
	slope         float64 // rise over run, upstream positive

	n, meanM, xxM2 float64 // stations it was laid through: how many, their mean, and the sum of squares about it
}

// variance returns the variance of the level at a station for stations of variance one, as if by least squares.
func (l bedLine) variance(stationM float64) float64 {
	v := 1 / l.n
	if l.xxM2 > 0 {
		v += (stationM - l.meanM) * (stationM - l.meanM) / l.xxM2
	}
	return v
}

// at returns the level of a line at a station, in metres.
func (l bedLine) at(stationM float64) float64 { return l.levelM + l.slope*(stationM-l.fromM) }

// through returns a level line at level 0 that knows the stations it is laid through.
func through(st []channel.Station) bedLine {
	l := bedLine{n: float64(len(st))}
	for i := range st {
		l.meanM += st[i].StationM / l.n
	}
	for i := range st {
		l.xxM2 += (st[i].StationM - l.meanM) * (st[i].StationM - l.meanM)
	}
	l.fromM = l.meanM
	return l
}

// nearestLine returns the line nearest to the raw bed of stations by least squares; level where all are one place.
func nearestLine(st []channel.Station) bedLine {
	l := through(st)
	for i := range st {
		l.levelM += st[i].GroundM / l.n
	}
	for i := range st {
		if l.xxM2 > 0 {
			l.slope += (st[i].StationM - l.meanM) * (st[i].GroundM - l.levelM) / l.xxM2
		}
	}
	return l
}

// medianLine returns the line through the raw bed of stations by medians: of the slopes between any two of them, then of
// what is left. A few stations far off, a boulder or a hole, do not move it. Method: Theil1950, Sen1968.
func medianLine(st []channel.Station) bedLine {
	l := through(st)
	var slopes, left []float64
	for i := range st {
		for k := range i {
			if run := st[i].StationM - st[k].StationM; run > 0 {
				slopes = append(slopes, (st[i].GroundM-st[k].GroundM)/run)
			}
		}
	}
	l.slope = medianOf(slopes)
	for _, s := range st {
		left = append(left, s.GroundM-l.slope*(s.StationM-l.fromM))
	}
	l.levelM = medianOf(left)
	return l
}

// medianOf returns the median of numbers, which it sorts; 0 where there are none.
func medianOf(v []float64) float64 {
	if len(v) == 0 {
		return 0
	}
	slices.Sort(v)
	return (v[(len(v)-1)/2] + v[len(v)/2]) / 2
}
