package demo

import (
	"context"
	"math"
	"testing"

	"github.com/paulmach/orb"
	"github.com/paulmach/orb/planar"

	"siltstep/hydro/flow"
	"siltstep/raster"
)

// withRoad are the documented defaults of flow.Config, the road given and nothing else.
func withRoad(r *Ranch) flow.Config {
	return flow.Config{
		CutLengthM: 30, CutDepthM: 1, RoadCutLengthM: 60, RoadCutDepthM: 6, RoadReachM: 30,
		Features: flow.Features{Roads: []orb.LineString{r.Road}},
	}
}

// flowOver returns the flow over a grid with settings.
func flowOver(t *testing.T, g *raster.Grid, cfg flow.Config) *flow.Field {
	t.Helper()
	f, err := flow.Run(context.Background(), g, cfg, nil)
	if err != nil {
		t.Fatal(err)
	}
	return f
}

// strayM follows water from the bed above the road fill until it is past it, and returns how
// far it gets from the known line of the trench, m. Above and below are the places of the
// line at least 8 m beyond the feet of the fill: the water is past where it is as near to the
// lower of them as the search allows.
func strayM(t *testing.T, r *Ranch, f *flow.Field) float64 {
	t.Helper()
	road := r.Truth.RoadFill
	line := trenchLine(t, r, road.Trench)
	in, out := nearestPlace(line, road.CulvertInlet)-2, nearestPlace(line, road.CulvertOutlet)+2
	if in < 0 || out >= len(line) {
		t.Fatalf("trench %s has no places beyond its fill", road.Trench)
	}
	length := planar.Distance(line[in], line[out])
	most := 0.0
	for i := busiest(r, f, line[in], 2); i >= 0; i = f.Down(i) {
		x, y := r.Grid.CenterOf(i)
		p := orb.Point{x, y}
		if planar.Distance(p, line[in]) > length+10 || planar.Distance(p, line[out]) < 2.5 {
			break
		}
		most = max(most, planar.DistanceFrom(orb.LineString(line), p))
	}
	return most
}

func trenchLine(t *testing.T, r *Ranch, id string) []orb.Point {
	t.Helper()
	for _, tr := range r.Truth.Trenches {
		if tr.ID == id {
			return tr.Line
		}
	}
	t.Fatalf("no trench %s", id)
	return nil
}

// The drainage that the road crosses runs through the place of the culvert where the road
// line is given, and on the ranch of the demo it comes over the fill somewhere else where depressions are
// only filled. Its known line is met within two cells there: one for the bed's own width, one for the
// line between cell middles. Elsewhere the straight way through the fill may leave the winding bed under
// it by half the width of the crest.
func TestRoadCrossingRunsThroughTheCulvert(t *testing.T) {
	eachRanch(t, func(t *testing.T, r *Ranch) {
		isDemo := r.Truth.Seed == DefaultSeed
		within := crestWidthM / 2
		if isDemo {
			within = 2 * r.Grid.Transform.CellM
		}
		cut, filled := flowOver(t, r.Grid, withRoad(r)), flowOver(t, r.Grid, flow.Config{})
		through, over := strayM(t, r, cut), strayM(t, r, filled)
		t.Logf("water gets %.1f m from the known line with cuts, %.1f m filled alone", through, over)
		if through > within {
			t.Errorf("with cuts, water gets %.1f m from the known line; want at most %g", through, within)
		}
		if isDemo && over <= 2*within {
			t.Errorf("filled alone, water keeps within %.1f m of the known line; then the cuts show nothing", over)
		}

		// The one cut through the fill: the crest is 2.5 m above the bed below it, and the cut begins at
		// the upper foot, where the bed is up to a tenth of 9 m higher.
		road, n := r.Truth.RoadFill, 0
		side := func(i int) bool {
			x, y := r.Grid.CenterOf(i)
			return planar.Distance(orb.Point{x, y}, road.CulvertInlet) < planar.Distance(orb.Point{x, y}, road.CulvertOutlet)
		}
		for _, c := range cut.Cuts {
			if planar.Distance(orb.Point{c.X, c.Y}, road.At) > crestWidthM || !side(c.Cells[0]) || side(c.Cells[len(c.Cells)-1]) || c.LengthM < crestWidthM {
				continue
			}
			n++
			if c.Cause != flow.CauseRoadFill || c.DepthM < 1.6 || c.DepthM > 2.8 {
				t.Errorf("cut through the fill %.2f m deep, cause %q; want road fill, 1.6 to 2.8 m", c.DepthM, c.Cause)
			}
		}
		if n != 1 {
			t.Errorf("%d cuts from one foot of the road fill to the other, want 1", n)
		}
	})
}

// The stock pond declared: nothing is cut under it, and it is told as what it is, filled to the
// top of its dam.
func TestStockPondIsNotCut(t *testing.T) {
	eachRanch(t, func(t *testing.T, r *Ranch) {
		pond := r.Truth.StockPond
		cfg := withRoad(r)
		cfg.Features.StockPonds = []orb.Polygon{pond.Water}
		f := flowOver(t, r.Grid, cfg)
		shore := pond.Water.Bound()
		left, top := r.Grid.Transform.ColRow(shore.Min[0], shore.Max[1])
		right, bottom := r.Grid.Transform.ColRow(shore.Max[0], shore.Min[1])
		for row := top; row <= bottom; row++ {
			for col := left; col <= right; col++ {
				i := r.Grid.Index(col, row)
				x, y := r.Grid.CenterOf(i)
				if planar.PolygonContains(pond.Water, orb.Point{x, y}) && f.FilledMM[i] < r.Grid.MM[i] {
					t.Fatalf("the pond's bed is cut at (%.1f, %.1f)", x, y)
				}
			}
		}
		told := 0
		for _, d := range f.Depressions {
			// The known shore lies 1 m inside the water.
			if planar.DistanceFrom(pond.Water, orb.Point{d.X, d.Y}) > 2 {
				continue
			}
			told++
			if level := float64(d.LevelMM) / 1000; d.Cause != flow.CauseStockPond || math.Abs(level-pond.DamTopM) > 0.06 { // the texture's three standard deviations
				t.Errorf("the pond is told as %q at %.3f m; want a stock pond at %.3f m", d.Cause, level, pond.DamTopM)
			}
		}
		if told != 1 {
			t.Errorf("%d depressions are told at the pond, want 1", told)
		}
	})
}
