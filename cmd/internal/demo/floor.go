package demo

import "math"

// The silt floor of a valley: flat ground that a gully cuts its trench into, as in valleys
// that filled before they were cut. Shape by eye.
const (
	floorReachM = 22.0  // as far as a floor may reach to either side, m
	floorCross  = 0.005 // fall of a floor toward its line
	floorBendM  = 12.0  // beyond this the floor bends down, so that it ends on any ground, m
	floorBend   = 0.04  // 1/m
	floorSoftM  = 0.3   // softness of its seam with the hillside, m
	floorLeast  = 0.006 // least fall down the valley
	wedgeSlope  = 0.3   // growth of a floor's thickness below the headcut, as a share of the valley's slope
	floorDipM   = 0.25  // a floor that has wedged out lies this far below the ground, m
	floorEndM   = 24    // length kept for a floor to wedge out below its trench, m
	floorMeanM  = 12    // the floor follows the ground averaged this far up and down, m
)

// layFloor sets the floor levels of a gully from the ground along its line and lays them
// on the canvas.
func (b *builder) layFloor(g *gully) {
	n := len(g.line.at)
	ground := make([]float64, n)
	for k, p := range g.line.at {
		ground[k] = b.groundM(p)
	}
	ground = meanOver(ground, floorMeanM)
	flattenDown(ground, floorLeast)
	g.floorM = make([]float64, n)
	g.share = make([]float64, n)
	dip := make([]float64, n) // of the laid floor, below its level, where it wedges out
	for k := range ground {
		g.share[k] = g.siltShare(ground, k)
		g.floorM[k] = ground[k] + float64(g.siltM*g.share[k])
		dip[k] = floorDipM * (1 - g.share[k])
	}
	flattenDown(g.floorM, floorLeast)
	for _, c := range b.canvas.strip(g.line, floorReachM) {
		over := max(c.sideM-floorBendM, 0)
		f := levelAt(g.floorM, c.station) - levelAt(dip, c.station)
		f += float64(floorCross*c.sideM) - float64(floorBend*over*over)
		b.canvas.set(c.cell, softMax(float64(b.canvas.MM[c.cell])/1000, f, floorSoftM))
	}
}

// siltShare returns how much of the floor's full thickness lies at a station. It begins at
// the headcut, so that water gathers there as it does on bare ground, and ends below the
// trench, thickening over a length that keeps the floor falling.
func (g *gully) siltShare(ground []float64, k int) float64 {
	share := 1.0
	if !g.enters {
		slope := fall(ground, g.from, g.from+40)
		share = ease(float64(k-g.from) * wedgeSlope * slope / g.siltM)
	}
	if g.into != nil || g.fadeM > 0 {
		share = min(share, ease(float64(len(ground)-1-k)/floorEndM))
	}
	return share
}

// ease grows from 0 to 1 for t from 0 to 1, gently at both ends.
func ease(t float64) float64 {
	t = min(max(t, 0), 1)
	return t * t * (3 - float64(2*t))
}

// softMax returns the larger of two levels, rounded where they are close.
func softMax(a, b, soft float64) float64 {
	h := max(soft-math.Abs(a-b), 0) / soft
	return max(a, b) + float64(h*h*soft/4)
}
