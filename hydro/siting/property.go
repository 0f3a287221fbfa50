package siting

import "math"

// BodyM is the length of a dam body along the channel, and its width across, until its section
// is known, m. A loose-rock dam 0.6 m high with faces of 1.5:1 and 3:1 and a top of 0.5 m is
// 3.2 m long. Source: common practice.
const BodyM = 3.0

// lineStepM is how far apart places along the channel are tried, m. Source: our own choice,
// finer than any cell on which dams are sited with trust.
const lineStepM = 0.25

// bodyInside reports whether the axis of a dam at s and the points half a body up, down, left
// and right of it lie inside.
func bodyInside(b bed, s float64, inside Area) bool {
	x, y := b.xy(s)
	upX, upY := b.xy(s + BodyM/2)
	downX, downY := b.xy(s - BodyM/2)
	if !inside(x, y) || !inside(upX, upY) || !inside(downX, downY) {
		return false
	}
	dx, dy := upX-downX, upY-downY
	length := math.Hypot(dx, dy)
	if length == 0 {
		return true
	}
	acrossX, acrossY := -dy/length*BodyM/2, dx/length*BodyM/2
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
