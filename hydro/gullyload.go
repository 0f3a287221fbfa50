package hydro

import (
	"math"

	"siltstep/hydro/channel"
	"siltstep/hydro/erosion"
)

// GullyLoad is the soil that a drainage has lost from its incised channel. What is not known is NaN.
//
// The void is that below the lower bank top, so it is rather too small: what is lost above that bank is not in it. It is no
// yearly rate; a rate is told only for a formation time that was given, and then as a mean over it.
// Silt that dams trap is another figure: the two are never added.
type GullyLoad struct {
	VoidM3                float64 // volume of the incised channel; NaN where no cross-section is resolved
	VoidLowM3, VoidHighM3 float64 // the same less and more the error that cell noise makes; NaN where the noise is not known
	LengthM               float64 // of the channel with that volume, m
	UnresolvedM           float64 // of the channel where no cross-section is resolved, or no bed is seen: left out, m; a mouth is not in it
	MassT                 float64 // of the soil that filled it
	MassLowT, MassHighT   float64 // of VoidLowM3 and VoidHighM3
	YearT                 float64 // a year, over GullyConfig.FormationYears; NaN where that is not given
	TreatedM              float64 // of LengthM that dams treat, m; NaN where no dams were sited
	AvoidedYearT          float64 // YearT on the treated share of LengthM: the most that dams there can avoid
}

// GullyLoadOf returns the load of a drainage, each figure to the hundredth, so that sums add up as they are shown.
//
// Between two resolved cross-sections, at most three spacings apart, widths, depth and fullness run straight, and the
// volume is prismoidal, exact for such a channel; ½(top + bottom)·depth·length where it is even. Only where the depth
// reaches erosion.Config.IncisedM it counts. Beside one that is not resolved a section stands for half a spacing, at an end
// of the drainage for one. What lies between the banks of the drainage that it joins is left to that one. Mass is volume times GullyConfig.BankTPerM3, the rate mass over GullyConfig.FormationYears: the
// simple form that grant tables ask for (from memory). See voidErrorM2 for low and high.
func (p *Plan) GullyLoadOf(drainage int) GullyLoad {
	lengthM, cellM := p.Network.Drainages[drainage].Profile.LengthM(), p.Grid.Transform.CellM
	s := survey{lengthM: lengthM, spacingM: min(lengthM, max(p.Config.Sections.SpacingM, 2*cellM)), cellM: cellM, noiseM: p.NoiseM, incisedM: p.Config.Erosion.IncisedM}
	if p.Network.Drainages[drainage].Into >= 0 {
		s.mouthM = mouthM(p.Network.Drainages[drainage].Profile.Stations, p.Erosion[drainage].Depths)
	}
	s.measure(p.Sections[drainage])
	l := s.load(p.Config.Gully)
	if p.Layouts != nil {
		l.treat(s.voids, treated(p.Layouts[drainage].Sites))
	}
	for _, v := range []*float64{&l.VoidM3, &l.VoidLowM3, &l.VoidHighM3, &l.LengthM, &l.UnresolvedM, &l.MassT, &l.MassLowT, &l.MassHighT, &l.YearT, &l.TreatedM, &l.AvoidedYearT} {
		*v = hundredth(*v)
	}
	return l
}

// mouthM returns how far up a tributary lies between the banks of the drainage that it joins, m: there erosion.LeaveMouths has taken
// out the depth that sections show. That void is one of the other drainage, and is counted there.
func mouthM(stations []channel.Station, depths erosion.Depths) float64 {
	endM := 0.0
	for i := range stations {
		if i >= len(depths.IncisionM) || !math.IsNaN(depths.IncisionM[i]) {
			break
		}
		if !math.IsNaN(depths.SectionM[i]) {
			endM = stations[i].StationM
		}
	}
	return endM
}

// longestGap is how many spacings two sections may lie apart for the channel between them to be told: at bends one or two are left out.
// Source: our own choice.
const longestGap = 3

// form is the form of the channel at a place.
type form struct{ stationM, depthM, topM, bedM, fullness float64 }

// formOf returns the form that a section shows. Fullness is its area over that of the trapezoid of its widths and depth.
func formOf(s *channel.Section) form {
	c := form{s.StationM, s.DepthM, s.TopWidthM, s.BedWidthM, 1}
	if plain := c.areaM2(); plain > 0 && s.AreaM2 > 0 {
		c.fullness = s.AreaM2 / plain
	}
	return c
}

// areaM2 returns the area below the lower bank top.
func (c form) areaM2() float64 { return c.fullness * (c.topM + c.bedM) / 2 * c.depthM }

// toward returns the form a share of the way to another.
func (c form) toward(d form, share float64) form {
	mix := func(a, b float64) float64 { return a + (b-a)*share }
	return form{mix(c.stationM, d.stationM), mix(c.depthM, d.depthM), mix(c.topM, d.topM), mix(c.bedM, d.bedM), mix(c.fullness, d.fullness)}
}

// at returns the same form at another place.
func (c form) at(stationM float64) form {
	c.stationM = stationM
	return c
}

// void is an incised piece of channel.
type void struct {
	stretch
	m3, errorM3 float64
}

// survey measures the voids of a drainage.
type survey struct {
	lengthM, spacingM, cellM, noiseM, incisedM float64

	mouthM float64 // what lies below this station is not of this drainage

	voids  []void
	knownM float64 // length for which the form of the channel is known
}

// measure takes the sections of the drainage, from the lower end upstream.
func (s *survey) measure(sections []channel.Section) {
	for len(sections) > 0 && sections[0].StationM < s.mouthM {
		sections = sections[1:]
	}
	for i := range sections {
		at := &sections[i]
		lowM, highM := max(s.mouthM, at.StationM-s.spacingM/2), min(s.lengthM, at.StationM+s.spacingM/2)
		switch {
		case i > 0:
			lowM = max(lowM, (at.StationM+sections[i-1].StationM)/2)
		case at.StationM-s.mouthM <= s.spacingM:
			lowM = s.mouthM
		}
		switch {
		case i+1 < len(sections):
			highM = min(highM, (at.StationM+sections[i+1].StationM)/2)
		case s.lengthM-at.StationM <= s.spacingM:
			highM = s.lengthM
		}
		if !at.Resolved {
			continue
		}
		c := formOf(at)
		if i == 0 || !s.meet(&sections[i-1], at) {
			s.add(c.at(lowM), c)
		}
		if i+1 < len(sections) && s.meet(at, &sections[i+1]) {
			s.add(c, formOf(&sections[i+1]))
		} else {
			s.add(c, c.at(highM))
		}
	}
}

// meet reports whether the channel between two sections that follow each other is told.
func (s *survey) meet(a, b *channel.Section) bool {
	const slackM = 1e-6
	return a.Resolved && b.Resolved && b.StationM-a.StationM <= longestGap*s.spacingM+slackM
}

// add takes the channel between two places, where it is incised. The area is a cubic of the way, for which Simpson's rule is exact.
func (s *survey) add(a, b form) {
	lengthM := b.stationM - a.stationM
	if !(lengthM > 0) {
		return
	}
	s.knownM += lengthM
	switch deepA, deepB := a.depthM >= s.incisedM, b.depthM >= s.incisedM; {
	case !deepA && !deepB:
		return
	case !deepA:
		a = a.toward(b, (s.incisedM-a.depthM)/(b.depthM-a.depthM))
	case !deepB:
		b = a.toward(b, (s.incisedM-a.depthM)/(b.depthM-a.depthM))
	}
	lengthM = b.stationM - a.stationM
	middle := a.toward(b, 0.5)
	s.voids = append(s.voids, void{stretch{a.stationM, b.stationM},
		lengthM / 6 * (a.areaM2() + 4*middle.areaM2() + b.areaM2()), lengthM * s.voidErrorM2(middle.topM)})
}

// voidErrorM2 returns the standard error of the area below the lower bank top of a section of some top width, first order in the noise
// of the cells. The area is the sum over n = width/cell cells of cell·(level − ground): the level, read off one cell, errs by σ on the whole
// width, and the ground by σ·cell·√n, so that both make σ·width·√(1 + 1/n). Sections are taken to err all the same way,
// as brush, water and the bed between coarse points make them do: their errors add up, and do not even out along the channel.
func (s *survey) voidErrorM2(topM float64) float64 {
	return s.noiseM * topM * math.Sqrt(1+s.cellM/max(topM, s.cellM))
}

// load sums up.
func (s *survey) load(cfg GullyConfig) GullyLoad {
	nan := math.NaN()
	l := GullyLoad{UnresolvedM: max(0, s.lengthM-s.mouthM-s.knownM), YearT: nan, TreatedM: nan, AvoidedYearT: nan}
	errorM3 := 0 * s.noiseM // NaN stays
	for _, v := range s.voids {
		l.LengthM += v.toM - v.fromM
		l.VoidM3 += v.m3
		errorM3 += v.errorM3
	}
	if s.knownM == 0 {
		l.VoidM3 = nan
	}
	l.VoidLowM3, l.VoidHighM3 = max(0, l.VoidM3-errorM3), l.VoidM3+errorM3
	l.MassT, l.MassLowT, l.MassHighT = l.VoidM3*cfg.BankTPerM3, l.VoidLowM3*cfg.BankTPerM3, l.VoidHighM3*cfg.BankTPerM3
	if cfg.FormationYears > 0 {
		l.YearT = l.MassT / cfg.FormationYears
	}
	return l
}

// treat sets what dams treat of the voids. Both lists rise; stretches of either do not overlap.
func (l *GullyLoad) treat(voids []void, dams []stretch) {
	l.TreatedM = 0
	k := 0
	for _, v := range voids {
		for k < len(dams) && dams[k].toM <= v.fromM {
			k++
		}
		for i := k; i < len(dams) && dams[i].fromM < v.toM; i++ {
			l.TreatedM += min(v.toM, dams[i].toM) - max(v.fromM, dams[i].fromM)
		}
	}
	l.TreatedM = min(l.TreatedM, l.LengthM)
	switch {
	case l.LengthM > 0:
		l.AvoidedYearT = l.YearT * (l.TreatedM / l.LengthM) // the share first, so that rounding never lifts it over YearT
	default:
		l.AvoidedYearT = l.YearT
	}
}
