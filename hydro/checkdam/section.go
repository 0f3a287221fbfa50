package checkdam

import (
	"fmt"
	"math"
	"slices"
)

// Point is a place on a cross-section.
type Point struct {
	OffsetM float64 // from left to right looking downstream
	LevelM  float64
}

// Section is a cross-section of the channel where the dam is to stand, bank to bank.
type Section struct {
	points    []Point // offsets never fall; the lowest level is 0
	bedWidthM float64
	measured  bool
}

// TrapezoidSection returns the section of a channel with a level bed and straight banks, sideSlope being their
// horizontal run a metre of height; 0 makes them upright. Error: a value below zero, not finite, or no bank.
func TrapezoidSection(bedWidthM, sideSlope, bankHeightM float64) (Section, error) {
	for _, v := range []struct {
		what string
		got  float64
	}{{"bed width", bedWidthM}, {"side slope", sideSlope}, {"bank height", bankHeightM}} {
		if !(v.got >= 0 && v.got <= mostM) {
			return Section{}, fmt.Errorf("%s %g; allowed is 0 to %g", v.what, v.got, float64(mostM))
		}
	}
	if bankHeightM == 0 {
		return Section{}, fmt.Errorf("bank height 0 m: a dam needs banks to stand between")
	}
	if bedWidthM == 0 && sideSlope == 0 {
		return Section{}, fmt.Errorf("bed width 0 m between upright banks: there is no channel")
	}
	half, top := bedWidthM/2, bedWidthM/2+sideSlope*bankHeightM
	return Section{[]Point{{-top, bankHeightM}, {-half, 0}, {half, 0}, {top, bankHeightM}}, bedWidthM, false}, nil
}

// mostM is the largest length that is taken for a channel, m. Own choice: it tells a slip of units.
const mostM = 1000

// bedShare is the height at which the bed of a measured section is taken to end, as a share of the height of its
// lower bank. Own choice.
const bedShare = 0.1

// NewSection returns a measured section. Points run from the top of the left bank to that of the right one, looking
// downstream. Its bed width is that at a tenth of the height of the lower bank. Errors: fewer than three points; offsets that
// fall; values that are not finite; an end that is not higher than the bed.
func NewSection(points []Point) (Section, error) {
	if len(points) < 3 {
		return Section{}, fmt.Errorf("section: %d points; at least 3 are needed, from bank top to bank top", len(points))
	}
	lowest := math.Inf(1)
	for i, p := range points {
		if !(math.Abs(p.OffsetM) <= mostM) || !(math.Abs(p.LevelM) <= 10*mostM) {
			return Section{}, fmt.Errorf("section: point %d: offset %g m, level %g m; offsets to %d m and levels to %d m are taken", i+1, p.OffsetM, p.LevelM, mostM, 10*mostM)
		}
		if i > 0 && p.OffsetM < points[i-1].OffsetM {
			return Section{}, fmt.Errorf("section: point %d: offset %g m lies left of the one before, %g m; list the points from left to right", i+1, p.OffsetM, points[i-1].OffsetM)
		}
		lowest = min(lowest, p.LevelM)
	}
	s := Section{points: slices.Clone(points), measured: true}
	for i := range s.points {
		s.points[i].LevelM -= lowest
	}
	if s.BankHeightM() <= 0 {
		return Section{}, fmt.Errorf("section: an end is as low as the bed; measure on to the top of each bank")
	}
	s.bedWidthM = s.WidthM(bedShare * s.BankHeightM())
	return s, nil
}

// Points returns the section with its lowest level at 0.
func (s Section) Points() []Point { return slices.Clone(s.points) }

// Measured tells whether the section was measured point by point.
func (s Section) Measured() bool { return s.measured }

// BedWidthM returns the width of the bed.
func (s Section) BedWidthM() float64 { return s.bedWidthM }

// BankHeightM returns the height of the lower bank above the lowest point.
func (s Section) BankHeightM() float64 {
	lowest := 0
	for i, p := range s.points {
		if p.LevelM < s.points[lowest].LevelM {
			lowest = i
		}
	}
	left, right := 0.0, 0.0
	for i, p := range s.points {
		if i <= lowest {
			left = max(left, p.LevelM-s.points[lowest].LevelM)
		}
		if i >= lowest {
			right = max(right, p.LevelM-s.points[lowest].LevelM)
		}
	}
	return min(left, right)
}

// WidthM returns the width of water that stands at a level above the lowest point, without islands; 0 at or below 0
// unless the bed is level.
func (s Section) WidthM(levelM float64) float64 {
	return s.integrate(levelM, func(lengthM, a, b float64) float64 { return lengthM })
}

// AreaM2 returns the area below a level.
func (s Section) AreaM2(levelM float64) float64 {
	return s.integrate(levelM, func(lengthM, a, b float64) float64 { return lengthM * (a + b) / 2 })
}

// integrate sums a function of the wet pieces: their length and the depths at their ends.
func (s Section) integrate(levelM float64, of func(lengthM, a, b float64) float64) float64 {
	sum := 0.0
	for i := 1; i < len(s.points); i++ {
		p, q := s.points[i-1], s.points[i]
		sum += wet(q.OffsetM-p.OffsetM, levelM-p.LevelM, levelM-q.LevelM, of)
	}
	return sum
}

// wet applies a function to the part of a piece where the depth, which runs straight from a to b, is not below zero.
func wet(lengthM, a, b float64, of func(lengthM, a, b float64) float64) float64 {
	switch {
	case a < 0 && b < 0, a <= 0 && b <= 0 && a != b:
		return 0
	case a < 0:
		return of(lengthM*b/(b-a), 0, b)
	case b < 0:
		return of(lengthM*a/(a-b), a, 0)
	}
	return of(lengthM, a, b)
}

// BedMiddleM returns the offset of the middle of the bed, over which the notch stands: midway between where the banks rise above a tenth
// of the height of the lower one.
func (s Section) BedMiddleM() float64 {
	level := bedShare * s.BankHeightM()
	first, last := math.Inf(1), math.Inf(-1)
	for i := 1; i < len(s.points); i++ {
		p, q := s.points[i-1], s.points[i]
		if min(p.LevelM, q.LevelM) >= level {
			continue
		}
		at := func(a, b Point) float64 { // where the piece from a, below, to b crosses the level
			if b.LevelM <= level {
				return b.OffsetM
			}
			return a.OffsetM + (b.OffsetM-a.OffsetM)*(level-a.LevelM)/(b.LevelM-a.LevelM)
		}
		lowEnd, highEnd := at(q, p), at(p, q)
		first, last = min(first, lowEnd, highEnd), max(last, lowEnd, highEnd)
	}
	return (first + last) / 2
}
