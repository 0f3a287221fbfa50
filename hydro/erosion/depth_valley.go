package erosion

import (
	"math"

	"siltstep/hydro/channel"
	"siltstep/raster"
)

const (
	leastBeside  = 2 // fewest samples from which the slope of the land on one side is told; our own choice
	cellsOfSteps = 2 // cell sides over the distance between the samples of channel.Sections
)

// valley is the form of the land around a bed, any gully left out: two planes that meet at the bed.
type valley struct {
	stationM    float64
	dx, dy      float64 // unit vector across, from left to right looking downstream
	left, right float64 // rise away from the bed on either side, rise over run
	spanM       float64 // side of the square of the top-hat, between the middles of its outer cells, m
}

// valleys returns the form of the land at every section, resolved or not, that shows ground on both sides beside the bed, as far as
// the square of the top-hat reaches.
func valleys(sections []channel.Section, windowM float64) []valley {
	var out []valley
	for i := range sections {
		s := &sections[i]
		v := valley{stationM: s.StationM, dx: s.DX, dy: s.DY, spanM: spanM(windowM, cellsOfSteps*s.StepM)}
		v.left, v.right = besideSlope(s, -1, v.spanM/2), besideSlope(s, 1, v.spanM/2)
		if !math.IsNaN(v.left) && !math.IsNaN(v.right) {
			out = append(out, v)
		}
	}
	return out
}

// topHatM returns what the black top-hat reads at the bed of a plain valley of this form, without any gully, in metres;
// bed is its slope along the channel. It is 0 where the land does not rise to both sides.
//
// With l and r the slopes of the two planes as vectors, a square of side w with its middle at c has its highest ground at
// max(l·c + w|l|/2, r·c + w|r|/2) above the bed, |v| standing for |vx| + |vy|. The least of it over the squares that hold the bed is
// w/2 times the greatest of s|l| + (1−s)|r| − |s·l + (1−s)·r| over s from 0 to 1 (linear programming), and that lies
// where one component of s·l + (1−s)·r is zero.
func (v valley) topHatM(bed float64) float64 {
	if v.left <= 0 || v.right <= 0 {
		return 0
	}
	lx, ly := -v.left*v.dx+bed*v.dy, -v.left*v.dy-bed*v.dx
	rx, ry := v.right*v.dx+bed*v.dy, v.right*v.dy-bed*v.dx
	most := 0.0
	for _, s := range [2]float64{rx / (rx - lx), ry / (ry - ly)} {
		if s > 0 && s < 1 {
			apart := s*(math.Abs(lx)+math.Abs(ly)) + (1-s)*(math.Abs(rx)+math.Abs(ry))
			most = max(most, apart-math.Abs(s*lx+(1-s)*rx)-math.Abs(s*ly+(1-s)*ry))
		}
	}
	return v.spanM / 2 * most
}

// besideSlope returns the slope of the land beside a gully, up away from the thalweg positive: the least of three by least squares over
// one side of a section, from the top of its bank, or from half of reachM where no bank is told, out to reachM, and twice further out, so
// that a bank that the cells blur does not pass for land. side is −1 for the left and 1 for the right. NaN where no range has leastBeside
// samples with data.
func besideSlope(s *channel.Section, side, reachM float64) float64 {
	fromM := reachM / 2
	if bank := s.Right; s.Resolved {
		if side < 0 {
			bank = s.Left
		}
		if topM := math.Abs(bank.TopM); topM < reachM-2*s.StepM {
			fromM = topM
		}
	}
	least := math.NaN()
	for _, span := range [3][2]float64{{fromM, reachM}, {0.75 * reachM, 1.25 * reachM}, {reachM, 1.5 * reachM}} {
		if slope := slopeWithin(s, side, span[0], span[1]); slope < least || math.IsNaN(least) {
			least = slope
		}
	}
	return least
}

// slopeWithin returns the slope of the samples of one side between two distances from the thalweg, half a step more either way; NaN where
// there are fewer than leastBeside.
func slopeWithin(s *channel.Section, side, fromM, toM float64) float64 {
	var n, sumX, sumZ, sumXX, sumXZ float64
	near, far := (side*fromM-s.FirstM)/s.StepM, (side*toM-s.FirstM)/s.StepM // samples; two more are looked at on either side
	first, last := max(0, int(min(near, far))-2), min(len(s.MM)-1, int(max(near, far))+2)
	for i := first; i <= last; i++ {
		z := s.MM[i]
		x := side * (s.FirstM + float64(i)*s.StepM)
		if z == raster.VoidMM || x <= 0 || x < fromM-s.StepM/2 || x > toM+s.StepM/2 {
			continue
		}
		m := float64(z) / 1000
		n++
		sumX += x
		sumZ += m
		sumXX += x * x
		sumXZ += x * m
	}
	if n < leastBeside {
		return math.NaN()
	}
	return (sumXZ - sumX*sumZ/n) / (sumXX - sumX*sumX/n)
}

// withoutValley returns the top-hat at the stations less what the form of the valley adds to it by the nearest section that
// shows it, at least zero. NaN at stations without a bed.
func withoutValley(stations []channel.Station, sections []channel.Section, topHatM []float64, windowM float64) []float64 {
	forms := valleys(sections, windowM)
	out := unknown(len(stations))
	below, above, near := 0, 0, 0 // stations about half a window off, and the form nearest
	for i, s := range stations {
		for stations[below].StationM < s.StationM-windowM/2 {
			below++
		}
		for above < len(stations)-1 && stations[above].StationM < s.StationM+windowM/2 {
			above++
		}
		for near < len(forms)-1 && forms[near+1].stationM-s.StationM < s.StationM-forms[near].stationM {
			near++
		}
		if s.NoBed {
			continue
		}
		out[i] = topHatM[i]
		if len(forms) > 0 {
			bed := fall(stations[below], stations[above])
			out[i] = max(0, topHatM[i]-forms[near].topHatM(bed))
		}
	}
	return out
}

// fall returns the slope of the bed between two stations, 0 where they are one.
func fall(below, above channel.Station) float64 {
	if above.StationM <= below.StationM {
		return 0
	}
	return (above.BedM - below.BedM) / (above.StationM - below.StationM)
}
