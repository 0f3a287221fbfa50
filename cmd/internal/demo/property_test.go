package demo

import (
	"testing"

	"github.com/paulmach/orb"
	"github.com/paulmach/orb/planar"
)

// nearestPlace returns the position in a line of the place nearest to p.
func nearestPlace(line []orb.Point, p orb.Point) int {
	best := 0
	for k, q := range line {
		if planar.Distance(q, p) < planar.Distance(line[best], p) {
			best = k
		}
	}
	return best
}

func TestPropertyCutsACatchment(t *testing.T) {
	eachRanch(t, func(t *testing.T, r *Ranch) {
		ring := r.Property[0]
		if ring.Orientation() != orb.CCW || !ring.Closed() {
			t.Error("the ring is not counterclockwise and closed")
		}
		c := r.Truth.Property
		if d := planar.DistanceFrom(ring, c.At); d > 0.01 {
			t.Errorf("the crossing lies %.2f m from the property line", d)
		}
		for _, tr := range r.Truth.Trenches {
			if tr.ID != c.Trench {
				continue
			}
			k := nearestPlace(tr.Line, c.At)
			if planar.RingContains(ring, tr.Line[k-3]) == planar.RingContains(ring, tr.Line[k+3]) {
				t.Errorf("%s does not cross the line at %v", tr.ID, c.At)
			}
		}
		if !planar.RingContains(ring, r.Truth.RoadFill.At) || !planar.RingContains(ring, r.Truth.StockPond.Water[0][0]) {
			t.Error("road fill or stock pond lies off the property")
		}
	})
}
