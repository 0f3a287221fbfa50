package geojson

import (
	"fmt"

	"siltstep/hydro"
	"siltstep/hydro/erosion"

	"github.com/paulmach/orb"
)

// Headcuts returns the layer of steps in the beds, drainage by drainage, each from its lower
// end, at the lip. A plan whose erosion was not judged has none. Errors: the projector failed.
func Headcuts(p *hydro.Plan, to Projector) (Collection, error) {
	c := Collection{Layer: HeadcutsLayer()}
	var at []orb.Point
	for i, j := range p.Erosion {
		for _, h := range j.Headcuts {
			at = append(at, orb.Point{h.X, h.Y})
			c.Features = append(c.Features, Feature{Values: HeadcutValues(len(at), p.Network.Drainages[i].ID, h)})
		}
	}
	points, err := to.Project(at)
	if err != nil {
		return Collection{}, fmt.Errorf("headcuts: %w", err)
	}
	for i, pt := range points {
		c.Features[i].Geometry = pt
	}
	return c, nil
}

// HeadcutID returns the id of the n-th headcut of a plan, counted from 1: H01.
func HeadcutID(n int) string { return fmt.Sprintf("H%02d", n) }

// HeadcutValues returns the values of the n-th headcut of a plan, counted from 1, in the
// order of HeadcutsLayer.
func HeadcutValues(n int, drainage string, h erosion.Headcut) []any {
	return []any{HeadcutID(n), drainage, h.StationM, h.HeightM, h.CatchmentM2 / squareMetresPerHectare, string(h.Cause)}
}

// CountHeadcuts returns how many of the steps in a bed are headcuts: those at roads and stock
// ponds are not.
func CountHeadcuts(steps []erosion.Headcut) int {
	n := 0
	for _, h := range steps {
		if h.Cause == erosion.CauseHeadcut {
			n++
		}
	}
	return n
}
