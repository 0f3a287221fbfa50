package geojson

import (
	"fmt"

	"siltstep/hydro"

	"github.com/paulmach/orb"
)

// Limits returns the layer of what was declared: the property, nil for none, then exclusions, buildings, roads, live streams and base
// levels, each in the order given. Collections are left out. Errors: the projector failed.
func Limits(p *hydro.Plan, property orb.MultiPolygon, to Projector) (Collection, error) {
	c := Collection{Layer: LimitsLayer()}
	add := func(kind string, g orb.Geometry) error {
		shape, err := to.shape(g)
		if err != nil {
			return fmt.Errorf("limits: %s: %w", kind, err)
		}
		if shape != nil {
			c.Features = append(c.Features, Feature{Geometry: shape, Values: []any{kind}})
		}
		return nil
	}
	land := p.Config.Siting.Features
	var all []error
	if len(property) > 0 {
		all = append(all, add("property", property))
	}
	for _, g := range land.Exclusions {
		all = append(all, add("exclusion", g))
	}
	for _, g := range land.Buildings {
		all = append(all, add("building", g))
	}
	for _, g := range land.Roads {
		all = append(all, add("road", g))
	}
	for _, g := range land.Streams {
		all = append(all, add("live stream", g))
	}
	for _, g := range land.BaseLevels {
		all = append(all, add("base level", g))
	}
	for _, err := range all {
		if err != nil {
			return Collection{}, err
		}
	}
	return c, nil
}

// shape projects a point, a line or polygons; nil for anything else.
func (to Projector) shape(g orb.Geometry) (orb.Geometry, error) {
	switch g := g.(type) {
	case orb.Point:
		points, err := to.Project([]orb.Point{g})
		if err != nil {
			return nil, err
		}
		return points[0], nil
	case orb.LineString:
		points, err := to.Project(g)
		if err != nil || len(points) < 2 {
			return nil, err
		}
		return orb.LineString(points), nil
	case orb.Polygon:
		return to.multiPolygon(orb.MultiPolygon{g})
	case orb.MultiPolygon:
		return to.multiPolygon(g)
	}
	return nil, nil
}
