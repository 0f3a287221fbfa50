package geojson

import (
	"fmt"

	"github.com/paulmach/orb"
)

// Projector turns positions of the grid (m) into WGS 84 longitude and latitude (degrees),
// one for one and in order. It must not change what it is given.
type Projector func([]orb.Point) ([]orb.Point, error)

// Project runs a batch and checks that none got lost; no positions give none. Errors name
// what failed.
func (to Projector) Project(points []orb.Point) ([]orb.Point, error) {
	if len(points) == 0 {
		return nil, nil
	}
	out, err := to(points)
	if err != nil {
		return nil, fmt.Errorf("to longitude and latitude: %w", err)
	}
	if len(out) != len(points) {
		return nil, fmt.Errorf("to longitude and latitude: %d positions in, %d out", len(points), len(out))
	}
	return out, nil
}

// multiPolygon projects every ring and sets its direction anew: outer rings
// anticlockwise, holes clockwise. One polygon alone comes back as a Polygon.
func (to Projector) multiPolygon(mp orb.MultiPolygon) (orb.Geometry, error) {
	out := make(orb.MultiPolygon, len(mp))
	for i, p := range mp {
		for k, r := range p {
			points, err := to.Project(r)
			if err != nil {
				return nil, err
			}
			turned := orb.Ring(points)
			if (turned.Orientation() == orb.CCW) != (k == 0) {
				turned.Reverse()
			}
			out[i] = append(out[i], turned)
		}
	}
	if len(out) == 1 {
		return out[0], nil
	}
	return out, nil
}
