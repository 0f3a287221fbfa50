package siting

import (
	"fmt"
	"math"
)

// stand is a dam placed by a march.
type stand struct {
	axisM  float64 // station of the axis
	series int
	wedge  wedge
	step   step
}

// march lays dams up one eligible reach.
type march struct {
	bed    bed
	cfg    Config
	inside Area
	barred []bar    // stretches of the drainage that no wedge enters
	off    []faults // of every station, what of the ground itself keeps a dam off
	run    run
	series int // number of the latest series in the drainage

	stands []stand // of the drainage so far, those of lower reaches first
	notes  []Reason

	floorM, topM   float64 // lowest and highest place at which the next dam may stand
	broken         bool    // the next dam begins a series
	dropped        int     // places given up at the property line since the last dam
	dropLo, dropHi float64
}

// walk starts at the lowest station of the reach, or a body above the dam of a lower reach where
// that is higher. Each dam stands where the bed meets the deposit line of the one below; a place
// that cannot hold one is passed over and the march goes on from the next station, as a new
// series. No dam stands within half a body of the upper end of the drainage, where there is no
// bed left to fill.
func (m *march) walk() {
	m.broken = true
	m.floorM, m.topM = m.ends()
	if d := beneath(m.stands); d != nil {
		m.floorM = max(m.floorM, d.axisM+m.cfg.bodyM())
	}
	place := m.floorM
	for place < m.topM {
		axis, st, ok := m.clearOfStep(place)
		if !ok {
			m.endOnStep(place)
			return
		}
		w, fits := wedge{}, m.inside == nil || bodyInside(m.bed, axis, m.cfg.bodyM(), m.inside)
		if fits {
			w, fits = wedgeInside(m.bed, axis, m.cfg, m.inside)
		}
		if !fits {
			place = m.drop(axis)
			continue
		}
		m.put(stand{axisM: axis, wedge: w.cutAt(axis, m.barred), step: st})
		if !w.meets {
			m.endOnFlat(axis)
			return
		}
		place = w.meetM
	}
	m.endOfReach(place)
}

// ends returns the lowest and the highest place for a dam in the reach: no part of its body lies on
// a stretch that is barred to dams.
func (m *march) ends() (floorM, topM float64) {
	st := m.bed.stations
	floorM, topM = st[m.run.first].StationM, min(m.run.toM, m.bed.lengthM()-m.cfg.bodyM()/2)
	if below := m.run.first - 1; below >= 0 && m.off[below] != 0 {
		floorM = max(floorM, st[below].StationM+m.cfg.bodyM()/2)
	}
	if above := m.run.last + 1; above < len(st) && m.off[above] != 0 {
		topM = min(topM, st[above].StationM-m.cfg.bodyM()/2)
	}
	return floorM, topM
}

// put adds a dam, in a new series where the one below does not hand over to it.
func (m *march) put(d stand) {
	m.noteDrops()
	if m.broken || d.step.below > 0 {
		m.series++
	}
	d.series = m.series
	m.stands = append(m.stands, d)
	m.broken, m.floorM = false, d.axisM+m.cfg.bodyM()
	if d.wedge.lowered {
		m.notes = append(m.notes, Reason{RuleProperty, d.wedge.heightM, m.cfg.HeightM,
			fmt.Sprintf("The dam at station %.1f m is lowered to %.2f m so that its wedge ends inside the property", d.axisM, d.wedge.heightM)})
	}
}

// drop gives up a place and returns the next to try: the station above it.
func (m *march) drop(axis float64) float64 {
	if m.dropped == 0 {
		m.dropLo = axis
	}
	m.dropped++
	m.dropHi = axis
	m.broken = true
	m.floorM = math.Inf(1)
	if i := m.bed.below(axis) + 1; i < len(m.bed.stations) {
		m.floorM = m.bed.stations[i].StationM
	}
	return m.floorM
}

// noteDrops says once what was given up since the last dam.
func (m *march) noteDrops() {
	if m.dropped == 0 {
		return
	}
	where := fmt.Sprintf("between stations %.1f and %.1f m", m.dropLo, m.dropHi)
	if m.dropHi-m.dropLo < 0.1 {
		where = fmt.Sprintf("at station %.1f m", m.dropLo)
	}
	m.notes = append(m.notes, Reason{RuleProperty, math.NaN(), math.NaN(),
		fmt.Sprintf("No dam stands %s: its body or its wedge would cross the property line even at %.2f m",
			where, min(m.cfg.MinHeightM, m.cfg.HeightM))})
	m.dropped = 0
}

func (m *march) endOfReach(place float64) {
	if m.dropped > 0 {
		m.noteDrops()
		return
	}
	m.notes = append(m.notes, Reason{RuleReachEnd, place, m.topM,
		fmt.Sprintf("The march ends: the next dam would stand at station %.1f m, and the highest place in the reach for one is %.1f m", place, m.topM)})
}

func (m *march) endOnFlat(axis float64) {
	m.notes = append(m.notes, Reason{RuleWedge, math.NaN(), math.NaN(),
		fmt.Sprintf("The march ends: above station %.1f m the bed does not rise to the sill before the upper end of the drainage", axis)})
}

func (m *march) endOnStep(place float64) {
	m.noteDrops()
	m.notes = append(m.notes, Reason{RuleStep, m.bed.grade(place, m.cfg.bodyM()), m.cfg.SlopeMax,
		fmt.Sprintf("The march ends: from station %.1f m up, no place in the reach has a bed under %s for the length of a dam body and stands clear of the lip of a step", place, percent(m.cfg.SlopeMax))})
}
