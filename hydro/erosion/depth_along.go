package erosion

import (
	"math"
	"slices"

	"siltstep/hydro/channel"
)

// How far a section speaks for the bed beside it, in spacings of the sections. Our own choice.
const (
	bridgeSpacings = 3.0 // most between two sections for what lies between
	holdSpacings   = 1.0 // beyond a section with no other near enough

	loneSpacingM = 5.0 // m, where there are not two sections to tell it from
)

// track holds what sections tell along a drainage, from the lower end upstream.
type track struct {
	spacingM        float64
	stationM, value []float64
	above           int // the first at or above the place last asked for
}

// trackOf returns one value of each section, those that are NaN left out.
func trackOf(sections []channel.Section, spacingM float64, value func(s *channel.Section) float64) track {
	t := track{spacingM: spacingM}
	for i := range sections {
		if v := value(&sections[i]); !math.IsNaN(v) {
			t.stationM = append(t.stationM, sections[i].StationM)
			t.value = append(t.value, v)
		}
	}
	return t
}

// spacingOf returns the usual distance between sections in metres: of all of them, resolved or not.
func spacingOf(sections []channel.Section) float64 {
	var apart []float64
	for i := 1; i < len(sections); i++ {
		apart = append(apart, sections[i].StationM-sections[i-1].StationM)
	}
	if len(apart) == 0 {
		return loneSpacingM
	}
	return median(apart)
}

// at returns the value at a station: straight between two sections near enough to each other, that of the nearer one
// close to a section, else NaN. Stations are asked for from the lower end upstream.
func (t *track) at(stationM float64) float64 {
	const slackM = 1e-9
	for t.above < len(t.stationM) && t.stationM[t.above] < stationM {
		t.above++
	}
	above, below := t.above, t.above-1
	if above < len(t.stationM) && t.stationM[above] == stationM {
		return t.value[above]
	}
	if below >= 0 && above < len(t.value) {
		apart := t.stationM[above] - t.stationM[below]
		if apart <= bridgeSpacings*t.spacingM+slackM {
			share := (stationM - t.stationM[below]) / apart
			return t.value[below] + share*(t.value[above]-t.value[below])
		}
	}
	near := t.nearest(stationM)
	if near < 0 || math.Abs(t.stationM[near]-stationM) > holdSpacings*t.spacingM+slackM {
		return math.NaN()
	}
	return t.value[near]
}

// nearest returns the place of the value nearest to a station, of two the lower; -1 where there is none.
func (t track) nearest(stationM float64) int {
	above, _ := slices.BinarySearch(t.stationM, stationM)
	switch {
	case above == len(t.stationM):
		return above - 1
	case above == 0, t.stationM[above]-stationM < stationM-t.stationM[above-1]:
		return above
	}
	return above - 1
}

// median returns the middle of values, of two middle ones their mean; NaN where there are none. It changes their order.
func median(values []float64) float64 {
	if len(values) == 0 {
		return math.NaN()
	}
	slices.Sort(values)
	half := len(values) / 2
	if len(values)%2 == 0 {
		return (values[half-1] + values[half]) / 2
	}
	return values[half]
}
