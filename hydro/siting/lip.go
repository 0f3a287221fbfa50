package siting

import "math"

// What counts as a step of the bed, and how far below a dam one is looked for. A step is a stretch
// steeper than SlopeMax. Source: our own choice.
const (
	StepM     = 0.5 // m; a lower step is roughness
	StepLookM = 6.0 // m from the toe down to the lip

	stepRunM = 2.0 // m; a fall of StepM within it is a step however gently it starts: cells blur where a lip lies
)

// lip is the upper edge of a step of the bed.
type lip struct {
	stationM float64
	dropM    float64 // fall of the bed from the lip to the foot of the step, m
}

// lipBelow returns the nearest lip from s down to withinM below it; ok is false where there is
// none before the dam beneath, or where that dam drowns it: its sill is as high as the lip. No
// dam beneath is nil, and the search ends at the lower end of the drainage.
func (b bed) lipBelow(s, withinM, slopeMax float64, beneath *stand) (l lip, ok bool) {
	const slackM = 1e-6
	endM, sillM := 0.0, math.Inf(-1)
	if beneath != nil {
		endM, sillM = beneath.axisM, beneath.sillM()
	}
	for at := s; ; {
		if at < max(s-withinM, endM) || b.elevationM(at) <= sillM+slackM {
			return lip{}, false // what was found starts gently, and its lip lies lower
		}
		dropM, steps := b.stepFrom(at, endM, slopeMax)
		if ok && !steps {
			return l, true
		}
		i := b.before(at)
		if i < 0 {
			return lip{at, dropM}, steps
		}
		next := b.stations[i]
		if steps {
			l, ok = lip{at, dropM}, true
			if b.elevationM(at)-next.BedM > slopeMax*(at-next.StationM) {
				return l, true
			}
		}
		at = next.StationM
	}
}

// stepFrom returns the fall of the bed in metres over the stretch below s that exceeds slopeMax
// most, down to endM; ok is false where no stretch that falls more than StepM exceeds it. A
// stretch ends at a station, or stepRunM below s.
func (b bed) stepFrom(s, endM, slopeMax float64) (dropM float64, ok bool) {
	const slackM = 1e-9
	top, most := b.elevationM(s), slackM
	try := func(at float64) (over float64) {
		fall := top - b.elevationM(at)
		over = fall - slopeMax*(s-at)
		if over > most && fall > StepM+slackM {
			most, dropM, ok = over, fall, true
		}
		return over
	}
	try(max(s-stepRunM, endM))
	for i := b.before(s); i >= 0; i-- {
		at := max(b.stations[i].StationM, endM)
		if over := try(at); at == endM || over <= 0 && s-at > stepRunM {
			break
		}
	}
	return dropM, ok
}

// steepPieces counts, for each station, the pieces of the bed below it that are steeper than slopeMax. A step holds one at least.
func (b bed) steepPieces(slopeMax float64) []int {
	counts := make([]int, len(b.stations))
	for i := 1; i < len(counts); i++ {
		counts[i] = counts[i-1]
		if lo, hi := b.stations[i-1], b.stations[i]; hi.BedM-lo.BedM > slopeMax*(1-1e-9)*(hi.StationM-lo.StationM) {
			counts[i]++
		}
	}
	return counts
}

// before returns the index of the highest station below s; -1 where there is none.
func (b bed) before(s float64) int {
	i := b.below(s)
	if b.stations[i].StationM < s {
		return i
	}
	return i - 1
}

// beneath returns the highest of stands that rise upstream; nil for none.
func beneath(stands []stand) *stand {
	if len(stands) == 0 {
		return nil
	}
	return &stands[len(stands)-1]
}

// lipClearM is how far above a lip the axis of a dam stands at least, in metres: one body length,
// room for the toe, an apron and some retreat of the lip before it is treated, and stepRunM more
// because cells blur where the lip lies.
func (c Config) lipClearM() float64 { return c.bodyM() + stepRunM }
