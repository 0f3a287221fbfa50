package hydro_test

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"

	"github.com/paulmach/orb"

	"siltstep/hydro"
	"siltstep/hydro/flow"
	"siltstep/hydro/siting"
	"siltstep/raster"
	"siltstep/raster/rastertest"
)

// bed is the column of the bed of valley.
const bed = 23

// banked is the valley at 5 % with a bank of some height across it at row 200.
func banked(heightMM int32) *raster.Grid {
	g := valley(1, 0.05)
	return rastertest.RaiseRow(g, 200, g.At(bed, 200)+heightMM)
}

// gullied is the same valley with a gully 1 m deep and 5 m wide along it, and the bank across both.
func gullied(heightMM int32) *raster.Grid {
	g := cutValley(1, 0.05)
	return rastertest.RaiseRow(g, 200, g.At(bed, 200)+heightMM)
}

// at returns the centre of a cell.
func at(g *raster.Grid, col, row int) orb.Point {
	x, y := g.Transform.Center(col, row)
	return orb.Point{x, y}
}

// box is the outline of the cells from one to another.
func box(g *raster.Grid, left, top, right, bottom int) orb.Polygon {
	nw, se := at(g, left, top), at(g, right, bottom)
	return orb.Bound{Min: orb.Point{nw[0] - 0.5, se[1] - 0.5}, Max: orb.Point{se[0] + 0.5, nw[1] + 0.5}}.ToPolygon()
}

func TestBlockagesAreTold(t *testing.T) {
	g := banked(2500)
	road := func(c *hydro.Config) { c.Flow.Features.Roads = []orb.LineString{{at(g, 0, 200), at(g, g.Cols-1, 200)}} }
	tests := []struct {
		name   string
		grid   *raster.Grid
		change func(*hydro.Config)
		kind   string
		cause  flow.Cause
		depthM float64
		says   []string // in some finding each
	}{
		// The bank of 0.9 m is inside the limits of open ground: cut to the bed, 0.9 m deep.
		{"low bank, no road", banked(900), nil, hydro.DepressionCut, flow.CauseUnknown, 0.9,
			[]string{"cut through so that water passes: 1 in depressions.geojson, likely cause unknown 1", "C01 at x 500023.5, y 3999799.5 m on D01 was cut 0.90 m deep", "flow.culverts"}},
		{"high bank, no road", g, nil, hydro.DepressionFilled, flow.CauseStockPond, 2.45,
			[]string{"F01 at", "likely cause: stock pond. Not cut: the cut would be deeper than 1 m.", "Cuts that were not made, and the ground filled instead: 1 would be deeper than 1 m"}},
		{"high bank, road", g, road, hydro.DepressionCut, flow.CauseRoadFill, 2.5,
			[]string{"likely cause road fill 1", "2.50 m deep", "Probably a culvert: go and look"}},
		{"high bank, road, cuts too short", g, func(c *hydro.Config) { road(c); c.Flow.CutLengthM, c.Flow.RoadCutLengthM = 1, 1 }, hydro.DepressionFilled, flow.CauseRoadFill, 2.45,
			[]string{"would be longer than 1 m", "Probably a culvert, or a pit: go and look, and give the culvert in flow.culverts"}},
		{"high bank, culvert", g, func(c *hydro.Config) {
			c.Flow.Features.Culverts = []orb.LineString{{at(g, bed, 198), at(g, bed, 202)}}
		}, hydro.DepressionCut, flow.CauseCulvert, 2.5, []string{"likely cause declared culvert 1", "See that the culvert is open."}},
		{"high bank, pond", g, func(c *hydro.Config) {
			c.Flow.Features.StockPonds = []orb.Polygon{box(g, bed-3, 190, bed+3, 199)}
		}, hydro.DepressionKept, flow.CauseStockPond, 2.45, []string{"declared as water and left as they are: 1", "declared stock pond with a spillway: water passes through it"}},
		// The bed falls 5 cm a row, its sides 50 cm a cell: of the valley of 41 columns all down to row 200 drains to the
		// playa there: rows 3 to 200, and of the ridges, which fall to both sides, the western one by the tie order:
		// 198 · 40 = 7,920 m². Below it 202 rows are left, so the larger drainage is that one and the upper is D02.
		{"playa", valley(1, 0.05), func(c *hydro.Config) {
			v := valley(1, 0.05)
			c.Flow.Features.Playas = []orb.Polygon{box(v, bed, 200, bed, 200)}
		}, hydro.DepressionKept, flow.CausePlaya, 0, []string{"declared playa: flow ends here, from a catchment of 0.79 ha"}},
		// A pond whose water is level in the data already: nothing to fill, still kept.
		{"pond, level in the data", valley(1, 0.05), func(c *hydro.Config) {
			v := valley(1, 0.05)
			c.Flow.Features.StockPonds = []orb.Polygon{box(v, bed, 200, bed, 200)}
		}, hydro.DepressionKept, flow.CauseStockPond, 0, []string{"its water stands level in the data"}},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			p := analyze(t, tt.grid, tt.change, nil)
			if len(p.Depressions) != 1 {
				t.Fatalf("depressions %+v, want one", p.Depressions)
			}
			d := p.Depressions[0]
			if d.Kind != tt.kind || d.Cause != tt.cause || math.Abs(d.DepthM-tt.depthM) > 1e-9 || (d.Drainage != "D01") != (d.Cause == flow.CausePlaya) {
				t.Errorf("depression %+v, want %s by %s, %g m, on D01", d, tt.kind, tt.cause, tt.depthM)
			}
			marked := false
			for _, drainage := range p.Network.Drainages {
				for _, s := range drainage.Profile.Stations {
					marked = marked || s.StockPond && s.NoBed
				}
			}
			if want := tt.cause == flow.CauseStockPond || tt.cause == flow.CausePlaya; marked != want {
				t.Errorf("stations in a stock pond or playa: %v, want %v", marked, want)
			}
			told := slices.ContainsFunc(p.Findings, func(f hydro.Finding) bool { return f.Rule == hydro.FindingWater })
			if want := tt.kind == hydro.DepressionFilled; told != want {
				t.Errorf("standing water is told: %v, want %v", told, want)
			}
			if hasLength := !math.IsNaN(d.LengthM); hasLength != (d.Kind == hydro.DepressionCut) {
				t.Errorf("length %v of a place that was %s", d.LengthM, d.Kind)
			}
			for _, s := range tt.says {
				if !slices.ContainsFunc(p.Findings, func(f hydro.Finding) bool { return strings.Contains(f.Text, s) }) {
					t.Errorf("no finding says %q: %+v", s, p.Findings)
				}
			}
		})
	}
}

// A bank of 0.9 m, which a cut might go through, with 0.89 m of water over far more than 100 m²: a bed of 1 %, sides of 5 %.
func TestLikelyPondIsToldForReview(t *testing.T) {
	g := rastertest.RaiseRow(rastertest.Valley(61, 300, 50_000, 50, 10), 200, 48_900)
	p := analyze(t, g, nil, nil)
	if len(p.Depressions) != 1 || p.Depressions[0].Kind != hydro.DepressionFilled || p.Depressions[0].Cause != flow.CauseStockPond {
		t.Fatalf("depressions %+v, want one stock pond that was filled", p.Depressions)
	}
	for _, want := range []string{"Likely stock ponds left for review (1)", "Left for review although a cut within the limits would drain it"} {
		if !slices.ContainsFunc(p.Findings, func(f hydro.Finding) bool { return strings.Contains(f.Text, want) }) {
			t.Errorf("no finding says %q: %+v", want, p.Findings)
		}
	}
	if slices.ContainsFunc(p.Findings, func(f hydro.Finding) bool { return strings.Contains(f.Text, "would be left") }) {
		t.Error("the review is told as a limit")
	}
}

// No dam on what was cut, in a pond or in its water, and no wedge into it.
func TestNoDamOnABlockage(t *testing.T) {
	g := gullied(2500)
	for name, tt := range map[string]struct {
		change func(*hydro.Config)
		rule   siting.Rule
	}{
		"cut": {func(c *hydro.Config) {
			c.Flow.Features.Roads = []orb.LineString{{at(g, 0, 200), at(g, g.Cols-1, 200)}}
		}, siting.RuleCut},
		"pond":     {func(c *hydro.Config) { c.Flow.Features.StockPonds = []orb.Polygon{box(g, bed-3, 190, bed+3, 199)} }, siting.RuleStockPond},
		"standing": {plainFillSmall, siting.RuleWater},
	} {
		t.Run(name, func(t *testing.T) {
			p := analyze(t, g, tt.change, nil)
			l := p.Layouts[0]
			found := false
			for _, r := range l.Reaches {
				for _, why := range r.Reasons {
					found = found || why.Rule == tt.rule
				}
			}
			if !found {
				t.Fatalf("no reach is left out by %q: %+v", tt.rule, l.Reaches)
			}
			if len(l.Sites) < 10 {
				t.Fatalf("only %d dams", len(l.Sites))
			}
			noBed := 0
			for i, s := range p.Network.Drainages[0].Profile.Stations {
				if !s.NoBed {
					continue
				}
				noBed++
				if !math.IsNaN(s.Slope) {
					t.Errorf("station %d: slope %v read without a bed", i, s.Slope)
				}
				for _, dam := range l.Sites {
					if dam.Cell == s.Cell || dam.StationM < s.StationM && dam.WedgeEndM > s.StationM {
						t.Errorf("dam %s at %.1f, wedge to %.1f: on or over the blockage at %.1f", dam.ID, dam.StationM, dam.WedgeEndM, s.StationM)
					}
				}
				// The bed is 5 % all along, 1 m in the ground, blockage or not: 1 mm for rounding to whole millimetres.
				col, row := g.ColRow(s.Cell)
				if want := float64(valley(1, 0.05).At(bed, row))/1000 - 1; col == bed && math.Abs(s.BedM-want) > 0.001 {
					t.Errorf("row %d: bed %.3f, want %.3f", row, s.BedM, want)
				}
			}
			if noBed == 0 {
				t.Error("every station shows a bed")
			}
		})
	}
}

// plainFillSmall is a fill of ponds too small to be taken for a stock pond: no cuts and no likely ponds.
func plainFillSmall(c *hydro.Config) { plainFill(c) }

func TestInflowIsTold(t *testing.T) {
	// The V channel cut at its head: 2 ha that drain in at the bed of the first row.
	g := rastertest.Channel(41, 400, 1, 200, 0.05, 0.5)
	open := analyze(t, g, nil, nil)
	p := analyze(t, g, func(c *hydro.Config) {
		x, y := g.Transform.Center(20, 0)
		c.Flow.Features.Inflows = []flow.Inflow{{X: x, Y: y, CatchmentM2: 20_000}}
	}, nil)
	if open.Totals.Truncated == 0 || p.Totals.Truncated >= open.Totals.Truncated+1 {
		t.Fatalf("%d truncated, %d before", p.Totals.Truncated, open.Totals.Truncated)
	}
	if got, want := p.Network.Drainages[0].CatchmentM2, open.Network.Drainages[0].CatchmentM2+20_000; got != want {
		t.Errorf("catchment %g m², want %g", got, want)
	}
	want := "Declared inflow points (1) add 2.00 ha of land outside the data"
	if !slices.ContainsFunc(p.Findings, func(f hydro.Finding) bool { return f.Rule == hydro.FindingInflow && strings.Contains(f.Text, want) }) {
		t.Errorf("no finding says %q: %+v", want, p.Findings)
	}
}

func TestDepressionIdsAreOrderedByVolume(t *testing.T) {
	p := analyze(t, rastertest.Fractal(7, 300, 300, 20_000), nil, nil)
	counts := map[string]int{}
	for i, d := range p.Depressions {
		counts[d.Kind]++
		if want := fmt.Sprintf("%s%02d", strings.ToUpper(d.Kind[:1]), counts[d.Kind]); d.ID != want {
			t.Errorf("depression %d is %s, want %s", i, d.ID, want)
		}
		if i > 0 && p.Depressions[i-1].Kind == d.Kind && p.Depressions[i-1].VolumeM3 < d.VolumeM3 {
			t.Errorf("%s is larger than the one before it", d.ID)
		}
	}
	if len(p.Depressions) < 10 {
		t.Errorf("only %d depressions", len(p.Depressions))
	}
}
