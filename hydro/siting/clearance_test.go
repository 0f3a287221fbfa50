package siting

import (
	"math"
	"slices"
	"testing"

	"github.com/paulmach/orb"
	"pgregory.net/rapid"
)

// box is an upright rectangle, closed.
func box(x0, y0, x1, y1 float64) orb.Ring {
	return orb.Ring{{x0, y0}, {x1, y0}, {x1, y1}, {x0, y1}, {x0, y0}}
}

// everywhere is a frame that leaves nothing out.
var everywhere = orb.Bound{Min: orb.Point{-1e6, -1e6}, Max: orb.Point{1e6, 1e6}}

func TestDistanceToFeatures(t *testing.T) {
	ringed := orb.Polygon{box(0, 0, 10, 10), box(4, 4, 6, 6)} // 10 m wide with a hole of 2 m
	tests := []struct {
		name string
		of   orb.Geometry
		x, y float64
		want float64
	}{
		{"point", orb.Point{3, 4}, 0, 0, 5},
		{"beside a line", orb.LineString{{-10, 2}, {10, 2}}, 3, 0, 2},
		{"past the end of a line", orb.LineString{{-10, 2}, {-3, 4}}, 0, 0, 5},
		{"on a line", orb.LineString{{-10, 0}, {10, 0}}, 3, 0, 0},
		{"line of one point", orb.LineString{{3, 4}}, 0, 0, 5},
		{"outside a polygon", ringed, 13, 14, 5},
		{"inside a polygon", ringed, 2, 2, 0},
		{"in its hole", ringed, 5, 5, 1},
		{"in its hole, nearer to a side", ringed, 4.25, 5, 0.25},
		{"open ring", orb.Ring{{0, 0}, {10, 0}, {10, 10}, {0, 10}}, 2, 2, 0},
		{"open ring, beside", orb.Ring{{0, 0}, {10, 0}, {10, 10}, {0, 10}}, 12, 2, 2},
		{"open ring, beside the side that closes it", orb.Ring{{0, 0}, {10, 0}, {10, 10}, {0, 10}}, -2, 5, 2},
		{"bound", orb.Bound{Min: orb.Point{0, 0}, Max: orb.Point{1, 1}}, 0.5, 0.5, 0},
		{"points", orb.MultiPoint{{9, 9}, {0, 2}}, 0, 0, 2},
		{"lines", orb.MultiLineString{{{9, 9}, {8, 8}}, {{-1, 2}, {1, 2}}}, 0, 0, 2},
		{"polygons", orb.MultiPolygon{{box(100, 0, 110, 10)}, ringed}, -3, 5, 3},
		{"collection", orb.Collection{orb.Point{9, 9}, nil, orb.LineString{{-1, 2}, {1, 2}}}, 0, 0, 2},
		{"nothing", nil, 0, 0, math.Inf(1)},
		{"line without points", orb.LineString{}, 0, 0, math.Inf(1)},
		{"polygon without rings", orb.Polygon{}, 0, 0, math.Inf(1)},
	}
	for _, tt := range tests {
		all := gather([]orb.Geometry{tt.of}, everywhere)
		if got := all.distanceM(tt.x, tt.y); !(math.Abs(got-tt.want) < 1e-12 || got == tt.want) {
			t.Errorf("%s: %g m, want %g", tt.name, got, tt.want)
		}
	}
}

// walked returns the distance to a closed ring by walking it in small steps: no less than the true one, and at most half a step more.
func walked(r orb.Ring, stepM, x, y float64) float64 {
	least := math.Inf(1)
	for k := 1; k < len(r); k++ {
		p, q := r[k-1], r[k]
		n := math.Ceil(math.Hypot(q[0]-p[0], q[1]-p[1]) / stepM)
		for i := 0.0; i <= n; i++ {
			t := i / max(n, 1)
			least = min(least, math.Hypot(p[0]+t*(q[0]-p[0])-x, p[1]+t*(q[1]-p[1])-y))
		}
	}
	return least
}

func TestDistanceToPolygonsAlways(t *testing.T) {
	// Stars about (0, 0): inside where the radius at the angle between two corners is the larger, told by the sign of a cross product.
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(3, 12).Draw(t, "corners")
		ring := make(orb.Ring, 0, n+1)
		for k := range n {
			r := rapid.Float64Range(2, 20).Draw(t, "radius")
			sin, cos := math.Sincos(2 * math.Pi * float64(k) / float64(n))
			ring = append(ring, orb.Point{r * cos, r * sin})
		}
		ring = append(ring, ring[0])
		x, y := rapid.Float64Range(-30, 30).Draw(t, "x"), rapid.Float64Range(-30, 30).Draw(t, "y")
		inside := math.Hypot(x, y) < 0.5 // no side comes nearer to the middle than 1 m
		for k := 1; k < len(ring); k++ {
			p, q := ring[k-1], ring[k]
			if p[0]*y-p[1]*x >= 0 && x*q[1]-y*q[0] > 0 {
				inside = (q[0]-p[0])*(y-p[1])-(q[1]-p[1])*(x-p[0]) > 0
			}
		}
		got, edge := gather([]orb.Polygon{{ring}}, everywhere).distanceM(x, y), walked(ring, 0.05, x, y)
		switch {
		case edge < 1e-6: // on the edge either will do
		case inside && got != 0:
			t.Fatalf("inside, but %g m away", got)
		case !inside && (got > edge+1e-9 || got < edge-0.025):
			t.Fatalf("%g m away, walked %g m", got, edge)
		}
	})
}

func TestFeaturesFarAwayCostNothing(t *testing.T) {
	// The drainage runs from (0, 0) to (60, 0). A road of 100,000 pieces passes 10.5 m north of it, one piece of it within 10 m of its frame.
	cfg := Defaults()
	road := orb.LineString{}
	for k := range 100_000 {
		road = append(road, orb.Point{-1e6 + 10*float64(k), 500})
	}
	road = append(road, orb.Point{30, 9.5}, orb.Point{31, 500})
	cfg.Features = Features{
		Roads:     []orb.LineString{road, {{0, 300}, {60, 300}}},
		Buildings: []orb.Geometry{orb.Point{30, 30.5}, orb.Point{90.5, 0}, orb.Polygon{box(-1e3, -1e3, 1e3, 1e3), box(-900, -900, 900, 900)}},
	}
	near := surroundingsOf(drawn(60, 1, ramp(0.06)).Profile, cfg)
	if len(near.roads) != 1 || len(near.roads[0].pieces) != 2 {
		t.Errorf("of two roads %d are kept, want the two pieces that reach within 10 m", len(near.roads))
	}
	// The polygon lies around the drainage, but only its rings are kept, to tell what is inside.
	if len(near.buildings) != 1 || len(near.buildings[0].pieces) != 0 {
		t.Errorf("of three buildings %+v are kept", near.buildings)
	}
	if d := near.buildings.distanceM(30, 0); !math.IsInf(d, 1) {
		t.Errorf("in the hole of a far ring: %g m", d)
	}
}

func TestDistancesAtTheLimit(t *testing.T) {
	// The drainage lies along y = 0. Each feature is one point or line over x = 30, so far from station 30 as told.
	at := func(y float64) orb.Geometry { return orb.Point{30, y} }
	line := func(y float64) orb.LineString { return orb.LineString{{30, y}, {30, y + 100}} }
	plot := func(y float64) orb.Polygon { return orb.Polygon{box(29.5, y, 30.5, y+100)} }
	tests := []struct {
		name   string
		of     func(distM float64) Features
		limitM float64
		rule   Rule
		place  bool // keeps the dam off only
	}{
		{"building", func(m float64) Features { return Features{Buildings: []orb.Geometry{at(m)}} }, 30, RuleBuilding, false},
		{"building, a polygon", func(m float64) Features { return Features{Buildings: []orb.Geometry{plot(m)}} }, 30, RuleBuilding, false},
		{"road", func(m float64) Features { return Features{Roads: []orb.LineString{line(m)}} }, 10, RuleRoad, false},
		{"live stream", func(m float64) Features { return Features{Streams: []orb.Geometry{line(m)}} }, 10, RuleLiveStream, false},
		{"exclusion, inside or not", func(m float64) Features { return Features{Exclusions: []orb.Polygon{plot(m)}} }, 0, RuleExclusion, false},
		// Half the body of 0.3 m: (4.5·0.3 + 0.5)/2 = 0.925 m.
		{"exclusion under the body", func(m float64) Features { return Features{Exclusions: []orb.Polygon{plot(m)}} }, 0.925, RuleExclusion, true},
	}
	for _, tt := range tests {
		for _, near := range []bool{true, false} {
			cfg, distM := Defaults(), tt.limitM+0.001
			if near {
				distM = tt.limitM - 0.001
			}
			cfg.Features = tt.of(distM)
			v := judgeStations(drawn(60, 1, ramp(0.06)), 1, cfg, nil, Ground{})
			switch {
			case tt.place && near:
				if len(v.reaches) != 1 || v.stand[30] || v.off[30].Rule != tt.rule {
					t.Errorf("%s at %g m: %+v, a dam stands is %t, off by %q", tt.name, distM, v.reaches, v.stand[30], v.off[30].Rule)
				}
			case near:
				if len(v.reaches) != 3 || !slices.Equal(rulesOf(v.reaches[1].Reasons), []Rule{tt.rule}) || v.stand[30] {
					t.Errorf("%s at %g m: reaches %+v", tt.name, distM, v.reaches)
				}
			case !tt.place && tt.rule == RuleExclusion: // at the line the body still reaches in
			case len(v.reaches) != 1 || !v.stand[30]:
				t.Errorf("%s at %g m: reaches %+v, a dam stands is %t", tt.name, distM, v.reaches, v.stand[30])
			}
			if exact := judgeStations(drawn(60, 1, ramp(0.06)), 1, atLimit(tt.of(tt.limitM)), nil, Ground{}); tt.limitM > 0 && !exact.stand[30] {
				t.Errorf("%s at the limit itself is refused", tt.name)
			}
		}
	}
}

func atLimit(f Features) Config {
	cfg := Defaults()
	cfg.Features = f
	return cfg
}

func TestExclusionWithAHole(t *testing.T) {
	// Closed from 10 to 50, but for a hole from 20 to 40.
	cfg := Defaults()
	cfg.Features.Exclusions = []orb.Polygon{{box(9.7, -5, 50.3, 5), box(19.7, -5, 40.3, 5)}}
	v := judgeStations(drawn(60, 1, ramp(0.06)), 1, cfg, nil, Ground{})
	want := []struct {
		fromM, toM float64
		rules      []Rule
	}{{0, 9.5, []Rule{RuleShort}}, {9.5, 19.5, []Rule{RuleExclusion}}, {19.5, 40.5, nil}, {40.5, 50.5, []Rule{RuleExclusion}}, {50.5, 60, []Rule{RuleShort}}}
	if len(v.reaches) != len(want) {
		t.Fatalf("reaches %+v", v.reaches)
	}
	for i, w := range want {
		if r := v.reaches[i]; r.FromM != w.fromM || r.ToM != w.toM || !slices.Equal(rulesOf(r.Reasons), w.rules) {
			t.Errorf("reach %+v, want %+v", r, w)
		}
	}
	// In the hole the body of the lowest dam, 0.925 m to either side, keeps clear of what is closed: of 19.7 to 20.625 and 39.375 to 40.3.
	if v.stand[20] || !v.stand[21] || !v.stand[39] || v.stand[40] {
		t.Errorf("a dam stands at 20, 21, 39, 40: %t, %t, %t, %t", v.stand[20], v.stand[21], v.stand[39], v.stand[40])
	}
}
