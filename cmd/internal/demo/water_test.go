package demo

import (
	"context"
	"testing"

	"siltstep/hydro/channel"
	"siltstep/hydro/flow"

	"github.com/paulmach/orb"
	"github.com/paulmach/orb/planar"
)

// water returns the flow over a ranch.
func water(t *testing.T, r *Ranch) *flow.Field {
	t.Helper()
	f, err := flow.Run(context.Background(), r.Grid, flow.Config{}, nil)
	if err != nil {
		t.Fatal(err)
	}
	return f
}

// busiest returns the cell with most land draining through it within a distance of a place.
func busiest(r *Ranch, f *flow.Field, p orb.Point, reachM float64) int {
	best := -1
	c0, r0 := r.Grid.Transform.ColRow(p[0]-reachM, p[1]+reachM)
	c1, r1 := r.Grid.Transform.ColRow(p[0]+reachM, p[1]-reachM)
	for row := r0; row <= r1; row++ {
		for col := c0; col <= c1; col++ {
			if !r.Grid.Inside(col, row) {
				continue
			}
			if i := r.Grid.Index(col, row); best < 0 || f.Cells[i] > f.Cells[best] {
				best = i
			}
		}
	}
	return best
}

func TestWaterFollowsTrenches(t *testing.T) {
	eachRanch(t, func(t *testing.T, r *Ranch) {
		f := water(t, r)
		cell := r.Grid.Transform.CellM * r.Grid.Transform.CellM
		road := r.Truth.RoadFill
		suited := 0 // trenches with places whose catchment and slope suit check dams
		for _, tr := range r.Truth.Trenches {
			fits := 0
			for _, k := range tr.MeasuredAt {
				i := busiest(r, f, tr.Line[k], 2.5)
				area := float64(f.Cells[i]) * cell
				// Half: catchments are known for the coarse ground, without floors, fill and texture.
				// Below the road fill water that has no culvert may come over beside the trench.
				spills := tr.ID == road.Trench && k > nearestPlace(tr.Line, road.At) && planar.Distance(tr.Line[k], road.At) < 50
				if area < tr.CatchmentM2[0]/2 && !f.Truncated(i) && !spills {
					t.Errorf("%s: %.0f m² drain through %v; want at least half of %.0f m²", tr.ID, area, tr.Line[k], tr.CatchmentM2[0])
				}
				slope := (tr.BedM[k-2] - tr.BedM[k+2]) / (4 * truthStepM)
				if area >= 2500 && area <= 40000 && slope >= 0.02 && slope <= 0.2 {
					fits++
				}
			}
			if fits >= 8 {
				suited++
			}
		}
		if suited < 8 {
			t.Errorf("%d trenches suit check dams; want at least 8", suited)
		}
		t.Logf("%d of %d trenches suit check dams", suited, len(r.Truth.Trenches))
	})
}

func TestMostDrainagesAreWhole(t *testing.T) {
	eachRanch(t, func(t *testing.T, r *Ranch) {
		n := channel.Build(r.Grid, water(t, r), channel.Config{StartAreaM2: 2500, MinLengthM: 30})
		truncated := 0
		for _, d := range n.Drainages {
			if d.Truncated {
				truncated++
			}
		}
		if len(n.Drainages) < 40 || 3*truncated > len(n.Drainages) {
			t.Errorf("%d of %d drainages truncated; want at most a third of at least 40", truncated, len(n.Drainages))
		}
	})
}

func TestDrainageEnters(t *testing.T) {
	eachRanch(t, func(t *testing.T, r *Ranch) {
		e := r.Truth.Entering
		if e.OutsideM2 < enterLeastM2 {
			t.Errorf("%.0f m² outside; want at least %.0f m²", e.OutsideM2, enterLeastM2)
		}
		if north := r.Grid.Transform.OriginY; e.At[1] > north || e.At[1] < north-2 {
			t.Fatalf("enters at y %.1f, not at the north edge %.1f", e.At[1], north)
		}
		f := water(t, r)
		for _, tr := range r.Truth.Trenches {
			if tr.ID != e.Trench {
				continue
			}
			k := tr.MeasuredAt[0]
			if i := busiest(r, f, tr.Line[k], 2.5); !f.Truncated(i) {
				t.Errorf("%s at %v is not truncated", tr.ID, tr.Line[k])
			}
			if bed := bedAt(r, e.At); bed < tr.BedM[k] {
				t.Errorf("bed at the edge %.2f m, below %.2f m inside", bed, tr.BedM[k])
			}
		}
		// The trench is the lowest place of the edge for 25 m to either side.
		bed := bedAt(r, e.At)
		for d := 4.0; d <= 25; d++ {
			for _, x := range []float64{e.At[0] - d, e.At[0] + d} {
				if z := groundAt(r, orb.Point{x, e.At[1]}); z < bed+0.3 {
					t.Errorf("edge at %.0f m from the trench is %.2f m, bed %.2f m", d, z, bed)
				}
			}
		}
	})
}
