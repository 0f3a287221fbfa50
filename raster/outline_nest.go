package raster

import (
	"image"

	"github.com/paulmach/orb"
)

// nestRings puts each hole into the smallest outer ring around it and turns half cells
// into map coordinates. Outer rings keep their order, and holes theirs.
func nestRings(rings []ring, t Transform) orb.MultiPolygon {
	var outers []int
	var polygons orb.MultiPolygon
	for i, r := range rings {
		if r.area2 > 0 {
			outers = append(outers, i)
			polygons = append(polygons, orb.Polygon{r.onMap(t)})
		}
	}
	for _, r := range rings {
		if r.area2 > 0 {
			continue
		}
		best := 0
		for k, i := range outers {
			if len(outers) > 1 && rings[i].holds(r.at[0]) && (!rings[outers[best]].holds(r.at[0]) || rings[i].area2 < rings[outers[best]].area2) {
				best = k
			}
		}
		polygons[best] = append(polygons[best], r.onMap(t))
	}
	return polygons
}

// holds reports whether a point lies inside the ring, by counting crossings to its west.
// The point is never on the ring: rings do not touch.
func (r ring) holds(p image.Point) bool {
	inside := false
	a := r.at[len(r.at)-1]
	for _, b := range r.at {
		if (a.Y > p.Y) != (b.Y > p.Y) {
			cross := int64(b.X-a.X)*int64(p.Y-a.Y) - int64(p.X-a.X)*int64(b.Y-a.Y)
			if (cross < 0) == (b.Y > a.Y) {
				inside = !inside
			}
		}
		a = b
	}
	return inside
}

// onMap returns the ring closed, in map coordinates.
func (r ring) onMap(t Transform) orb.Ring {
	out := make(orb.Ring, 0, len(r.at)+1)
	for _, p := range r.at {
		out = append(out, orb.Point{t.OriginX + float64(p.X)/2*t.CellM, t.OriginY - float64(p.Y)/2*t.CellM})
	}
	return append(out, out[0])
}
