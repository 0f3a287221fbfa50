package hydro_test

import (
	"slices"
	"strings"
	"testing"

	"siltstep/hydro"
	"siltstep/hydro/flow"
	"siltstep/hydro/siting"
	"siltstep/raster"
	"siltstep/raster/rastertest"
)

func TestFindings(t *testing.T) {
	type want struct{ rule, subject, text string }
	// southOf is a property that ends 200.2 m below the northern edge of the grid.
	southOf := func(g *raster.Grid) siting.Area {
		line := g.Transform.OriginY - 200.2
		return func(_, y float64) bool { return y <= line }
	}
	hole := cutValley(1, 0.05)
	hole.MM[0] = raster.VoidMM
	pit := cutValley(1, 0.05)
	pit.MM[pit.Index(23, 200)] -= 200 // bed there 189.15; 0.15 m below the next cell down
	// wide lets dams into a gully as wide and deep as coarse cells make it.
	wide := func(c *hydro.Config) {
		c.Siting.CatchmentMaxM2, c.Siting.BedWidthMaxM, c.Siting.TopWidthMaxM = 1e8, 1000, 1000
		c.Sections.ReachM = 200
	}
	tests := []struct {
		name   string
		grid   *raster.Grid
		change func(*hydro.Config)
		inside func(*raster.Grid) siting.Area
		want   []want // beyond the two that are always there, and those of erosion and of dams in general
	}{
		{"fine and whole", cutValley(1, 0.05), nil, nil, nil},
		{"deposit", cutValley(1, 0.05), func(c *hydro.Config) { c.Siting.DepositRatio = 0.5 }, nil,
			[]want{{hydro.FindingDeposit, "", "0.5 of the bed slope"}}},
		{"cells of 3 m", cutValley(3, 0.05), wide, nil,
			[]want{{hydro.FindingCoarse, "", "Cells of 3 m blur"}}},
		{"cells of 20 m", cutValley(20, 0.05), nil, nil,
			[]want{{hydro.FindingCoarse, "", "Cells of 20 m can screen drainages but cannot site check dams, so none is sited"}}},
		{"cells of 6 m allowed", cutValley(6, 0.05), func(c *hydro.Config) { wide(c); c.Siting.AllowCoarse = true }, nil,
			[]want{{hydro.FindingCoarse, "", "laid out all the same"}}},
		{"a hole", hole, nil, nil, []want{{hydro.FindingVoids, "", "1 of 18941 cells"}}}, // 47 · 403 = 18,941
		{"small grid", rastertest.Channel(20, 20, 1, 100, 0.05, 0.5), nil, nil,
			[]want{{hydro.FindingNoDrainage, "", "the largest catchment is 0.04 ha, a channel begins at 0.25 ha"}}}, // 400 m²
		{"too flat", cutValley(1, 0.01), nil, nil, []want{{hydro.FindingNoReach, "", "slope "}}},
		// The V channel cut at its head: the bed's own cell on the northern edge lets water in.
		{"cut head", trenched(rastertest.Channel(41, 400, 1, 200, 0.05, 0.5), 20), nil, nil,
			[]want{{hydro.FindingTruncated, "D01", "Water enters the catchment of D01"}}},
		{"cut head, edge closed", trenched(rastertest.Channel(41, 400, 1, 200, 0.05, 0.5), 20), func(c *hydro.Config) { c.Flow.Edge = flow.EdgeClosed }, nil,
			[]want{{hydro.FindingEdge, "", "The edge is declared closed"}}},
		// Bed 189.15 at row 200, crest 191.65: 2.45 m deep at row 199. Row 402 is station 0, so row 199 is
		// station 203. The bed of row r lies 0.05·(r − 150) m under the crest: more than 0.05 m from row
		// 152 on, station 250.
		{"road fill of 2.5 m", rastertest.RaiseRow(cutValley(1, 0.05), 200, 191_650), nil, nil,
			[]want{{hydro.FindingDepressions, "", "1 in depressions.geojson, likely cause stock pond 1 "},
				{hydro.FindingDepressions, "D01", "2.45 m deep"}, {hydro.FindingLimits, "", "1 would be deeper than 1 m"},
				{hydro.FindingWater, "D01", "from station 202.5 to 250.5 m, up to 2.45 m deep at 203.0 m"}}},
		// With no cuts 2.45 m is the same water, and nothing was refused.
		{"road fill of 2.5 m, filled alone", rastertest.RaiseRow(cutValley(1, 0.05), 200, 191_650), plainFill, nil,
			[]want{{hydro.FindingDepressions, "", "water back, filled: 1 in"}, {hydro.FindingDepressions, "D01", "2.45 m deep"},
				{hydro.FindingWater, "D01", "up to 2.45 m deep at 203.0 m"}}},
		{"a pit of one cell", pit, nil, nil, []want{{hydro.FindingCuts, "", "1 of a few cells or centimetres"}}},
		{"a pit of one cell, filled alone", pit, plainFill, nil,
			[]want{{hydro.FindingDepressions, "", "1 of a few cells or centimetres"}, {hydro.FindingPools, "", "pools: 1, drainages: 1"}}},
		{"property line", cutValley(1, 0.05), nil, southOf, []want{{hydro.FindingProperty, "D01", "property line"}}},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			var inside siting.Area
			if tt.inside != nil {
				inside = tt.inside(tt.grid)
			}
			p := analyze(t, tt.grid, tt.change, inside)
			for _, rule := range ofDams {
				if has(p, rule) != (p.Totals.Dams > 0) {
					t.Errorf("%d dams, finding %q %t", p.Totals.Dams, rule, has(p, rule))
				}
			}
			got := p.Findings
			always := []string{hydro.FindingRain, hydro.FindingSurroundings}
			for i, rule := range always {
				if got[i].Rule != rule {
					t.Fatalf("finding %d is %q, want %q", i, got[i].Rule, rule)
				}
			}
			got = slices.DeleteFunc(got[len(always):], func(f hydro.Finding) bool { return ofErosion(f) || slices.Contains(ofDams, f.Rule) })
			if len(got) != len(tt.want) {
				t.Fatalf("findings %+v, want %+v", got, tt.want)
			}
			for i, w := range tt.want {
				if got[i].Rule != w.rule || got[i].Subject != w.subject || !strings.Contains(got[i].Text, w.text) {
					t.Errorf("finding %+v, want %+v", got[i], w)
				}
			}
		})
	}
}

// ofDams are the rules of findings that come with any dam where no price and no yield is given.
var ofDams = []string{hydro.FindingRecalled, hydro.FindingPrices}

// ofErosion holds for the findings of the screen, which are tested on judgements made by hand.
func ofErosion(f hydro.Finding) bool {
	rules := []string{hydro.FindingShear, hydro.FindingSections, hydro.FindingUnjudged, hydro.FindingSteady, hydro.FindingMeasures, hydro.FindingSound}
	return slices.Contains(rules, f.Rule)
}

// plainFill turns cuts off.
func plainFill(c *hydro.Config) { c.Flow.CutLengthM, c.Flow.RoadCutLengthM = 0, 0 }

func TestFindingsCiteKnownSources(t *testing.T) {
	p := analyze(t, cutValley(1, 0.05), func(c *hydro.Config) { c.Siting.DepositRatio = 0.5 }, nil)
	for _, f := range p.Findings {
		known := slices.ContainsFunc(hydro.Sources(), func(s hydro.Source) bool { return s.Key == f.Source })
		if f.Source != "" && !known {
			t.Errorf("%s cites %q", f.Rule, f.Source)
		}
	}
}

func TestEdgeSpillIsTold(t *testing.T) {
	// A bank across the V valley higher than its head: the water backs up and leaves over the northern edge.
	g := rastertest.RaiseRow(rastertest.Valley(21, 30, 50_000, 500, 50), 15, 53_000)
	p := analyze(t, g, nil, nil)
	if !slices.ContainsFunc(p.Findings, func(f hydro.Finding) bool { return f.Rule == hydro.FindingEdgeSpill }) {
		t.Errorf("findings %+v", p.Findings)
	}
}
