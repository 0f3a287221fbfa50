package channel

// When the filled surface above the ground counts as standing water. The noise of a survey makes
// many small pits: on a bed of 3 % with an error of 0.1 m in each cell of 1 m, half of all cells
// lie in one more than MaxFillM deep, few in one of 0.3 m and hardly any in one of that depth and
// StandingLengthM long. Source: our own choice, tried on such beds.
const (
	MaxFillM        = 0.05 // m; a stretch of water is the stations deeper than this
	StandingM       = 0.3  // m; a stretch this deep somewhere, and StandingLengthM long, is standing water
	StandingLengthM = 3.0  // m; the length of a dam body
	StandingHoleM   = 1.0  // m; a stretch this deep is, however short
)

// Stretch is a run of stations over which the filled surface stands more than MaxFillM above the
// ground.
type Stretch struct {
	FromM, ToM  float64 // stations, midway to the dry ones beyond, or the ends of the drainage
	DeepestM    float64 // station of the deepest place, the lowest of equals
	DepthM      float64 // depth there, m
	Standing    bool    // too deep for noise: a stock pond, a pit, or the pool behind a road fill
	First, Last int     // positions in Profile.Stations, both included
}

// Stretches lists the water along a profile from the lower end upstream; empty where there is none.
func Stretches(p Profile) []Stretch {
	var out []Stretch
	for i, s := range p.Stations {
		if !(s.FillM > MaxFillM) {
			continue
		}
		if n := len(out); n == 0 || out[n-1].Last != i-1 {
			out = append(out, Stretch{FromM: p.MidwayM(i - 1), First: i})
		}
		w := &out[len(out)-1]
		w.Last, w.ToM = i, p.MidwayM(i)
		if s.FillM > w.DepthM {
			w.DeepestM, w.DepthM = s.StationM, s.FillM
		}
	}
	for i := range out {
		w := &out[i]
		w.Standing = tooDeepForNoise(w.DepthM, w.ToM-w.FromM)
	}
	return out
}

// tooDeepForNoise reports whether water, or a cut, is more than the noise of a survey makes.
func tooDeepForNoise(depthM, lengthM float64) bool {
	return depthM >= StandingHoleM || depthM >= StandingM && lengthM >= StandingLengthM
}

// MidwayM returns the place halfway between station i and the next, in metres; beyond the ends,
// the end. It panics on an empty profile.
func (p Profile) MidwayM(i int) float64 {
	switch st := p.Stations; {
	case i < 0:
		return st[0].StationM
	case i+1 >= len(st):
		return st[len(st)-1].StationM
	default:
		return (st[i].StationM + st[i+1].StationM) / 2
	}
}
