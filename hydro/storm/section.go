package storm

import (
	"errors"
	"fmt"
	"math"
)

// Point is one point of a cross-section.
type Point struct {
	OffsetM    float64 // across the channel, m
	ElevationM float64 // m, above any level
}

// Section is a cross-section from bank to bank, offsets never falling; equal offsets make a wall.
// Stages are metres above its lowest point, the thalweg; of equal low points the first counts.
type Section []Point

// maxPoints is the most points of a section.
const maxPoints = 5_000

// Validate returns the first fault: fewer than three points, offsets that run back, numbers that are
// not finite, no width, or no height.
func (s Section) Validate() error {
	if len(s) < 3 || len(s) > maxPoints {
		return fmt.Errorf("section: %d points; give 3 to %d, from bank to bank", len(s), maxPoints)
	}
	for i, p := range s {
		if err := errors.Join(within("offset", p.OffsetM, -1e6, 1e6, "m"), within("elevation", p.ElevationM, -1e5, 1e5, "m")); err != nil {
			return fmt.Errorf("section, point %d: %w", i+1, err)
		}
		if i > 0 && p.OffsetM < s[i-1].OffsetM {
			return fmt.Errorf("section, point %d: offset %g m lies before %g m; give the points in order from one bank to the other", i+1, p.OffsetM, s[i-1].OffsetM)
		}
	}
	if !(s[len(s)-1].OffsetM > s[0].OffsetM) || !(s.topM() > 0) {
		return errors.New("section: it holds no water; both banks must stand above the lowest point")
	}
	return nil
}

// thalweg returns the index of the lowest point, the first of equals.
func (s Section) thalweg() int {
	low := 0
	for i, p := range s {
		if p.ElevationM < s[low].ElevationM {
			low = i
		}
	}
	return low
}

// topM returns the stage of the lower bank: the highest point on either side of the thalweg.
func (s Section) topM() float64 {
	low := s.thalweg()
	left, right := s[low].ElevationM, s[low].ElevationM
	for _, p := range s[:low] {
		left = max(left, p.ElevationM)
	}
	for _, p := range s[low:] {
		right = max(right, p.ElevationM)
	}
	return min(left, right) - s[low].ElevationM
}

// Wetted is the wetted part of a section at one stage.
type Wetted struct {
	DepthM     float64 // m, above the thalweg
	AreaM2     float64 // m²
	PerimeterM float64 // along bed, banks and walls put on the ends where the section does not contain the stage
	TopWidthM  float64 // m, of the water surface
	Contained  bool    // both ends of the section stand at or above the stage
}

// HydraulicRadiusM returns area over perimeter in m; 0 where dry.
func (w Wetted) HydraulicRadiusM() float64 {
	if w.PerimeterM == 0 {
		return 0
	}
	return w.AreaM2 / w.PerimeterM
}

// MeanDepthM returns area over top width in m; 0 where dry.
func (w Wetted) MeanDepthM() float64 {
	if w.TopWidthM == 0 {
		return 0
	}
	return w.AreaM2 / w.TopWidthM
}

// At returns the wetted part at a stage in m above the thalweg. Only the low that holds the thalweg
// is wet; others join when the stage tops what divides them, and ground just at the stage is dry. Above an end of the section a wall stands
// on it. A stage of 0 or less is dry. Cost is linear in the number of points.
func (s Section) At(stageM float64) Wetted {
	low := s.thalweg()
	out := Wetted{DepthM: max(0, stageM), Contained: true}
	if !(stageM > 0) {
		return out
	}
	level := s[low].ElevationM + stageM
	for i := low; ; i++ {
		if i == len(s)-1 {
			out.wall(level - s[i].ElevationM)
			break
		}
		if out.wet(s[i], s[i+1], level) {
			break
		}
	}
	for i := low; ; i-- {
		if i == 0 {
			out.wall(level - s[0].ElevationM)
			break
		}
		if out.wet(s[i], s[i-1], level) {
			break
		}
	}
	return out
}

// wall adds a wall of a height on an end of the section.
func (w *Wetted) wall(heightM float64) {
	if heightM > 0 {
		w.PerimeterM += heightM
		w.Contained = false
	}
}

// wet adds the wetted part of the ground from a, which is wet, to b; ends is true where the water's
// edge lies on it.
func (w *Wetted) wet(a, b Point, level float64) (ends bool) {
	deepA, deepB := level-a.ElevationM, level-b.ElevationM
	run, rise := math.Abs(b.OffsetM-a.OffsetM), b.ElevationM-a.ElevationM
	if deepB <= 0 {
		share := deepA / (deepA - deepB)
		run, rise, deepB, ends = run*share, rise*share, 0, true
	}
	w.AreaM2 += run * (deepA + deepB) / 2
	w.PerimeterM += math.Hypot(run, rise)
	w.TopWidthM += run
	return ends
}

// Trapezoid returns the section of a bed with two equal banks of sideZ horizontal to 1 vertical.
// A side of 0 makes a rectangle, a bed of 0 a triangle.
func Trapezoid(bedM, sideZ, heightM float64) (Section, error) {
	if err := errors.Join(within("bed width", bedM, 0, 1e5, "m"), within("side slope", sideZ, 0, 1000, "horizontal to 1"), above("bank height", heightM, "m")); err != nil {
		return nil, err
	}
	s := Section{{-bedM/2 - sideZ*heightM, heightM}, {-bedM / 2, 0}, {bedM / 2, 0}, {bedM/2 + sideZ*heightM, heightM}}
	return s, s.Validate()
}
