package siting

import (
	"math"

	"github.com/paulmach/orb"
	"github.com/paulmach/orb/planar"
)

// How far to the sides of the channel line the property line and exclusions are looked for, m. Source: our own choice; wider than
// any channel that is eligible.
const (
	marginM     = 15.0
	marginStepM = 1.0
	bankKeyM    = 0.6 // of a dam into each bank; an upper bound of what dams of usual heights have
)

// A margin tells how much room there is beside the channel line for dams and what they hold. It is asked for many dams, so that it
// keeps what it found of each station.
type margin struct {
	bed     bed
	allowed Area // nil: anywhere
	water   func(stationM, levelM float64) (leftM, rightM float64)
	known   []bool
	leftM   []float64 // room to the left of each station, m; −1 where the line itself is not allowed
	rightM  []float64
}

// newMargin returns the margin of a drainage. Exclusions count as outside.
func newMargin(b bed, cfg Config, inside Area, ground Ground) margin {
	n := len(b.stations)
	m := margin{bed: b, water: ground.WaterM, allowed: without(inside, cfg.Features.Exclusions, b)}
	if m.allowed != nil {
		m.known, m.leftM, m.rightM = make([]bool, n), make([]float64, n), make([]float64, n)
	}
	return m
}

// without returns an area less what is excluded near a drainage; nil where that is anywhere.
func without(inside Area, exclusions []orb.Polygon, b bed) Area {
	var near []orb.Polygon
	var bound orb.Bound
	for i, s := range b.stations {
		if at := (orb.Point{s.X, s.Y}); i == 0 {
			bound = at.Bound()
		} else {
			bound = bound.Extend(at)
		}
	}
	for _, p := range exclusions {
		if p.Bound().Intersects(bound.Pad(2 * marginM)) {
			near = append(near, p)
		}
	}
	if len(near) == 0 {
		return inside
	}
	return func(x, y float64) bool {
		for _, p := range near {
			if planar.PolygonContains(p, orb.Point{x, y}) {
				return false
			}
		}
		return inside == nil || inside(x, y)
	}
}

// room returns how far from the channel line at a station the ground is allowed, to the left and right, up to marginM.
func (m *margin) room(station int) (leftM, rightM float64) {
	if !m.known[station] {
		m.known[station] = true
		m.leftM[station], m.rightM[station] = m.look(station)
	}
	return m.leftM[station], m.rightM[station]
}

func (m *margin) look(station int) (leftM, rightM float64) {
	s := m.bed.stations[station]
	if !m.allowed(s.X, s.Y) {
		return -1, -1
	}
	below, above := m.bed.stations[max(station-1, 0)], m.bed.stations[min(station+1, len(m.bed.stations)-1)]
	dx, dy := below.X-above.X, below.Y-above.Y // downstream
	length := math.Hypot(dx, dy)
	if length == 0 {
		return 0, 0
	}
	side := func(x, y float64) (farM float64) {
		for off := marginStepM; off <= marginM; off += marginStepM {
			if !m.allowed(s.X+x*off, s.Y+y*off) {
				return off - marginStepM
			}
		}
		return math.Inf(1)
	}
	return side(-dy/length, dx/length), side(dy/length, -dx/length)
}

// fault tells where a dam, its keys, its pond or its silt would leave the property or enter an exclusion; nil where
// they do not.
func (m *margin) fault(o *option, cfg Config) *Reason {
	if m.allowed == nil {
		return nil
	}
	for _, endM := range []float64{o.endM, o.axisM + o.upM, o.axisM - o.downM} { // stations do not lie there
		if !m.allowed(m.bed.xy(endM)) {
			return crosses(o)
		}
	}
	first := max(m.bed.below(max(o.axisM-o.downM, 0)), 0)
	for i := first; i < len(m.bed.stations); i++ {
		s := m.bed.stations[i]
		if s.StationM > max(o.endM, o.axisM+o.upM) && i > first {
			break
		}
		leftM, rightM := m.room(i)
		if leftM < 0 {
			return crosses(o)
		}
		if math.IsInf(leftM, 1) && math.IsInf(rightM, 1) {
			continue
		}
		wideL, wideR := m.wide(o, s.StationM, s.BedM, cfg.DepositRatio)
		if wideL > leftM || wideR > rightM {
			return crosses(o)
		}
	}
	return nil
}

// wide returns how far a dam and what it holds reach to the left and right of the channel line at a station.
func (m *margin) wide(o *option, stationM, bedM, ratio float64) (leftM, rightM float64) {
	levelM, keyM := o.sillM()+ratio*max(0, bedM-o.bedM), 0.0
	if stationM < o.axisM+o.upM { // the body
		levelM, keyM = o.sillM(), bankKeyM
	}
	if m.water != nil {
		leftM, rightM = m.water(stationM, levelM)
	}
	return leftM + keyM, rightM + keyM
}

func crosses(o *option) *Reason {
	return &Reason{RuleProperty, math.NaN(), math.NaN(),
		"A dam, its pond or its silt would cross the property line or enter an exclusion here, even at the least height"}
}
