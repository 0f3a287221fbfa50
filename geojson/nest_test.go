package geojson

import (
	"testing"

	"siltstep/hydro/channel"

	"pgregory.net/rapid"
)

// Slow twin: a drainage belongs to a catchment if walking down from it comes by.
func TestNestingIsARunOfLabels(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(1, 30).Draw(t, "drainages")
		drainages := make([]channel.Drainage, n)
		for i := range drainages { // each joins a larger one, which comes before it, or none
			drainages[i].Into = rapid.IntRange(-1, i-1).Draw(t, "into")
		}
		nesting := nesting(drainages)
		for i := range drainages {
			lo, hi := nesting.run(i)
			for k := range drainages {
				at := k
				for at >= 0 && at != i {
					at = drainages[at].Into
				}
				if l := int32(nesting.label[k]); (l >= lo && l <= hi) != (at == i) {
					t.Fatalf("drainage %d has label %d; catchment of %d is %d to %d", k, l, i, lo, hi)
				}
			}
		}
	})
}
