package erosion

import (
	"fmt"
	"math"

	"siltstep/hydro/channel"
)

// How depths are brought together. Our own choice.
const (
	averagedM  = 5.0 // length over which depths are averaged before the greatest is taken, m
	leastPairs = 10  // stations at which both measures must be known before one is set by the other
)

// Measure brings cross-sections and top-hat together at the stations of a drainage. topHatM is one slice of Survey, made
// with cfg.WindowM; sections rise. Every value is NaN at a station without a bed.
//
// Values of sections are those of the resolved ones: straight between two that are at most 3 spacings apart, the same
// for one spacing beyond the last, else NaN. All are 0 where a section has no
// banks. A bank slope is the mean of both banks, or that of the one that is told; of a bank
// narrower than a cell none is told.
//
// TopHatM is topHatM less what the form of the valley adds to it, and at least zero: what a plain valley would read whose sides
// slope as the outer halves of the nearest section do, resolved or not, and whose bed falls as this one does over the window. Without
// sections, or where none shows ground on both sides, it is topHatM itself. Sections should reach half a window to either side.
//
// IncisionM is SectionM. Where no section is resolved the top-hat stands in, since a cut may be too narrow for banks to show: less
// the median by which it is above the sections of the same drainage, once both are known at 10 stations, for noise
// lifts it. MaxM is the greatest mean over 5 m.
// It panics where topHatM does not fit the stations.
func Measure(d *channel.Drainage, sections []channel.Section, topHatM []float64, cfg Config) Depths {
	stations := d.Profile.Stations
	if len(topHatM) != len(stations) {
		panic(fmt.Sprintf("erosion: %d top-hats at %d stations of %s", len(topHatM), len(stations), d.ID))
	}
	r := reading{stations, resolvedOf(sections), spacingOf(sections)}
	out := Depths{
		SectionM:    r.along(func(s *channel.Section) float64 { return s.DepthM }),
		BedWidthM:   r.along(func(s *channel.Section) float64 { return s.BedWidthM }),
		BankToBankM: r.along(func(s *channel.Section) float64 { return s.TopWidthM }),
		BankLeftM:   r.along(func(s *channel.Section) float64 { return s.Left.HeightM }),
		BankRightM:  r.along(func(s *channel.Section) float64 { return s.Right.HeightM }),
		BankSlope:   r.along(bankSlope),
		TopHatM:     withoutValley(stations, sections, topHatM, cfg.WindowM),
	}
	out.IncisionM, out.DisagreeM = incision(out.SectionM, out.TopHatM)
	out.ResolvedShare = math.NaN()
	if len(sections) > 0 {
		out.ResolvedShare = float64(len(r.resolved)) / float64(len(sections))
	}
	out.summarise(stations, cfg.IncisedM)
	return out
}

// reading is what is needed to read sections at stations.
type reading struct {
	stations []channel.Station
	resolved []channel.Section
	spacingM float64
}

// along returns one value of the sections at every station.
func (r reading) along(value func(s *channel.Section) float64) []float64 {
	t := trackOf(r.resolved, r.spacingM, value)
	out := unknown(len(r.stations))
	for i, s := range r.stations {
		if !s.NoBed {
			out[i] = t.at(s.StationM)
		}
	}
	return out
}

// bankSlope returns the mean slope of the banks of a section, or of the one that is told; NaN where none is. How steep a bank is that is
// narrower than a cell the cells cannot tell.
func bankSlope(s *channel.Section) float64 {
	sum, n := 0.0, 0
	for _, b := range [2]channel.Bank{s.Left, s.Right} {
		if math.Abs(b.TopM-b.ToeM) >= cellsOfSteps*s.StepM && !math.IsNaN(b.Slope) {
			sum += b.Slope
			n++
		}
	}
	if n == 0 {
		return math.NaN()
	}
	return sum / float64(n)
}

// resolvedOf returns the resolved ones of sections.
func resolvedOf(sections []channel.Section) []channel.Section {
	out := make([]channel.Section, 0, len(sections))
	for i := range sections {
		if sections[i].Resolved {
			out = append(out, sections[i])
		}
	}
	return out
}

// incision returns the depth by sections, where unknown by the top-hat, and the median difference of the two without sign.
func incision(sectionM, topHatM []float64) (depthM []float64, disagreeM float64) {
	var above, apart []float64
	for i, s := range sectionM {
		if off := topHatM[i] - s; !math.IsNaN(off) {
			above = append(above, off)
			apart = append(apart, math.Abs(off))
		}
	}
	lift := 0.0
	if len(above) >= leastPairs {
		lift = max(0, median(above))
	}
	depthM = make([]float64, len(sectionM))
	for i, s := range sectionM {
		depthM[i] = s
		if math.IsNaN(s) {
			depthM[i] = max(0, topHatM[i]-lift) // NaN stays
		}
	}
	return depthM, median(apart)
}

// unknown returns n values that are NaN.
func unknown(n int) []float64 {
	out := make([]float64, n)
	for i := range out {
		out[i] = math.NaN()
	}
	return out
}
