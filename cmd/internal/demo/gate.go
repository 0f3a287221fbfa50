package demo

import "math"

// gate is a place on the rim where water may leave.
type gate struct {
	spot
	heightM float64
}

// Where gates lie.
const (
	gateWidthM = 32.0  // of the rim that belongs to a gate, m
	gateStepM  = 600.0 // distance between gates along the rim, m
	gateFreeM  = 700.0 // distance from the main outlet within which there is no other, m
	outletEast = 0.2   // place of the main outlet on the south side, as a share of the width
	gapEast    = 0.63  // middle of the stretch of the north rim without gates, as a share of the width
	gapReachM  = 460.0 // how far that stretch reaches to either side, m
)

// layGates sets the gates: the main outlet on the south side toward the west, and others
// about 600 m apart around the rim, whose height rises with the distance from the outlet.
// None lies along the stretch of the north rim that sheds its water into the data.
func (l *land) layGates() {
	out := spot{float64(outletEast * l.widthM), l.heightM + marginM}
	l.gates = []gate{{out, baseM}}
	w, h := l.widthM+2*marginM, l.heightM+2*marginM
	count := int(math.Round(2 * (w + h) / gateStepM))
	for k := range count {
		at := (float64(k) + l.rand.between(k, 0.2, 0.8)) * 2 * (w + h) / float64(count)
		p := alongRim(at, w, h).plus(spot{-marginM, -marginM})
		d := p.minus(out).length()
		if d < gateFreeM || p.s < 0 && math.Abs(p.e-float64(gapEast*l.widthM)) < gapReachM {
			continue
		}
		l.gates = append(l.gates, gate{p, l.tilt(p) + l.rand.between(k+1000, -6, 6)})
	}
}

// alongRim returns the place at a distance clockwise along the rim of a w × h rectangle.
func alongRim(at, w, h float64) spot {
	switch {
	case at < w:
		return spot{at, 0}
	case at < w+h:
		return spot{w, at - w}
	case at < 2*w+h:
		return spot{2*w + h - at, h}
	}
	return spot{0, 2*(w+h) - at}
}

// gateAt returns the gate that a rim place belongs to, if any.
func (l *land) gateAt(p spot) (gate, bool) {
	for _, g := range l.gates {
		if d := p.minus(g.spot); max(math.Abs(d.e), math.Abs(d.s)) < gateWidthM/2 {
			return g, true
		}
	}
	return gate{}, false
}
