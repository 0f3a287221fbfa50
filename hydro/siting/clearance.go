package siting

import (
	"math"
	"slices"

	"github.com/paulmach/orb"

	"siltstep/hydro/channel"
)

// surroundings are the features that may lie near a drainage, by kind.
type surroundings struct {
	exclusions, buildings, roads, streams obstacles
}

// surroundingsOf keeps of the features what lies so near the channel line of a drainage that a rule may ask for it.
func surroundingsOf(p channel.Profile, cfg Config) surroundings {
	line := p.Line()
	if len(line) == 0 {
		return surroundings{}
	}
	around, f := line.Bound(), cfg.Features
	bodyM := cfg.body().LengthM(cfg.Heights()[0])
	return surroundings{
		exclusions: gather(f.Exclusions, around.Pad(bodyM)),
		buildings:  gather(f.Buildings, around.Pad(cfg.BuildingM)),
		roads:      gather(f.Roads, around.Pad(cfg.RoadM)),
		streams:    gather(f.Streams, around.Pad(cfg.StreamM)),
	}
}

// obstacle is one feature of the land: its straight pieces, and its rings where it is a polygon.
type obstacle struct {
	bound  orb.Bound
	pieces [][2]orb.Point // a point is a piece without length
	rings  orb.Polygon    // nil where it has no inside
}

type obstacles []obstacle

// gather returns the features within a frame, cut down to the pieces there.
func gather[G orb.Geometry](features []G, frame orb.Bound) obstacles {
	var out obstacles
	for _, f := range features {
		out = out.add(f, frame)
	}
	return out
}

// add adds a geometry where it touches the frame; parts of a collection each on their own. One of no points adds none.
func (all obstacles) add(g orb.Geometry, frame orb.Bound) obstacles {
	if g == nil || !frame.Intersects(g.Bound()) {
		return all
	}
	o := obstacle{bound: g.Bound()}
	switch g := g.(type) {
	case orb.Point:
		o.pieces = [][2]orb.Point{{g, g}}
	case orb.LineString:
		o.trace(g, frame)
	case orb.Ring:
		return all.add(orb.Polygon{g}, frame)
	case orb.Bound:
		return all.add(g.ToPolygon(), frame)
	case orb.Polygon:
		o.rings = g
		for _, r := range g {
			if len(r) > 0 {
				o.trace(append(orb.LineString(slices.Clip(r)), r[0]), frame) // closed, should it be open
			}
		}
	case orb.MultiPoint:
		return addEach(all, g, frame)
	case orb.MultiLineString:
		return addEach(all, g, frame)
	case orb.MultiPolygon:
		return addEach(all, g, frame)
	case orb.Collection:
		return addEach(all, g, frame)
	}
	if len(o.pieces) == 0 && o.rings == nil {
		return all
	}
	return append(all, o)
}

func addEach[G orb.Geometry](all obstacles, parts []G, frame orb.Bound) obstacles {
	for _, p := range parts {
		all = all.add(p, frame)
	}
	return all
}

// trace keeps the pieces of a line that touch the frame.
func (o *obstacle) trace(line orb.LineString, frame orb.Bound) {
	for k := range line {
		p := [2]orb.Point{line[max(k-1, 0)], line[k]}
		if (k > 0 || len(line) == 1) && frame.Intersects(orb.MultiPoint(p[:]).Bound()) {
			o.pieces = append(o.pieces, p)
		}
	}
}

// distanceM returns how far a map position is from the nearest of the obstacles in metres: 0 inside a polygon, a hole
// counting as outside; infinite where there is none. Cost: linear in the pieces of those that may be nearest.
func (all obstacles) distanceM(x, y float64) float64 {
	best := math.Inf(1)
	for i := range all {
		o := &all[i]
		if beyond(o.bound, x, y) >= best {
			continue
		}
		if o.holds(x, y) {
			return 0
		}
		for _, p := range o.pieces {
			best = min(best, pieceM(p, x, y))
		}
	}
	return best
}

// beyond returns how far a position lies outside a bound, m; 0 inside.
func beyond(b orb.Bound, x, y float64) float64 {
	return math.Hypot(max(b.Min[0]-x, 0, x-b.Max[0]), max(b.Min[1]-y, 0, y-b.Max[1]))
}

// holds reports whether a position lies inside the polygon: a line from it to the east crosses the rings an odd number of times.
func (o *obstacle) holds(x, y float64) bool {
	in := false
	for _, r := range o.rings {
		for k := range r {
			p, q := r[k], r[(k+1)%len(r)]
			if (p[1] > y) != (q[1] > y) && x < p[0]+(q[0]-p[0])*(y-p[1])/(q[1]-p[1]) {
				in = !in
			}
		}
	}
	return in
}

// pieceM returns the distance from a position to a straight piece, m.
func pieceM(p [2]orb.Point, x, y float64) float64 {
	dx, dy := p[1][0]-p[0][0], p[1][1]-p[0][1]
	t := 0.0
	if square := dx*dx + dy*dy; square > 0 {
		t = min(max(((x-p[0][0])*dx+(y-p[0][1])*dy)/square, 0), 1)
	}
	return math.Hypot(x-p[0][0]-t*dx, y-p[0][1]-t*dy)
}
