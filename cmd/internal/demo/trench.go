package demo

import "math"

// Shape of trenches.
const (
	bankRun     = 1.0   // horizontal run of a bank per metre of height
	headRun     = 0.25  // the same at a headcut
	headEaseM   = 6.0   // distance below a headcut over which banks lean back, m
	trenchReach = 9.0   // m; wider than half the widest trench
	bedLeast    = 0.004 // least fall of a bed
	joinM       = 40    // length over which a trench comes to the depth of the one it meets, m
)

// setDepths gives the trench its depth at every station: the sum of the headcuts above,
// then out to nothing, or to the bed of the trench it meets.
func (g *gully) setDepths() {
	g.depthM = make([]float64, len(g.floorM))
	for k := g.from; k <= g.to; k++ {
		for _, h := range g.heads {
			if k >= h.station {
				g.depthM[k] += h.heightM
			}
		}
	}
	switch {
	case g.into != nil:
		g.joinBed()
	case g.fadeM > 0:
		for k := g.to - g.fadeM; k <= g.to; k++ {
			g.depthM[k] *= float64(g.to-k) / float64(g.fadeM)
		}
	}
	for k := g.from + 1; k <= g.to; k++ {
		lower := min(g.bedM(k), g.bedM(k-1)-bedLeast)
		g.depthM[k] = g.floorM[k] - lower
	}
}

// joinBed brings the last metres of bed to that of the receiving trench.
func (g *gully) joinBed() {
	goal := g.floorM[g.to] - g.into.bedM(g.joins)
	for k := max(g.to-joinM, g.from); k <= g.to; k++ {
		t := float64(k-g.to+joinM) / joinM
		g.depthM[k] = lerp(g.depthM[k], goal, ease(t))
	}
}

// cutTrench cuts the trench of a gully into the canvas. Its head is a half circle.
func (b *builder) cutTrench(g *gully) {
	bed := make([]float64, g.to-g.from+1)
	for k := range bed {
		bed[k] = g.bedM(g.from + k)
	}
	half := g.bedWidthM / 2
	center := half // station of the head's centre within the trench
	if g.enters {
		center = -headEaseM
	}
	for _, c := range b.canvas.strip(g.line.part(g.from, g.to), trenchReach) {
		side, run := c.sideM, bankRun
		if up := center - c.station; up > 0 {
			side, run = math.Sqrt(float64(side*side)+float64(up*up)), headRun
		} else {
			run = lerp(headRun, bankRun, min(-up/headEaseM, 1))
		}
		z := levelAt(bed, max(c.station, center)) + max(side-half, 0)/run
		if z < float64(b.canvas.MM[c.cell])/1000 {
			b.canvas.set(c.cell, z)
		}
	}
}
