package siting

import "math"

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
