package hydro

import (
	"fmt"
	"math"

	"siltstep/hydro/channel"
	"siltstep/hydro/checkdam"
	"siltstep/raster"
)

// How a cross-section of the ground becomes that of a dam. Source: our own choice.
const (
	nearSpacings = 1.5  // of sections; one further from the axis does not speak for the dam
	dipErrors    = 3.0  // standard deviations of a cell's error; a shallower dip on the way up a bank is noise
	leastDipM    = 0.05 // but no less than this, m
)

// sectionAt returns the section at a dam's axis, of the nearest one that is resolved and has banks, and which it is; why
// says why there is none.
func (p *Plan) sectionAt(drainage int, stationM float64) (s checkdam.Section, why string) {
	best, why := p.bankedSection(drainage, stationM)
	if best < 0 {
		return s, why
	}
	s, err := checkdam.NewSection(bankToBank(p.Sections[drainage][best], p.dipM()))
	if err != nil {
		return s, err.Error()
	}
	return s, ""
}

// noSectionText says that there is no section near enough, and why the nearest is none.
func noSectionText(withinM float64, why string) string {
	return fmt.Sprintf("no cross-section with banks within %.3g m of the axis: %s", withinM, why)
}

// dipM is the depth of a dip that noise may make on a bank, m.
func (p *Plan) dipM() float64 {
	if math.IsNaN(p.NoiseM) {
		return leastDipM
	}
	return max(leastDipM, dipErrors*p.NoiseM)
}

// bankToBank returns the points of a section with banks, from the top of the left one to that of the right. No level lies
// below its bed, whose noise is evened out, so that a single cell makes no pit; the tops are as high as the section says; and on
// the way up from the thalweg dips to dipM deep are levelled, so that noise makes no second channel.
func bankToBank(s channel.Section, dipM float64) []checkdam.Point {
	points := []checkdam.Point{{OffsetM: s.Left.TopM, LevelM: s.BedM + s.Left.HeightM}}
	thalweg := 0
	for i, mm := range s.MM {
		offM := s.FirstM + float64(i)*s.StepM
		if mm == raster.VoidMM || offM <= s.Left.TopM || offM >= s.Right.TopM {
			continue
		}
		if offM <= 0 {
			thalweg = len(points)
		}
		points = append(points, checkdam.Point{OffsetM: offM, LevelM: max(s.BedM, float64(mm)/1000)})
	}
	points = append(points, checkdam.Point{OffsetM: s.Right.TopM, LevelM: s.BedM + s.Right.HeightM})
	level := func(at, last, step int) {
		highest := points[at].LevelM
		for at != last {
			at += step
			if z := points[at].LevelM; z < highest && highest-z <= dipM {
				points[at].LevelM = highest
			}
			highest = points[at].LevelM
		}
	}
	level(thalweg, 0, -1)
	level(thalweg, len(points)-1, 1)
	return points
}
