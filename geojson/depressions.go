package geojson

import (
	"fmt"

	"siltstep/hydro"

	"github.com/paulmach/orb"
)

// Depressions returns the layer of places that hold water back, as they stand in the plan, each
// a point at its deepest place. Errors: the projector failed.
func Depressions(p *hydro.Plan, to Projector) (Collection, error) {
	c := Collection{Layer: DepressionsLayer()}
	at := make([]orb.Point, len(p.Depressions))
	for i, d := range p.Depressions {
		at[i] = orb.Point{d.X, d.Y}
	}
	points, err := to.Project(at)
	if err != nil {
		return Collection{}, fmt.Errorf("depressions: %w", err)
	}
	for i, pt := range points {
		c.Features = append(c.Features, Feature{Geometry: pt, Values: depressionValues(p.Depressions[i])})
	}
	return c, nil
}

// depressionValues returns the values of a depression in the order of DepressionsLayer.
func depressionValues(d hydro.Depression) []any {
	return []any{d.ID, d.Kind, string(d.Cause), d.DepthM, d.LengthM, d.AreaM2, d.VolumeM3, textOrNull(d.Drainage), d.Note}
}
