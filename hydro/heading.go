package hydro

import (
	"math"

	"siltstep/hydro/channel"
)

// heading is a way on the map; as a direction its length is 1.
type heading struct{ x, y float64 }

func (h heading) lengthM() float64         { return math.Hypot(h.x, h.y) }
func (h heading) along(o heading) float64  { return h.x*o.x + h.y*o.y }
func (h heading) across(o heading) float64 { return h.x*o.y - h.y*o.x }
func (h heading) times(by float64) heading { return heading{h.x * by, h.y * by} }
func (h heading) plus(o heading) heading   { return heading{h.x + o.x, h.y + o.y} }
func (h heading) direction() (heading, bool) {
	l := h.lengthM()
	return h.times(1 / l), l > 0
}

// middles returns the way from the middle of the bed of a section to that of another.
func middles(s, t *channel.Section) heading {
	a, b := (s.Left.ToeM+s.Right.ToeM)/2, (t.Left.ToeM+t.Right.ToeM)/2
	return heading{t.X + b*t.DX - s.X - a*s.DX, t.Y + b*t.DY - s.Y - a*s.DY}
}

// arcM returns the length of channel between two sections along the middle of the bed, which the line may wind about. The bed is taken to
// turn evenly by the angle θ between the directions at both: an arc is 1 + θ²/24 times as long as its chord.
func arcM(s, t *channel.Section, from, to heading) float64 {
	turn := math.Atan2(from.across(to), from.along(to))
	return middles(s, t).lengthM() * (1 + turn*turn/24)
}

// lineM is the length of line to either side of a section over which the direction of the channel is read where too few sections tell it: longer
// than the steps of D8, shorter than a bend. Source: our own choice.
const lineM = 5.0

// headings returns the direction of the channel at each section. That between two others is that of the ways from the one below and to the one
// above, the shorter weighing more; at the end of a row of sections that are near to each other it is the direction at the next one mirrored
// at the way there. Both are right on arcs. Where there are fewer than three it is that of the line.
func (g *valleyGround) headings(fits []*channel.Section) []heading {
	out := make([]heading, len(fits))
	inner := make([]bool, len(fits))
	for k := 1; k+1 < len(fits); k++ {
		if g.near(fits[k-1], fits[k]) && g.near(fits[k], fits[k+1]) {
			up, on := middles(fits[k-1], fits[k]), middles(fits[k], fits[k+1])
			out[k], inner[k] = up.times(on.along(on)).plus(on.times(up.along(up))).direction()
		}
	}
	for k, s := range fits {
		if inner[k] {
			continue
		}
		known := false
		for _, next := range [2]int{k + 1, k - 1} {
			if !known && next >= 0 && next < len(fits) && inner[next] && g.near(fits[min(k, next)], fits[max(k, next)]) {
				var way heading
				way, known = middles(fits[min(k, next)], fits[max(k, next)]).direction()
				out[k] = way.times(2 * way.along(out[next])).plus(out[next].times(-1))
			}
		}
		if !known {
			lowX, lowY := g.placeAt(s.StationM - lineM)
			highX, highY := g.placeAt(s.StationM + lineM)
			out[k], known = heading{highX - lowX, highY - lowY}.direction()
		}
		if !known {
			out[k] = heading{-s.DY, s.DX} // square to the section
		}
	}
	return out
}
