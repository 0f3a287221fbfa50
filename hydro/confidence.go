package hydro

import (
	"fmt"
	"math"
	"slices"

	"siltstep/hydro/checkdam"
)

// Level is how far the plan of a dam can be trusted.
type Level string

// The levels, the best first.
const (
	LevelHigh   Level = "high"
	LevelMedium Level = "medium"
	LevelLow    Level = "low"
)

// levels is in the order of the constants.
var levels = []Level{LevelHigh, LevelMedium, LevelLow}

// bounds are the greatest values that leave a high and a medium level, and the level of what is not known.
type bounds struct {
	high, medium float64
	unknown      Level
}

// The rules of confidence: the level of a dam is the worst that any of them gives. All are our own choice; cells over 1 m blur
// beds of a few metres, and a peak without a gauge may be half or twice as large.
var (
	boundsCell     = bounds{1, 2, LevelLow}              // side of a cell, m
	boundsNoise    = bounds{0.10, 0.25, LevelMedium}     // error of a cell over the effective height
	boundsAway     = bounds{0.5, nearSpacings, LevelLow} // distance of the cross-section from the axis, in spacings of sections
	boundsResidual = bounds{0.15, 0.30, LevelLow}        // its difference from a trapezoid over its depth
	boundsWings    = bounds{0.80, 0.95, LevelLow}        // height of the wings over that of the lower bank
	boundsSpread   = bounds{2, 4, LevelMedium}           // highest over lowest peak of the methods; not known where one method stands alone
	boundsBarriers = bounds{0, math.Inf(1), LevelHigh}   // ponds and cuts up the drainage of which nothing was declared
)

// mostChecks is how many checks a dam carries: what a person does in one visit. Source: our own choice.
const mostChecks = 5

// of returns the level of a value.
func (b bounds) of(got float64) Level {
	switch {
	case math.IsNaN(got):
		return b.unknown
	case got <= b.high:
		return LevelHigh
	case got <= b.medium:
		return LevelMedium
	}
	return LevelLow
}

// Confidence is how far the plan of one dam can be trusted, and what to check on the ground before it is built.
type Confidence struct {
	Level  Level
	Checks []string // sentences, the most important first; at most five
}

// doubt is what one rule says of a dam.
type doubt struct {
	level Level
	check string // what to do on the ground
}

// ConfidenceAt returns that of a dam, by the number of its drainage and its place in Layouts and Designs: the worst level of
// the rules on cells, noise, cross-section, banks, catchment, peak and barriers. Their limits are this project's judgement. Checks are those of the
// rules that fall short, the worst first, and last to level the sill against the next dam. Cost: linear in the stations.
func (p *Plan) ConfidenceAt(drainage, dam int) Confidence {
	doubts := slices.Concat(p.doubtsOfGrid(drainage, dam), p.doubtsOfSection(drainage, dam), p.doubtsOfWater(drainage, dam))
	c := Confidence{Level: LevelHigh}
	for _, level := range []Level{LevelLow, LevelMedium} {
		for _, d := range doubts {
			if d.level == level {
				c.Checks = append(c.Checks, d.check)
				if slices.Index(levels, level) > slices.Index(levels, c.Level) {
					c.Level = level
				}
			}
		}
	}
	if next := p.levelling(drainage, dam); next != "" {
		c.Checks = append(c.Checks, next)
	}
	c.Checks = c.Checks[:min(len(c.Checks), mostChecks)]
	return c
}

// doubtsOfGrid tells of the elevation model.
func (p *Plan) doubtsOfGrid(drainage, dam int) []doubt {
	cellM, heightM := p.Grid.Transform.CellM, p.Layouts[drainage].Sites[dam].EffectiveHeightM
	noise := doubt{boundsNoise.of(p.NoiseM / heightM),
		fmt.Sprintf("Level bed and bank tops: heights of the elevation model err by %.2f m, and the dam is %.2f m high.", p.NoiseM, heightM)}
	if math.IsNaN(p.NoiseM) {
		noise.check = "Level bed and bank tops: how far the heights of the elevation model err is not known."
	}
	return []doubt{noise, {boundsCell.of(cellM), fmt.Sprintf("Find the lowest line of the bed and the nearest throat on the ground: cells of %.3g m blur both.", cellM)}}
}

// doubtsOfSection tells of the cross-section and its banks.
func (p *Plan) doubtsOfSection(drainage, dam int) []doubt {
	d := &p.Designs[drainage][dam]
	stationM, spacingM := p.Layouts[drainage].Sites[dam].StationM, max(p.Config.Sections.SpacingM, 2*p.Grid.Transform.CellM)
	at, _ := p.bankedSection(drainage, stationM)
	if d.Dam == nil || at < 0 {
		return []doubt{{LevelLow, "Measure a cross-section here from bank top to bank top, and size the dam by it: none near it shows bed and banks."}}
	}
	s := &p.Sections[drainage][at]
	bankM, topM := d.Dam.Request.Section.BankHeightM(), wingsM(d.Dam)
	return []doubt{
		{boundsWings.of(topM / bankM), fmt.Sprintf("Measure both banks: the wings stand %.2f m above the bed, the lower bank %.2f m.", topM, bankM)},
		{boundsAway.of(math.Abs(s.StationM-stationM) / spacingM), fmt.Sprintf("Measure bed width, top width and banks at the axis: the cross-section is from station %.1f m.", s.StationM)},
		{boundsResidual.of(s.Fit.ResidualM / s.DepthM), fmt.Sprintf("Measure the cross-section point by point: it differs from a plain shape by %.2f m.", s.Fit.ResidualM)},
	}
}

// wingsM returns the height of the wings above the bed, with the least notch where none is sized.
func wingsM(d *checkdam.Design) float64 {
	if d.Notch == nil {
		return d.Request.HeightM + checkdam.LeastDepthM
	}
	return d.TopM
}

// doubtsOfWater tells of the catchment and the peak.
func (p *Plan) doubtsOfWater(drainage, dam int) []doubt {
	d, stations := &p.Designs[drainage][dam], p.Network.Drainages[drainage].Profile.Stations
	s := p.Layouts[drainage].Sites[dam]
	f, barriers := &p.Config.Flow.Features, 0.0
	truncated := false
	for i := range stations {
		truncated = truncated || stations[i].Cell == s.Cell && stations[i].Truncated
		if stations[i].StationM > s.StationM && stations[i].NoBed {
			barriers++
		}
	}
	if len(f.Roads)+len(f.Culverts)+len(f.StockPonds)+len(f.Playas)+len(p.Config.Siting.Features.Roads) > 0 {
		barriers = 0
	}
	out := []doubt{{boundsBarriers.of(barriers), "Walk up the drainage to every road, culvert and pond: none was declared, and each may hold water back or lead it elsewhere."}}
	switch {
	case truncated:
		return append(out, doubt{LevelLow, "Find out what flows in from beyond the data: the catchment is not whole, and neither notch nor stone can be sized."})
	case d.Dam == nil || d.Dam.Notch == nil:
		return append(out, doubt{LevelLow, "Find the storm peak before building: none is known here, so that notch and stone are not sized."})
	case p.Config.Storm.Rain.Table == nil && p.Config.Storm.Rain.Curve == nil:
		out = append(out, doubt{LevelMedium, "Compare the rain with a table for the place: it was given by hand, as one storm."})
	}
	spread := math.NaN()
	if d.HighM3s > d.LowM3s {
		spread = d.HighM3s / d.LowM3s
	}
	peak := doubt{boundsSpread.of(spread), fmt.Sprintf("Look for flood marks and compare them with the notch: methods differ %.1f times about the peak.", spread)}
	if math.IsNaN(spread) {
		peak.check = "Look for flood marks and compare them with the notch: only one method stands behind the peak, and it may be half or twice as large."
	}
	return append(out, peak)
}

// levelling says what the level must show between a sill and the next dam of its series; empty for the highest.
func (p *Plan) levelling(drainage, dam int) string {
	sites := p.Layouts[drainage].Sites
	if dam+1 >= len(sites) || sites[dam+1].Series != sites[dam].Series {
		return ""
	}
	s, next := sites[dam], sites[dam+1]
	where := "level with"
	if off := next.BedM - s.SillM; math.Abs(off) >= 0.005 {
		where = fmt.Sprintf("%.2f m above", off)
		if off < 0 {
			where = fmt.Sprintf("%.2f m below", -off)
		}
	}
	return fmt.Sprintf("Level the sill against the bed at the next dam, %s, %.1f m upstream: by the elevation model that bed lies %s the sill.", next.ID, next.StationM-s.StationM, where)
}
