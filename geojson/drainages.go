package geojson

import (
	"fmt"

	"siltstep/hydro"
)

// Drainages returns the layer of drainages, by catchment, each line running downstream.
// A drainage of fewer than two stations has no line and is left out; it stays in the
// plan's own list. Errors: the projector failed.
func Drainages(p *hydro.Plan, to Projector) (Collection, error) {
	c := Collection{Layer: DrainagesLayer()}
	for i := range p.Network.Drainages {
		d := &p.Network.Drainages[i]
		line := d.Profile.Line()
		if len(line) < 2 {
			continue
		}
		points, err := to.Project(line)
		if err != nil {
			return Collection{}, fmt.Errorf("drainage %s: %w", d.ID, err)
		}
		c.Features = append(c.Features, Feature{Geometry: lineString(points), Values: DrainageValues(p, i)})
	}
	return c, nil
}

// DrainageValues returns the values of a drainage in the order of DrainagesLayer. Without
// layouts in the plan, all that has to do with dams is null; without a judgement, all that
// has to do with erosion.
func DrainageValues(p *hydro.Plan, i int) []any {
	d := &p.Network.Drainages[i]
	named := map[string]any{
		"id": d.ID, "order": d.Order, "length_m": d.Profile.LengthM(), "drop_m": d.Profile.DropM(),
		"slope": d.Profile.DropM() / d.Profile.LengthM(), "catchment_ha": d.CatchmentM2 / squareMetresPerHectare,
		"truncated": d.Truncated,
	}
	if i < len(p.Erosion) {
		j := &p.Erosion[i]
		named["severity"], named["severity_class"] = j.Severity.Total, textOrNull(string(j.Severity.Class))
		named["incision_mean_m"], named["incision_max_m"], named["headcuts"] = j.Depths.MeanM, j.Depths.MaxM, CountHeadcuts(j.Headcuts)
	}
	if i < len(p.Layouts) {
		l := p.Layouts[i]
		named["eligible_m"], named["treated_m"], named["dams"] = l.EligibleM, l.TreatedM, len(l.Sites)
	}
	if i < len(p.OutletPeaksM3s) {
		named["peak_m3s"] = p.OutletPeaksM3s[i]
	}
	if i < len(p.Designs) {
		q := hydro.QuantitiesOf(p.Designs[i])
		named["rock_t"], named["pond_m3"], named["sediment_m3"], named["cost"] = q.RockT, q.PondM3, q.SedimentM3, q.Cost
	}
	return inOrder(DrainagesLayer(), named)
}

// textOrNull returns nil for an empty text.
func textOrNull(s string) any {
	if s == "" {
		return nil
	}
	return s
}
