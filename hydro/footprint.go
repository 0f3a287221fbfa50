package hydro

import (
	"math"

	"siltstep/hydro/checkdam"

	"github.com/paulmach/orb"
)

// Footprint is the ground that a dam stands on, seen from above.
type Footprint struct {
	Ring   orb.Ring // closed, anticlockwise, map coordinates, m
	AreaM2 float64  // within Ring, to the hundredth
	FillM3 float64  // rock in place: body, keys and apron, to the hundredth
	PondM2 float64  // water at the sill; NaN: not known

	plan groundPlan
}

// Footprint returns the outline of dam k of drainage i: the body, straight across the channel and into both banks as far as the keys
// go, and below it the apron. Along the flow the body is everywhere as long as its full height makes it, though toward the banks it is
// shorter; the outline is thus no smaller than the dam. It lies as the nearest cross-section does, and is true to about a cell. false where
// the dam has no design, or the drainage no cross-sections. A plan that sited no dams has no such dam, and this panics.
func (p *Plan) Footprint(i, k int) (f Footprint, ok bool) {
	s, dam := &p.Layouts[i].Sites[k], p.damOf(i, k)
	if dam == nil {
		return Footprint{}, false
	}
	g := groundPlan{x: s.X, y: s.Y}
	if g.rightX, g.rightY, ok = p.across(i, s.StationM); !ok {
		return Footprint{}, false
	}
	g.measure(dam)
	ring := g.outline()
	return Footprint{ring, areaOf(ring), hundredth(dam.Rock.TotalM3), p.Designs[i][k].Measured.PondAreaM2, g}, true
}

// groundPlan is where the parts of a dam lie, seen from its axis on the channel line: to the right looking downstream, and downstream.
type groundPlan struct {
	x, y, rightX, rightY    float64 // of the axis, map coordinates, m; unit vector to the right
	leftM, rightM           float64 // ends of the keys
	upM, toeM, downM        float64 // feet of both faces, and the lower end of the apron
	apronLeftM, apronRightM float64
}

// measure takes the measures of a design, up to the wings, or to the sill where no notch is known.
func (g *groundPlan) measure(d *checkdam.Design) {
	section, highM := d.Request.Section, d.TopM
	if math.IsNaN(highM) {
		highM = d.Request.HeightM
	}
	left, right := spanOf(section, min(highM, section.BankHeightM()))
	g.leftM, g.rightM = left-d.Found.KeyBankM, right+d.Found.KeyBankM
	g.upM = -d.Body.CrestWidthM/2 - d.Body.FaceUp*highM
	g.toeM = d.Body.CrestWidthM/2 + d.Body.FaceDown*highM
	g.downM = g.toeM + d.Found.ApronLengthM
	middle, half := section.BedMiddleM(), d.Found.ApronWidthM/2
	g.apronLeftM, g.apronRightM = max(middle-half, g.leftM), min(middle+half, g.rightM)
}

// outline runs anticlockwise around the body and the apron.
func (g groundPlan) outline() orb.Ring {
	return orb.Ring{
		g.at(g.leftM, g.upM), g.at(g.rightM, g.upM), g.at(g.rightM, g.toeM), g.at(g.apronRightM, g.toeM), g.at(g.apronRightM, g.downM),
		g.at(g.apronLeftM, g.downM), g.at(g.apronLeftM, g.toeM), g.at(g.leftM, g.toeM), g.at(g.leftM, g.upM),
	}
}

// bounds returns the rectangle around a dam, turned as it is.
func (g groundPlan) bounds() orb.Ring {
	return orb.Ring{g.at(g.leftM, g.upM), g.at(g.rightM, g.upM), g.at(g.rightM, g.downM), g.at(g.leftM, g.downM), g.at(g.leftM, g.upM)}
}

// widened returns the plan with its ends moved out by a margin.
func (g groundPlan) widened(marginM float64) groundPlan {
	g.leftM, g.rightM, g.upM, g.downM = g.leftM-marginM, g.rightM+marginM, g.upM-marginM, g.downM+marginM
	return g
}

// exitM returns how far from the axis a line in the direction of a unit vector leaves the bounds, m.
func (g groundPlan) exitM(dx, dy float64) float64 {
	exit := math.Inf(1)
	for _, side := range [2]struct{ speed, low, high float64 }{
		{dx*g.rightX + dy*g.rightY, g.leftM, g.rightM},
		{dy*g.rightX - dx*g.rightY, g.upM, g.downM},
	} {
		switch {
		case side.speed > 0:
			exit = min(exit, side.high/side.speed)
		case side.speed < 0:
			exit = min(exit, side.low/side.speed)
		}
	}
	return exit
}

// at returns the map position so far to the right and downstream of the axis.
func (g groundPlan) at(rightM, downM float64) orb.Point {
	return orb.Point{g.x + rightM*g.rightX - downM*g.rightY, g.y + rightM*g.rightY + downM*g.rightX}
}

// damOf returns the design of dam k of drainage i; nil where it has none.
func (p *Plan) damOf(i, k int) *checkdam.Design {
	if i >= len(p.Designs) || k >= len(p.Designs[i]) {
		return nil
	}
	return p.Designs[i][k].Dam
}

// across returns the direction of the nearest cross-section; false where the drainage has none.
func (p *Plan) across(drainage int, stationM float64) (x, y float64, ok bool) {
	nearestM := math.Inf(1)
	if drainage >= len(p.Sections) {
		return 0, 0, false
	}
	for _, s := range p.Sections[drainage] {
		if m := math.Abs(s.StationM - stationM); m < nearestM {
			x, y, nearestM = s.DX, s.DY, m
		}
	}
	return x, y, !math.IsInf(nearestM, 1)
}

// spanOf returns the outermost offsets at which a level that lies no higher than the banks meets the ground of a section, m.
func spanOf(s checkdam.Section, levelM float64) (left, right float64) {
	points := s.Points()
	last := len(points) - 1
	i, j := 0, last
	for i < last && points[i+1].LevelM >= levelM {
		i++
	}
	for j > 0 && points[j-1].LevelM >= levelM {
		j--
	}
	return crossing(points, i, i+1, levelM), crossing(points, j, j-1, levelM)
}

// crossing returns where the ground from one point, at the level or above it, falls to a level on the way to the next; the offset of the point
// where there is no next.
func crossing(points []checkdam.Point, from, to int, levelM float64) float64 {
	a := points[from]
	if to < 0 || to >= len(points) || a.LevelM <= levelM {
		return a.OffsetM
	}
	b := points[to]
	return a.OffsetM + (b.OffsetM-a.OffsetM)*(a.LevelM-levelM)/(a.LevelM-b.LevelM)
}

// areaOf returns the area of a ring that runs anticlockwise, m², to the hundredth, by the sum of its trapezoids.
func areaOf(r orb.Ring) float64 {
	twice := 0.0
	for i := 1; i < len(r); i++ {
		// From the first corner, so that large map coordinates cost no digits.
		ax, ay := r[i-1][0]-r[0][0], r[i-1][1]-r[0][1]
		bx, by := r[i][0]-r[0][0], r[i][1]-r[0][1]
		twice += ax*by - bx*ay
	}
	return hundredth(twice / 2)
}
