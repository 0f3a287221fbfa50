package siting

import "math"

// lineStepM is how far apart places along the channel are tried, m. Source: our own choice,
// finer than any cell on which dams are sited with trust.
const lineStepM = 0.25

// bodyInside reports whether the axis of a dam at s and the points half a body of bodyM up, down,
// left and right of it lie inside.
func bodyInside(b bed, s, bodyM float64, inside Area) bool {
	x, y := b.xy(s)
	upX, upY := b.xy(s + bodyM/2)
	downX, downY := b.xy(s - bodyM/2)
	if !inside(x, y) || !inside(upX, upY) || !inside(downX, downY) {
		return false
	}
	dx, dy := upX-downX, upY-downY
	length := math.Hypot(dx, dy)
	if length == 0 {
		return true
	}
	acrossX, acrossY := -dy/length*bodyM/2, dx/length*bodyM/2
	return inside(x+acrossX, y+acrossY) && inside(x-acrossX, y-acrossY)
}

// insideUpTo returns the highest place from from to to that the channel reaches without
// leaving inside, within lineStepM; whole is true where that is all of it. The place from
// itself counts as inside.
func insideUpTo(b bed, from, to float64, inside Area) (s float64, whole bool) {
	n := int(math.Ceil((to - from) / lineStepM))
	last := from
	for k := 1; k <= n; k++ {
		next := min(from+float64(k)*lineStepM, to)
		if x, y := b.xy(next); !inside(x, y) {
			return last, false
		}
		last = next
	}
	return to, true
}
