package siting

import "siltstep/hydro/channel"

// When the filled surface above the ground counts as standing water. The noise of a survey makes
// many small pits: on a bed of 3 % with an error of 0.1 m in each cell of 1 m, half of all cells
// lie in one more than MaxFillM deep, few in one of 0.3 m and hardly any in one of that depth and
// a body long. Source: our own choice, tried on such beds.
const (
	MaxFillM      = 0.05 // m; a stretch of water is the stations deeper than this
	StandingM     = 0.3  // m; a stretch this deep somewhere, and BodyM long, is standing water
	BodyM         = 3.0  // m; about the length of a dam body at the height of the defaults
	StandingHoleM = 1.0  // m; a stretch this deep is, however short
)

// Stretch is a run of stations over which the filled surface stands more than MaxFillM above the
// ground.
type Stretch struct {
	FromM, ToM float64 // stations, midway to the dry ones beyond, or the ends of the drainage
	DeepestM   float64 // station of the deepest place, the lowest of equals
	DepthM     float64 // depth there, m
	Standing   bool    // too deep for noise: a stock pond, a pit, or the pool behind a road fill

	first, last int // stations
}

// Stretches lists the water along a profile from the lower end upstream; empty where there is none.
func Stretches(p channel.Profile) []Stretch {
	var out []Stretch
	for i, s := range p.Stations {
		if !(s.FillM > MaxFillM) {
			continue
		}
		if n := len(out); n == 0 || out[n-1].last != i-1 {
			out = append(out, Stretch{FromM: midway(p.Stations, i-1), first: i})
		}
		w := &out[len(out)-1]
		w.last, w.ToM = i, midway(p.Stations, i)
		if s.FillM > w.DepthM {
			w.DeepestM, w.DepthM = s.StationM, s.FillM
		}
	}
	for i := range out {
		w := &out[i]
		w.Standing = w.DepthM >= StandingHoleM || w.DepthM >= StandingM && w.ToM-w.FromM >= BodyM
	}
	return out
}

// standing keeps the stretches that count.
func standing(p channel.Profile) []Stretch {
	var out []Stretch
	for _, w := range Stretches(p) {
		if w.Standing {
			out = append(out, w)
		}
	}
	return out
}

// firstAbove returns the lowest stretch that begins above s; ok is false where there is none.
func firstAbove(water []Stretch, s float64) (w Stretch, ok bool) {
	for _, w := range water {
		if w.FromM > s {
			return w, true
		}
	}
	return Stretch{}, false
}
