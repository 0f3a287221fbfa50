package demo

import (
	"math"
	"testing"

	"github.com/paulmach/orb"
	"github.com/paulmach/orb/planar"
)

func TestRoadFill(t *testing.T) {
	eachRanch(t, func(t *testing.T, r *Ranch) {
		road := r.Truth.RoadFill
		for k := range 11 {
			s := float64(k) / 10
			p := orb.Point{lerp(road.Ends[0][0], road.Ends[1][0], s), lerp(road.Ends[0][1], road.Ends[1][1], s)}
			if s > 0.1 && s < 0.9 {
				// 0.06 m: three standard deviations of the texture.
				if z := groundAt(r, p); math.Abs(z-road.CrestM) > 0.06 {
					t.Errorf("crest %.3f m at %v; want %.3f m", z, p, road.CrestM)
				}
			}
		}
		in, out := bedAt(r, road.CulvertInlet), bedAt(r, road.CulvertOutlet)
		if in <= out {
			t.Errorf("culvert inlet %.2f m, outlet %.2f m", in, out)
		}
		above, below := planar.Distance(road.At, road.CulvertInlet), planar.Distance(road.At, road.CulvertOutlet)
		bed := (in*below + out*above) / (above + below) // on the straight from inlet to outlet
		if got := groundAt(r, road.At) - bed; math.Abs(got-2.5) > 0.2 {
			t.Errorf("crest %.2f m above the bed; want 2.5 m within 0.2 m", got)
		}
		f := water(t, r)
		i := busiest(r, f, road.CulvertInlet, 1)
		if fill := float64(f.FilledMM[i]-r.Grid.MM[i]) / 1000; fill < 1 {
			t.Errorf("only %.2f m of water would stand at the inlet", fill)
		}
		near := math.Inf(1)
		for _, p := range r.Road {
			near = min(near, math.Hypot(p[0]-road.At[0], p[1]-road.At[1]))
		}
		if near > 0.01 || len(r.Road) < 10 {
			t.Errorf("road of %d places passes %.1f m from its fill", len(r.Road), near)
		}
	})
}
