package flow_test

import (
	"context"
	"errors"
	"reflect"
	"slices"
	"strings"
	"testing"

	"github.com/paulmach/orb"

	"siltstep/hydro/flow"
	"siltstep/raster"
	"siltstep/raster/rastertest"
)

// The limits of cuts where the user gives none.
func TestDefaultLimits(t *testing.T) {
	if got := flow.Defaults(); !reflect.DeepEqual(got, conditioning()) {
		t.Errorf("defaults %+v, want %+v", got, conditioning())
	}
}

// Cancelling while cuts are sought stops the run.
func TestCancelledWhileCutting(t *testing.T) {
	ctx, cancel := context.WithCancel(context.Background())
	defer cancel()
	_, err := flow.Run(ctx, rastertest.Random(1, 400, 400, 1000), conditioning(), func(stage string) {
		if stage == "cuts" {
			cancel()
		}
	})
	if !errors.Is(err, context.Canceled) {
		t.Errorf("got %v, want it to wrap context.Canceled", err)
	}
}

// A culvert line is at most 60 m long; a longer one is named. Of two lines down the valley,
// 40 and 75 m, the second is at fault.
func TestCulvertTooLongIsNamed(t *testing.T) {
	g := bankedValley(1500, 60)
	cfg := conditioning()
	cfg.Features.Culverts = []orb.LineString{
		{placeOf(g, bedCol, 40), placeOf(g, bedCol, 80)},
		{placeOf(g, bedCol, 10), placeOf(g, bedCol, 50), placeOf(g, bedCol, 85)},
	}
	_, err := flow.Run(context.Background(), g, cfg, nil)
	if err == nil {
		t.Fatal("a culvert of 75 m: want an error")
	}
	for _, part := range []string{"culvert", "2", "75", "60 m"} {
		if !strings.Contains(err.Error(), part) {
			t.Errorf("error %q does not say %q", err, part)
		}
	}
	cfg.Features.Culverts = cfg.Features.Culverts[:1]
	if _, err := flow.Run(context.Background(), g, cfg, nil); err != nil {
		t.Errorf("a culvert of 40 m: %v", err)
	}
	cfg.Features.Culverts = []orb.LineString{{placeOf(g, bedCol, 20), placeOf(g, bedCol, 80)}}
	if _, err := flow.Run(context.Background(), g, cfg, nil); err != nil {
		t.Errorf("a culvert of just 60 m: %v", err)
	}
}

// A culvert is known, so it is cut where cuts in open ground are off, and deeper than they
// may go.
func TestCulvertNeedsNoLimits(t *testing.T) {
	g := bankedValley(1500, 60)
	f := conditioned(t, g, flow.Config{Features: flow.Features{
		Culverts: []orb.LineString{{placeOf(g, bedCol, 59), placeOf(g, bedCol, 61)}},
	}})
	sameCells(t, "filled", g, f.FilledMM, withBed(g, 60).MM)
}

// A bank 0.9 m high would be cut. Behind it a stock pond is declared, on the ground that is
// wet, rows 43 to 59: it stays full and water passes over the bank as with filling alone.
func TestStockPondIsKept(t *testing.T) {
	const row = 60
	g := bankedValley(900, row)
	pond := rectangle(g, bedCol-1, 43, bedCol+1, 59)
	road := roadAlong(g, row)
	tests := []struct {
		name  string
		roads []orb.LineString
		ponds []orb.Polygon
		kept  bool
	}{
		{"not declared", nil, nil, false},
		{"declared", nil, []orb.Polygon{pond}, true},
		{"declared, its bank a road", road, []orb.Polygon{pond}, true},
		{"with its bank", nil, []orb.Polygon{rectangle(g, bedCol-3, 40, bedCol+3, row)}, true},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			cfg := conditioning()
			cfg.Features.Roads, cfg.Features.StockPonds = tt.roads, tt.ponds
			f := conditioned(t, g, cfg)
			if !tt.kept {
				if len(f.Cuts) != 1 {
					t.Errorf("%d cuts, want 1: the bank may be cut", len(f.Cuts))
				}
				return
			}
			sameField(t, "against filling alone", g, f, run(t, g, 1))
			if len(f.Cuts) != 0 {
				t.Errorf("cuts %+v, want none", f.Cuts)
			}
			if len(f.Depressions) != 1 || f.Depressions[0].Cause != flow.CauseStockPond || f.Depressions[0].LevelMM != 47_900 {
				t.Errorf("depressions %+v, want one stock pond at 47900", f.Depressions)
			}
			at{61, bedCol, 1302}.check(t, g, f)
		})
	}
}

// A pit beside a stock pond may not be drained through it. Without a pond, cuts of 0.5 m take
// the hollow of 3.9 out to the east, 0.47 deep, and the pit of 4.2 into it, 0.45 deep.
func TestNoCutThroughAStockPond(t *testing.T) {
	row := []int32{0, 5000, 4200, 4500, 3900, 3900, 4300, 3800}
	wall := slices.Repeat([]int32{20_000}, len(row))
	g := rastertest.Of(wall, row, wall)
	cfg := flow.Config{CutLengthM: 30, CutDepthM: 0.5}
	if f := conditioned(t, g, cfg); len(f.Cuts) != 2 {
		t.Fatalf("without a pond: %d cuts, want 2", len(f.Cuts))
	}
	cfg.Features.StockPonds = []orb.Polygon{rectangle(g, 4, 1, 5, 1)}
	f := conditioned(t, g, cfg)
	for _, c := range f.Cuts {
		for _, i := range c.Cells {
			if col, _ := g.ColRow(i); (col == 4 || col == 5) && i != c.Cells[len(c.Cells)-1] {
				t.Errorf("cut %v runs through the pond", c.Cells)
			}
		}
	}
	for _, col := range []int{4, 5} {
		if z := f.FilledMM[g.Index(col, 1)]; z < 3900 {
			t.Errorf("the pond's bed in column %d is lowered to %d", col, z)
		}
	}
}

// A declared stock pond is never cut, even by a culvert line that was drawn through its bank and
// some way into it: here over rows 57 to 61, the pond's on rows 43 to 59.
func TestCulvertIntoAStockPond(t *testing.T) {
	g := bankedValley(900, 60)
	cfg := conditioning()
	cfg.Features.StockPonds = []orb.Polygon{rectangle(g, bedCol-1, 43, bedCol+1, 59)}
	cfg.Features.Culverts = []orb.LineString{{placeOf(g, bedCol, 57), placeOf(g, bedCol, 61)}}
	f := conditioned(t, g, cfg)
	for i, inside := range in(g, cfg.Features.StockPonds) {
		if inside && f.FilledMM[i] < g.MM[i] {
			t.Errorf("cell %d of the pond is lowered from %d to %d", i, g.MM[i], f.FilledMM[i])
		}
	}
}

// Flow ends in a playa in the middle of a pyramid pit of radius 3: ring k of 8k cells drains
// towards it up to ring 3, the shoulder, so 1 + 8 + 16 + 24 = 49 cells. No rain is lost: all
// ends together gather 81 cells. Cuts deep enough to drain it are not made.
func TestPlayaEndsFlow(t *testing.T) {
	g := rastertest.PyramidPit(3)
	for name, playa := range map[string]orb.Polygon{
		"lowest cell": rectangle(g, 4, 4, 4, 4),
		"whole pit":   rectangle(g, 2, 2, 6, 6),
	} {
		t.Run(name, func(t *testing.T) {
			cfg := flow.Config{CutLengthM: 30, CutDepthM: 10, RoadCutLengthM: 60, RoadCutDepthM: 10, RoadReachM: 30}
			cfg.Features.Roads, cfg.Features.Playas = roadAlong(g, 4), []orb.Polygon{playa}
			f := conditioned(t, g, cfg)
			within, all := 0, 0
			for i := range g.MM {
				if f.Down(i) >= 0 {
					continue
				}
				all += int(f.Cells[i])
				if !onRim(g, i) {
					within += int(f.Cells[i])
				}
			}
			if within != 49 || all != 81 {
				t.Errorf("%d cells end in the playa and %d in all, want 49 and 81", within, all)
			}
			if len(f.Cuts) != 0 {
				t.Errorf("cuts %+v, want none", f.Cuts)
			}
			if middle := g.Index(4, 4); !slices.Equal(f.Playas, []int{middle}) || f.Cells[middle] != 49 || f.Down(middle) >= 0 {
				t.Errorf("playas %v end with %d cells in the middle, want one there with 49", f.Playas, f.Cells[middle])
			}
		})
	}
	f := conditioned(t, g, flow.Config{Features: flow.Features{Playas: []orb.Polygon{rectangle(g, 4, 4, 4, 4)}}})
	sameCells(t, "filled", g, f.FilledMM, g.MM)
}

// A dry pan in a valley that goes on: a hole of 2 m in the bed of row 50. The bed and both
// cells beside it on row 51 fall back into it, and with them all of row 51, so it takes rows 0
// to 51, 52·21 = 1092 cells; the 48·21 = 1008 of the rows below reach the border.
func TestPlayaInAValley(t *testing.T) {
	g := rastertest.Valley(21, bedRows, 50_000, 500, 50)
	pan := g.Index(bedCol, 50)
	g.MM[pan] -= 2000
	cfg := conditioning()
	cfg.Features.Playas = []orb.Polygon{rectangle(g, bedCol, 50, bedCol, 50)}
	f := conditioned(t, g, cfg)
	if f.Down(pan) >= 0 {
		t.Errorf("the pan drains to cell %d", f.Down(pan))
	}
	at{50, bedCol, 1092}.check(t, g, f)
	at{99, bedCol, 1008}.check(t, g, f)
	if _, sum := endsSum(f); sum != 2100 {
		t.Errorf("ends gather %d cells, want 2100", sum)
	}
}

// Water of a known area enters where a valley comes in over the northern border: its cells
// are added all the way down and nowhere else, and what only that place made doubtful is
// settled. Cells of 1 m, then the same valley on cells of 2 m: 5000 m² are 1250 of them.
func TestInflowSettlesItsValley(t *testing.T) {
	for _, tt := range []struct {
		cellM float64
		cells uint32
	}{{1, 5000}, {2, 1250}} {
		g := rastertest.Valley(21, 30, 50_000, 500, 50)
		g.Transform.CellM = tt.cellM
		open := conditioned(t, g, conditioning())
		if !slices.Contains(open.Inflow, bedCol) || !open.Truncated(g.Index(bedCol, 29)) {
			t.Fatal("the valley is not truncated to begin with")
		}
		cfg := conditioning()
		x, y := g.CenterOf(bedCol)
		cfg.Features.Inflows = []flow.Inflow{{X: x, Y: y, CatchmentM2: 5000}}
		f := conditioned(t, g, cfg)
		sameCells(t, "filled", g, f.FilledMM, open.FilledMM)
		sameCells(t, "down", g, downs(f), downs(open))

		want := slices.Clone(open.Cells)
		for i := bedCol; i >= 0; i = f.Down(i) {
			want[i] += tt.cells
		}
		sameCells(t, "cells", g, f.Cells, want)
		if slices.Contains(f.Inflow, bedCol) {
			t.Errorf("inflow %v still names the settled place", f.Inflow)
		}
		sameCells(t, "truncated", g, truncations(f), walkedTruncation(f))
		if f.Truncated(g.Index(bedCol, 0)) {
			t.Error("the bed is truncated where the inflow is known")
		}
		if _, sum := endsSum(f); sum != g.ValidCells()+int(tt.cells) {
			t.Errorf("ends gather %d cells, want %d and %d more", sum, g.ValidCells(), tt.cells)
		}
	}
}

// Of two valleys side by side one is told; the other stays truncated.
func TestInflowSettlesNoOtherValley(t *testing.T) {
	const west, east, divide = 10, 30, 20
	g := rastertest.Surface(41, 30, 1, func(col, row int) int32 {
		bed := west
		if col > divide {
			bed = east
		}
		return 50_000 + 500*int32(max(col-bed, bed-col)) - 50*int32(row)
	})
	cfg := conditioning()
	x, y := g.Transform.Center(west, 0)
	cfg.Features.Inflows = []flow.Inflow{{X: x, Y: y, CatchmentM2: 300}}
	open, f := conditioned(t, g, conditioning()), conditioned(t, g, cfg)
	if !open.Truncated(g.Index(west, 29)) || !open.Truncated(g.Index(east, 29)) {
		t.Fatal("both valleys should be truncated to begin with")
	}
	if !f.Truncated(g.Index(east, 29)) {
		t.Error("the other valley is settled too")
	}
	if got, want := f.Cells[g.Index(west, 29)], open.Cells[g.Index(west, 29)]+300; got != want {
		t.Errorf("the valley gathers %d cells, want %d", got, want)
	}
	if got, want := f.Cells[g.Index(east, 29)], open.Cells[g.Index(east, 29)]; got != want {
		t.Errorf("the other valley gathers %d cells, want %d", got, want)
	}
}

// Features that lie off the data change nothing and do no harm.
func TestFeaturesOffTheData(t *testing.T) {
	g := rastertest.Hole(bankedValley(900, 60), raster.Window{Col: 0, Row: 0, Cols: 4, Rows: 4})
	plain := conditioned(t, g, conditioning())
	far := orb.Point{rastertest.CornerX - 5000, rastertest.CornerY + 5000}
	cfg := conditioning()
	cfg.Features.Roads = []orb.LineString{{far, {far[0] + 10, far[1]}}, {far}, {}}
	cfg.Features.StockPonds = []orb.Polygon{{{far, {far[0] + 10, far[1]}, {far[0], far[1] + 10}, far}}, {}}
	cfg.Features.Playas = []orb.Polygon{{{far, {far[0] + 10, far[1]}, {far[0], far[1] + 10}, far}}, rectangle(g, 0, 0, 2, 2)}
	f := conditioned(t, g, cfg)
	sameField(t, "with features far away", g, f, plain)
}
