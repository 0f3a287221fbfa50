package flow_test

import (
	"context"
	"math"
	"slices"
	"testing"

	"github.com/paulmach/orb"

	"siltstep/hydro/flow"
	"siltstep/raster"
	"siltstep/raster/rastertest"
)

// conditioning returns the defaults as they are documented: cuts on, nothing declared.
func conditioning() flow.Config {
	return flow.Config{CutLengthM: 30, CutDepthM: 1, RoadCutLengthM: 60, RoadCutDepthM: 6, RoadReachM: 30}
}

// conditioned is flow.Run with settings, which must not fail.
func conditioned(t fataler, g *raster.Grid, cfg flow.Config) *flow.Field {
	t.Helper()
	f, err := flow.Run(context.Background(), g, cfg, nil)
	if err != nil {
		t.Fatalf("run: %v", err)
	}
	return f
}

// bedOf is the V valley of 21 columns and 100 rows on whose bed, column 10, water runs south:
// bed 50 - 0.05·row, sides 0.5, metres.
const (
	bedCol  = 10
	bedRows = 100
)

// bankedValley returns that valley with banks across some rows, each crestMM above the bed
// of its own row.
func bankedValley(crestMM int32, rows ...int) *raster.Grid {
	g := rastertest.Valley(21, bedRows, 50_000, 500, 50)
	for _, row := range rows {
		rastertest.RaiseRow(g, row, bedMM(row)+crestMM)
	}
	return g
}

// bedMM is the bed of a row of the valley.
func bedMM(row int) int32 { return 50_000 - 50*int32(row) }

// withBed returns a copy of a valley with the bed as it was before any bank at some rows.
func withBed(g *raster.Grid, rows ...int) *raster.Grid {
	out := *g
	out.MM = slices.Clone(g.MM)
	for _, row := range rows {
		out.MM[out.Index(bedCol, row)] = bedMM(row)
	}
	return &out
}

// placeOf returns the middle of a cell on the map.
func placeOf(g *raster.Grid, col, row int) orb.Point {
	x, y := g.Transform.Center(col, row)
	return orb.Point{x, y}
}

// roadAlong returns a road line through the middles of the cells of a row.
func roadAlong(g *raster.Grid, row int) []orb.LineString {
	return []orb.LineString{{placeOf(g, 0, row), placeOf(g, g.Cols-1, row)}}
}

// rectangle returns the polygon of the cells from (left, top) to (right, bottom), their
// outer edges.
func rectangle(g *raster.Grid, left, top, right, bottom int) orb.Polygon {
	h := g.Transform.CellM / 2
	nw, se := placeOf(g, left, top), placeOf(g, right, bottom)
	w, n, e, s := nw[0]-h, nw[1]+h, se[0]+h, se[1]-h
	return orb.Polygon{{{w, s}, {e, s}, {e, n}, {w, n}, {w, s}}}
}

// A bank across row 60 with its crest at 48.50, bed 47.00: the cut at the bed is 1.5 deep
// and makes the same water as the gap that a person would dig, in whichever way it comes.
// Above it 60·21 = 1260 cells; in it and from its two neighbours on the crest 3 more; below it
// 62·21 = 1302.
func TestBankIsCutToItsBed(t *testing.T) {
	const row = 60
	g := bankedValley(1500, row)
	gap := withBed(g, row)
	line := func(rows ...int) flow.Config {
		cfg := conditioning()
		var culvert orb.LineString
		for _, r := range rows {
			culvert = append(culvert, placeOf(g, bedCol, r))
		}
		cfg.Features.Culverts = []orb.LineString{culvert}
		return cfg
	}
	road, deep := conditioning(), conditioning()
	road.Features.Roads = roadAlong(g, row)
	deep.CutDepthM = 2
	tests := []struct {
		name  string
		cfg   flow.Config
		cause flow.Cause // empty: not said here
	}{
		{"culvert as a place on the fill", line(60), flow.CauseCulvert},
		{"culvert from inlet to outlet", line(59, 61), flow.CauseCulvert},
		{"culvert of three vertices", line(59, 60, 61), flow.CauseCulvert},
		{"road line", road, flow.CauseRoadFill},
		{"deeper cuts in open ground", deep, ""},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			f := conditioned(t, g, tt.cfg)
			sameCells(t, "filled", g, f.FilledMM, gap.MM)
			for _, a := range []at{{59, bedCol, 1260}, {60, bedCol, 1263}, {61, bedCol, 1302}} {
				a.check(t, g, f)
			}
			if len(f.Depressions) != 0 {
				t.Errorf("depressions left: %+v", f.Depressions)
			}
			if len(f.Cuts) != 1 {
				t.Fatalf("%d cuts, want 1: %+v", len(f.Cuts), f.Cuts)
			}
			cut := f.Cuts[0]
			if want := []int{g.Index(bedCol, 59), g.Index(bedCol, 60), g.Index(bedCol, 61)}; !slices.Equal(cut.Cells, want) {
				t.Errorf("cut through cells %v, want %v", cut.Cells, want)
			}
			// 1.5 m deep in one cell of 1 m², two steps of 1 m.
			x, y := g.Transform.Center(bedCol, row)
			if !nearly(cut.DepthM, 1.5) || !nearly(cut.LengthM, 2) || !nearly(cut.VolumeM3, 1.5) || cut.X != x || cut.Y != y {
				t.Errorf("cut %+v, want 1.5 m deep at (%g, %g), 2 m long, 1.5 m³", cut, x, y)
			}
			if tt.cause != "" && cut.Cause != tt.cause {
				t.Errorf("cause %q, want %q", cut.Cause, tt.cause)
			}
		})
	}
}

// nearly reports whether two figures made of a few whole millimetres are the same but for the
// rounding of floating point.
func nearly(a, b float64) bool { return math.Abs(a-b) < 1e-9 }

// The same bank where a cut is not allowed: it is filled as without cuts, 45.25 m³ in 85
// cells, 1.45 deep before the bank, and the reason is said.
func TestCutNotAllowedIsSaid(t *testing.T) {
	const row = 60
	g := bankedValley(1500, row)
	deep := func(change func(*flow.Config)) flow.Config {
		cfg := conditioning()
		change(&cfg)
		return cfg
	}
	tests := []struct {
		name, why string
		cfg       flow.Config
	}{
		{"deeper than the default", "deeper than 1 m", conditioning()},
		// The line is a cut of 2 m, to the first lower cell.
		{"longer", "longer than 1.5 m", deep(func(c *flow.Config) { c.CutLengthM, c.CutDepthM = 1.5, 2 })},
		{"road, deeper", "deeper than 1.2 m", deep(func(c *flow.Config) {
			c.RoadCutDepthM, c.Features.Roads = 1.2, roadAlong(g, row)
		})},
		{"road, longer", "longer than 1.5 m", deep(func(c *flow.Config) {
			c.CutLengthM, c.RoadCutLengthM, c.Features.Roads = 1.5, 1.5, roadAlong(g, row)
		})},
		{"road out of reach", "deeper than 1 m", deep(func(c *flow.Config) { c.Features.Roads = roadAlong(g, 95) })},
		{"cuts off", "", flow.Config{}},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			f := conditioned(t, g, tt.cfg)
			sameField(t, "against filling alone", g, f, run(t, g, 1))
			if len(f.Cuts) != 0 {
				t.Errorf("cuts %+v, want none", f.Cuts)
			}
			if len(f.Depressions) != 1 {
				t.Fatalf("%d depressions, want 1: %+v", len(f.Depressions), f.Depressions)
			}
			d := f.Depressions[0]
			deepest := g.Index(bedCol, row-1)
			x, y := g.CenterOf(deepest)
			if d.Cell != deepest || d.X != x || d.Y != y || d.LevelMM != 48_500 || d.Cells != 85 ||
				!nearly(d.DepthM, 1.45) || !nearly(d.AreaM2, 85) || !nearly(d.VolumeM3, 45.25) {
				t.Errorf("depression %+v, want cell %d at (%g, %g), level 48500, 85 cells of 1 m², 1.45 m, 45.25 m³", d, deepest, x, y)
			}
			if d.Why != tt.why {
				t.Errorf("why %q, want %q", d.Why, tt.why)
			}
			if _, r := g.ColRow(d.SpillCell); r != row || g.MM[d.SpillCell] != 48_500 {
				t.Errorf("spills at row %d, level %d; want the crest on row %d", r, g.MM[d.SpillCell], row)
			}
		})
	}
}

// A road widens the limits as far as it reaches and no farther: a bank 1.5 m high stands
// on row 60, the road runs some rows below it.
func TestRoadReach(t *testing.T) {
	const row = 60
	g := bankedValley(1500, row)
	tests := []struct {
		name   string
		away   int // rows from the bank to the road
		reachM float64
		cut    bool
	}{
		{"on the bank", 0, 30, true},
		{"on the bank, no reach beyond it", 0, 0.5, true},
		{"near by", 5, 10, true},
		{"beyond its reach", 15, 10, false},
		{"beyond the reach of the default", 35, 30, false},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			cfg := conditioning()
			cfg.RoadReachM, cfg.Features.Roads = tt.reachM, roadAlong(g, row+tt.away)
			f := conditioned(t, g, cfg)
			if cut := len(f.Cuts) == 1 && len(f.Depressions) == 0; cut != tt.cut {
				t.Errorf("%d cuts, %d depressions; want cut %v", len(f.Cuts), len(f.Depressions), tt.cut)
			}
		})
	}
}

// Banks that the defaults may cut in open ground: each is cut to the bed that was there, so
// that the valley drains as with gaps dug on the bed.
func TestBanksInOpenGround(t *testing.T) {
	tests := []struct {
		name    string
		g       *raster.Grid
		rows    []int // rows whose bed is laid bare
		cuts    int
		lengthM float64
		depthM  float64 // deepest of all cuts
		m3      float64 // of all cuts
		cells   []at
	}{
		{"one bank", bankedValley(900, 60), []int{60}, 1, 2, 0.9, 0.9, []at{{60, bedCol, 1263}, {61, bedCol, 1302}}},
		// On row 30: 30·21 + 3 = 633; below it 32·21 = 672.
		{"two banks in a row", bankedValley(900, 30, 60), []int{30, 60}, 2, 2, 0.9, 1.8,
			[]at{{30, bedCol, 633}, {31, bedCol, 672}, {60, bedCol, 1263}, {61, bedCol, 1302}}},
		// Rows 60 to 62, crest 47.8 level: from 47.05 on row 59 to 46.85 on row 63 by 0.05 a cell;
		// 0.80, 0.85, 0.90 deep, 2.55 m³ together. The sides of row 60 from 48.00 up fall back to row 59 more
		// steeply than on along the crest: 9 cells a side, so 60·21 + 18 = 1278 there.
		{"bank three cells wide", rastertest.RaiseRow(rastertest.RaiseRow(bankedValley(800, 60), 61, 47_800), 62, 47_800),
			[]int{60, 61, 62}, 1, 4, 0.9, 2.55, []at{{59, bedCol, 1278}, {99, bedCol, 2100}}},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			f := conditioned(t, tt.g, conditioning())
			sameCells(t, "filled", tt.g, f.FilledMM, withBed(tt.g, tt.rows...).MM)
			for _, a := range tt.cells {
				a.check(t, tt.g, f)
			}
			if len(f.Cuts) != tt.cuts || len(f.Depressions) != 0 {
				t.Fatalf("%d cuts, %d depressions; want %d and none", len(f.Cuts), len(f.Depressions), tt.cuts)
			}
			depthM, m3 := 0.0, 0.0
			for _, c := range f.Cuts {
				depthM, m3 = max(depthM, c.DepthM), m3+c.VolumeM3
				if !nearly(c.LengthM, tt.lengthM) {
					t.Errorf("cut of %g m, want %g", c.LengthM, tt.lengthM)
				}
			}
			if !nearly(depthM, tt.depthM) || !nearly(m3, tt.m3) {
				t.Errorf("cuts %g m deep of %g m³, want %g and %g", depthM, m3, tt.depthM, tt.m3)
			}
		})
	}
}

// A pit of one cell, 0.3 deep, on the bed behind the bank. The road lets the bank be cut and
// both drain; without it the water stands over both, and they are one depression.
func TestPitInsideAPit(t *testing.T) {
	const row = 60
	g := bankedValley(1500, row)
	g.MM[g.Index(bedCol, 50)] -= 300
	road := conditioning()
	road.Features.Roads = roadAlong(g, row)
	drained := conditioned(t, g, road)
	for i, z := range g.MM {
		if drained.FilledMM[i] > z {
			t.Errorf("cell %d is filled from %d to %d", i, z, drained.FilledMM[i])
		}
	}
	if len(drained.Depressions) != 0 {
		t.Errorf("depressions left: %+v", drained.Depressions)
	}
	at{61, bedCol, 1302}.check(t, g, drained)

	stands := conditioned(t, g, conditioning())
	sameCells(t, "filled without a road", g, stands.FilledMM, run(t, g, 1).FilledMM)
	if len(stands.Depressions) != 1 {
		t.Fatalf("%d depressions, want 1: %+v", len(stands.Depressions), stands.Depressions)
	}
	// The deepest place is the bed before the bank, 47.05; the pit is at 47.50 - 0.30.
	if d := stands.Depressions[0]; d.LevelMM != 48_500 || d.Cells != 85 || !nearly(d.DepthM, 1.45) || d.Cell != g.Index(bedCol, 59) {
		t.Errorf("depression %+v, want 85 cells to 48500, 1.45 m deep on row 59", d)
	}
}

// V valley of 30 rows with a crest of 53 m on row 15: 6.25 m³ stand behind it in 22 cells
// and leave over the northern border, where a drainage may be cut short. That is told with
// cuts on too, be it over a fill or over a cut, and both ends gather 15·21 = 315 cells. Within
// reach of a road the crest is cut and nothing leaves to the north.
func TestBankThatSpillsOverTheBorder(t *testing.T) {
	g := rastertest.RaiseRow(rastertest.Valley(21, 30, 50_000, 500, 50), 15, 53_000)
	t.Run("open ground", func(t *testing.T) {
		f := conditioned(t, g, conditioning())
		if !slices.Equal(f.EdgeSpills, []int{bedCol}) {
			t.Errorf("spills %v, want the bed of row 0", f.EdgeSpills)
		}
		at{0, bedCol, 315}.check(t, g, f)
		at{29, bedCol, 315}.check(t, g, f)
	})
	t.Run("filling alone", func(t *testing.T) {
		f := conditioned(t, g, flow.Config{})
		if len(f.Depressions) != 1 || f.Depressions[0].Cells != 22 || !nearly(f.Depressions[0].VolumeM3, 6.25) || f.Depressions[0].SpillCell != bedCol {
			t.Errorf("depressions %+v, want 6.25 m³ in 22 cells that spill at row 0", f.Depressions)
		}
	})
	t.Run("road on the crest", func(t *testing.T) {
		cfg := conditioning()
		cfg.Features.Roads = roadAlong(g, 15)
		f := conditioned(t, g, cfg)
		if len(f.EdgeSpills) != 0 || len(f.Depressions) != 0 || len(f.Cuts) != 1 {
			t.Errorf("spills %v, depressions %v, cuts %v; want one cut alone", f.EdgeSpills, f.Depressions, f.Cuts)
		}
		at{29, bedCol, 630}.check(t, g, f)
	})
}
