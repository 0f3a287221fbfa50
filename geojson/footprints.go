package geojson

import (
	"fmt"

	"siltstep/hydro"

	"github.com/paulmach/orb"
)

// Footprints returns the layer of the ground that dams stand on, drainage by drainage, each from the bottom. A dam without a design
// has none. Errors: the projector failed.
func Footprints(p *hydro.Plan, to Projector) (Collection, error) {
	c := Collection{Layer: FootprintsLayer()}
	for i, l := range p.Layouts {
		for k, s := range l.Sites {
			f, ok := p.Footprint(i, k)
			if !ok {
				continue
			}
			shape, err := to.polygon(f.Ring)
			if err != nil {
				return Collection{}, fmt.Errorf("footprint of %s: %w", s.ID, err)
			}
			c.Features = append(c.Features, Feature{Geometry: shape, Values: inOrder(c.Layer, map[string]any{
				"id": s.ID, "drainage": s.Drainage, "series": s.Series, "footprint_m2": f.AreaM2, "fill_m3": f.FillM3, "pond_m2": f.PondM2,
			})})
		}
	}
	return c, nil
}

// Effects returns the layer of the ground that the work disturbs, dam by dam in the order of Footprints: works, then access and
// stockpile where roads are given. Errors: the projector failed.
func Effects(p *hydro.Plan, to Projector) (Collection, error) {
	c := Collection{Layer: EffectsLayer()}
	for i, l := range p.Layouts {
		for k, s := range l.Sites {
			for _, e := range p.Effects(i, k) {
				shape, err := to.polygon(e.Ring)
				if err != nil {
					return Collection{}, fmt.Errorf("%s of %s: %w", e.Part, s.ID, err)
				}
				c.Features = append(c.Features, Feature{Geometry: shape, Values: inOrder(c.Layer, map[string]any{
					"dam": s.ID, "drainage": s.Drainage, "part": string(e.Part), "area_m2": e.AreaM2,
				})})
			}
		}
	}
	return c, nil
}

// polygon projects one ring and sets its direction anew, anticlockwise.
func (to Projector) polygon(r orb.Ring) (orb.Geometry, error) {
	return to.multiPolygon(orb.MultiPolygon{{r}})
}
