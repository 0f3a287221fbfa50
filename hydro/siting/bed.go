package siting

import (
	"sort"

	"siltstep/hydro/channel"
)

// bed is the bed of a drainage as a broken line through its stations, which must not descend.
// Methods other than lengthM need at least one station.
type bed struct {
	stations []channel.Station
}

func (b bed) lengthM() float64 {
	if len(b.stations) == 0 {
		return 0
	}
	return b.stations[len(b.stations)-1].StationM
}

// below returns the index of the highest station at or below s; 0 where there is none.
func (b bed) below(s float64) int {
	return max(0, sort.Search(len(b.stations), func(i int) bool { return b.stations[i].StationM > s })-1)
}

// nearest returns the index of the station nearest to s; of two equally near, the lower.
func (b bed) nearest(s float64) int {
	i := b.below(s)
	if i+1 < len(b.stations) && b.stations[i+1].StationM-s < s-b.stations[i].StationM {
		return i + 1
	}
	return i
}

// segment returns the station at the lower end of the segment that holds s, and how far
// along it s lies: 0 to 1 inside, less or more beyond the ends of the drainage.
func (b bed) segment(s float64) (i int, t float64) {
	i = min(b.below(s), len(b.stations)-2)
	if i < 0 {
		return 0, 0
	}
	lo, hi := b.stations[i].StationM, b.stations[i+1].StationM
	if hi == lo {
		return i, 0
	}
	return i, (s - lo) / (hi - lo)
}

// elevationM returns the bed at s in metres; beyond an end, the bed of that end.
func (b bed) elevationM(s float64) float64 {
	if len(b.stations) == 1 {
		return b.stations[0].BedM
	}
	i, t := b.segment(s)
	t = min(max(t, 0), 1)
	lo, hi := b.stations[i].BedM, b.stations[i+1].BedM
	return lo + t*(hi-lo)
}

// xy returns the map position of s; beyond an end the line runs on straight.
func (b bed) xy(s float64) (x, y float64) {
	if len(b.stations) == 1 {
		return b.stations[0].X, b.stations[0].Y
	}
	i, t := b.segment(s)
	p, q := b.stations[i], b.stations[i+1]
	return p.X + t*(q.X-p.X), p.Y + t*(q.Y-p.Y)
}

// climb returns the lowest place above from at which the bed stands riseM above the bed at
// from; ok is false, and the place the upper end of the drainage, where it never does.
func (b bed) climb(from, riseM float64) (s float64, ok bool) {
	target := b.elevationM(from) + riseM
	lowS, low := from, b.elevationM(from)
	for _, hi := range b.stations[min(b.below(from)+1, len(b.stations)):] {
		if hi.BedM >= target {
			return lowS + (target-low)/(hi.BedM-low)*(hi.StationM-lowS), true
		}
		lowS, low = hi.StationM, hi.BedM
	}
	return b.lengthM(), false
}

// grade returns the mean slope of the bed over a dam body of bodyM at s, rise over run; the body
// is cut off at the ends of the drainage, and a drainage of one station has grade 0.
func (b bed) grade(s, bodyM float64) float64 {
	lo, hi := max(s-bodyM/2, 0), min(s+bodyM/2, b.lengthM())
	if hi <= lo {
		return 0
	}
	return (b.elevationM(hi) - b.elevationM(lo)) / (hi - lo)
}
