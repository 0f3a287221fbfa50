package demo

import (
	"math"
	"testing"

	"github.com/paulmach/orb"
	"github.com/paulmach/orb/planar"
)

func TestPondIsFlat(t *testing.T) {
	eachRanch(t, func(t *testing.T, r *Ranch) {
		p := r.Truth.StockPond
		want := int32(math.Round(p.LevelM * 1000))
		n := 0
		for i, z := range r.Grid.MM {
			x, y := r.Grid.CenterOf(i)
			if !p.Water.Bound().Contains(orb.Point{x, y}) || !planar.PolygonContains(p.Water, orb.Point{x, y}) {
				continue
			}
			n++
			if z != want {
				t.Fatalf("water at %.1f, %.1f is %d mm; want %d mm", x, y, z, want)
			}
		}
		cell := r.Grid.Transform.CellM
		area := float64(n) * cell * cell
		if across := 2 * math.Sqrt(area/math.Pi); across < 33 || across > 46 {
			t.Errorf("pond %.1f m across; want about 40 m", across)
		}
		f := water(t, r)
		i := busiest(r, f, p.Water[0][0], 1)
		if f.FilledMM[i] <= want {
			t.Error("the pond has no rim that would hold more water")
		}
		if f.FilledMM[i] > want+int32(pondDamTopM*1000)+50 {
			t.Errorf("water would stand at %d mm, above the dam top", f.FilledMM[i])
		}
	})
}
