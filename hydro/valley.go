package hydro

import (
	"math"
	"sort"

	"siltstep/hydro/channel"
	"siltstep/hydro/checkdam"
)

// valleyGround is a drainage as fitted cross-sections tell it. Levels are those of the sections, in which the tip of a narrow bed is
// where the banks meet. The profile, read from whole cells, may lie higher by a part of a cell; it tells how the bed runs between
// sections where that is more than cells can feign. It is used by one goroutine.
type valleyGround struct {
	stations []channel.Station
	sections []channel.Section
	nodes    []node
	withinM  float64 // so far does a cross-section speak for the ground
	cellM    float64
	noiseM   float64

	slices  []checkdam.Slice // of the valley asked for last
	weights []float64        // of sections, in the regression made last
}

// node is a place at which bed and shape of a channel are known; between nodes they run straight.
type node struct {
	stationM  float64
	alongM    float64 // the same along the middle of the bed, which the line may wind about
	bedM      float64
	bedWidthM float64
	sideSlope float64
	section   int     // number of the fitted section at or next below it, or the first
	upper     float64 // share of the next section in its bed
	gap       bool    // nothing is known from here to the next node
}

// ground returns the ground of a drainage, from its sections that are resolved and have banks.
func (p *Plan) ground(drainage int) *valleyGround {
	cellM := p.Grid.Transform.CellM
	g := &valleyGround{
		stations: p.Network.Drainages[drainage].Profile.Stations, sections: p.Sections[drainage],
		withinM: nearSpacings * max(p.Config.Sections.SpacingM, 2*cellM), cellM: cellM, noiseM: p.NoiseM,
	}
	g.addNodes(p.dipM())
	return g
}

// fitted reports whether a section tells the shape of the channel.
func fitted(s *channel.Section) bool {
	return s.Resolved && s.DepthM > 0 && s.Fit.BedWidthM+s.Fit.SideSlope > 0
}

// addNodes fills in the nodes: each fitted section; beyond the first and last and into gaps the same shape as far as a section speaks
// for; and between sections the steps of the profile that are larger than noise, dipM, and the cells can make.
func (g *valleyGround) addNodes(dipM float64) {
	var fits []*channel.Section
	for i := range g.sections {
		if fitted(&g.sections[i]) {
			fits = append(fits, &g.sections[i])
		}
	}
	own, ways := make([]node, len(fits)), g.headings(fits)
	for k, s := range fits {
		is, square := shapeOf(s, g.cellM), math.Abs(ways[k].across(heading{s.DX, s.DY})) // of widths measured askew, what lies square to the channel
		own[k] = node{stationM: s.StationM, alongM: s.StationM, bedM: is.bedM, bedWidthM: is.bedWidthM * square, sideSlope: is.sideSlope * square, section: k}
		if k > 0 && g.near(fits[k-1], s) {
			own[k].alongM = own[k-1].alongM + arcM(fits[k-1], s, ways[k-1], ways[k])
		}
	}
	for k, n := range own {
		low, high := max(k-1, 0), min(k+1, len(own)-1) // the nearest section on either side, or itself where none is near
		if !g.near(fits[low], fits[k]) {
			low = k
		}
		if !g.near(fits[k], fits[high]) {
			high = k
		}
		if low == k {
			g.extend(n, own[high], max(0, n.stationM-g.withinM), dipM)
		} else {
			g.addSteps(n, dipM)
		}
		g.nodes = append(g.nodes, n)
		if high == k {
			g.extend(n, own[low], min(g.stations[len(g.stations)-1].StationM, n.stationM+g.withinM), dipM)
			g.nodes[len(g.nodes)-1].gap = true
		}
	}
}

// near reports whether the ground between two sections that follow each other is known.
func (g *valleyGround) near(s, next *channel.Section) bool {
	return next.StationM-s.StationM <= 2*g.withinM
}

// extend adds a node beyond the last section that is known, from, with its shape. The bed goes on as straight as it runs between it and the
// next one on the other side, if there is one, but for what of the profile is a step. None is added where both lie together.
func (g *valleyGround) extend(from, next node, stationM, dipM float64) {
	if from.stationM == stationM {
		return
	}
	to, byM := from, stationM-from.stationM
	to.stationM += byM
	to.alongM += byM
	riseM := g.profileM(stationM) - g.profileM(from.stationM)
	if next.stationM != from.stationM {
		straightM := byM * (next.bedM - from.bedM) / (next.stationM - from.stationM)
		riseM = straightM + beyond(riseM-straightM, g.slackM(from, next, dipM))
	}
	to.bedM += riseM
	g.nodes = append(g.nodes, to)
}

// slackM returns by how much the profile between two nodes may be off what it is beside them without a step in the bed: noise, and on a bed narrower
// than the three cells it is read from what the tip hides between them.
func (g *valleyGround) slackM(a, b node, dipM float64) float64 {
	if narrowM := 1.5*g.cellM - (a.bedWidthM+b.bedWidthM)/2; narrowM > 0 {
		return dipM + narrowM/(a.sideSlope+b.sideSlope)
	}
	return dipM
}

// beyond returns what of a difference is beyond a slack, toward 0.
func beyond(off, slack float64) float64 { return max(0, off-slack) + min(0, off+slack) }

// addSteps adds the stations between the last node, a section, and the next at and beside which the profile has a step: it lies off the straight
// line between them by more than slackM.
func (g *valleyGround) addSteps(next node, dipM float64) {
	low := g.nodes[len(g.nodes)-1]
	lowM, highM, slackM := g.profileM(low.stationM), g.profileM(next.stationM), g.slackM(low, next, dipM)
	stepM := func(i int) float64 {
		if i >= len(g.stations) || g.stations[i].StationM >= next.stationM {
			return 0
		}
		share := (g.stations[i].StationM - low.stationM) / (next.stationM - low.stationM)
		return beyond(g.stations[i].BedM-lowM-share*(highM-lowM), slackM)
	}
	was := 0.0
	for i := g.above(low.stationM); i < len(g.stations) && g.stations[i].StationM < next.stationM; i++ {
		step := stepM(i)
		if step != 0 || was != 0 || stepM(i+1) != 0 {
			n := low.toward(next, g.stations[i].StationM)
			n.bedM += step
			g.nodes = append(g.nodes, n)
		}
		was = step
	}
}

// toward returns the node between two at a station, straight between; its share of the upper section is by stations too.
func (n node) toward(next node, stationM float64) node {
	t := (stationM - n.stationM) / (next.stationM - n.stationM)
	out := n
	out.stationM, out.gap = stationM, false
	out.alongM += t * (next.alongM - n.alongM)
	out.bedM += t * (next.bedM - n.bedM)
	out.bedWidthM += t * (next.bedWidthM - n.bedWidthM)
	out.sideSlope += t * (next.sideSlope - n.sideSlope)
	end := next.upper
	if next.section > n.section {
		end = 1
	}
	out.upper += t * (end - n.upper)
	return out
}

// above returns the number of the first station above a place.
func (g *valleyGround) above(stationM float64) int {
	return sort.Search(len(g.stations), func(i int) bool { return g.stations[i].StationM > stationM })
}

// placeAt returns the map position of a place on the line; beyond its ends that of the end.
func (g *valleyGround) placeAt(stationM float64) (x, y float64) {
	a, b, t := g.between(stationM)
	return a.X + t*(b.X-a.X), a.Y + t*(b.Y-a.Y)
}

// profileM returns the bed of the profile at a place, m; beyond its ends that of the end.
func (g *valleyGround) profileM(stationM float64) float64 {
	a, b, t := g.between(stationM)
	return a.BedM + t*(b.BedM-a.BedM)
}

// between returns the stations about a place and the share of the upper one. There is at least one station.
func (g *valleyGround) between(stationM float64) (lower, upper *channel.Station, share float64) {
	i := g.above(stationM)
	if i == 0 || i == len(g.stations) {
		i = min(i, len(g.stations)-1)
		return &g.stations[i], &g.stations[i], 0
	}
	a, b := &g.stations[i-1], &g.stations[i]
	return a, b, (stationM - a.StationM) / (b.StationM - a.StationM)
}

// nodeAt returns the node at a place and the number of the first listed one above it; ok is false where nothing is known.
func (g *valleyGround) nodeAt(stationM float64) (n node, above int, ok bool) {
	above = sort.Search(len(g.nodes), func(i int) bool { return g.nodes[i].stationM > stationM })
	if above == 0 {
		return n, 0, false
	}
	n = g.nodes[above-1]
	if n.stationM == stationM {
		return n, above, true
	}
	if n.gap || above == len(g.nodes) {
		return n, above, false
	}
	return n.toward(g.nodes[above], stationM), above, true
}
