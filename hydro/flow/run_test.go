package flow_test

import (
	"context"
	"errors"
	"slices"
	"testing"

	"pgregory.net/rapid"

	"siltstep/hydro/flow"
	"siltstep/raster"
	"siltstep/raster/rastertest"
)

// run is flow.Run under the open edge, which must not fail.
func run(t fataler, g *raster.Grid, workers int) *flow.Field {
	t.Helper()
	f, err := flow.Run(context.Background(), g, flow.Config{Workers: workers}, nil)
	if err != nil {
		t.Fatalf("run: %v", err)
	}
	return f
}

// sameField fails where two fields differ in anything that can be asked of them.
func sameField(t fataler, what string, g *raster.Grid, got, want *flow.Field) {
	t.Helper()
	sameCells(t, what+": filled", g, got.FilledMM, want.FilledMM)
	sameCells(t, what+": down", g, downs(got), downs(want))
	sameCells(t, what+": cells", g, got.Cells, want.Cells)
	sameCells(t, what+": truncated", g, truncations(got), truncations(want))
	if !slices.Equal(got.Inflow, want.Inflow) {
		t.Fatalf("%s: inflow %v, want %v", what, got.Inflow, want.Inflow)
	}
	for i := range g.MM {
		if got.Valid(i) != want.Valid(i) || got.BearingDeg(i) != want.BearingDeg(i) {
			t.Fatalf("%s: cell %d valid %v bearing %d, want %v %d", what, i,
				got.Valid(i), got.BearingDeg(i), want.Valid(i), want.BearingDeg(i))
		}
	}
}

func TestSameBitsForAnyWorkers(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		g := drawGrid(t)
		one := run(t, g, 1)
		for _, workers := range []int{0, 2, 3, 8} {
			sameField(t, "workers", g, run(t, g, workers), one)
		}
	})
}

func TestRunErrors(t *testing.T) {
	void := rastertest.Hole(rastertest.Plane(5, 4, 0, 1, 1), raster.Window{Cols: 5, Rows: 4})
	if _, err := flow.Run(context.Background(), void, flow.Config{}, nil); !errors.Is(err, flow.ErrNoData) {
		t.Errorf("a grid without data: got %v, want ErrNoData", err)
	}
	tall := rastertest.Of([]int32{-9_999_000, flow.MostReliefMM - 9_999_000, 0})
	if _, err := flow.Run(context.Background(), tall, flow.Config{}, nil); err == nil {
		t.Error("more relief than any terrain has: want an error")
	}
	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	if _, err := flow.Run(ctx, rastertest.Plane(5, 4, 0, 1, 1), flow.Config{}, nil); !errors.Is(err, context.Canceled) {
		t.Errorf("cancelled: got %v, want it to wrap context.Canceled", err)
	}
}

// Cancelling while a stage runs stops the run before the next; the last one is finished.
func TestRunCancelledBetweenStages(t *testing.T) {
	for _, stage := range []string{"fill", "direction"} {
		ctx, cancel := context.WithCancel(context.Background())
		_, err := flow.Run(ctx, rastertest.Random(1, 400, 400, 10), flow.Config{Workers: 2}, func(s string) {
			if s == stage {
				cancel()
			}
		})
		if !errors.Is(err, context.Canceled) {
			t.Errorf("cancelled as %s begins: got %v, want it to wrap context.Canceled", stage, err)
		}
		cancel()
	}
}

func TestRunTellsItsStages(t *testing.T) {
	var stages []string
	_, err := flow.Run(context.Background(), rastertest.Plane(5, 4, 0, 1, 1), flow.Config{},
		func(stage string) { stages = append(stages, stage) })
	if want := []string{"fill", "direction", "accumulation"}; err != nil || !slices.Equal(stages, want) {
		t.Errorf("got %v, %v; want %v", stages, err, want)
	}
}

func TestRunOnlyReadsTheGrid(t *testing.T) {
	g := rastertest.Pepper(4, rastertest.Random(4, 40, 30, 10), 20)
	before := slices.Clone(g.MM)
	run(t, g, 2)
	sameCells(t, "grid after the run", g, g.MM, before)
}

// Grids of odd shape against the slow rules.
func TestOddGrids(t *testing.T) {
	plane := rastertest.Plane(9, 7, 1000, 3, 10)
	tests := []struct {
		name string
		g    *raster.Grid
	}{
		{"one cell", rastertest.Of([]int32{7})},
		{"two cells", rastertest.Of([]int32{7, 5})},
		{"one row", rastertest.Of([]int32{5, 9, 2, 6, 1, 4, 3, 8, 7, 0})},
		{"one column", rastertest.Random(1, 1, 40, 10)},
		{"two columns", rastertest.Random(2, 2, 40, 3)},
		{"one level row", rastertest.Of([]int32{4, 4, 4, 4, 4})},
		{"all flat", rastertest.Plane(12, 9, 5000, 0, 0)},
		{"one cell in voids", rastertest.VoidRing(rastertest.Of([]int32{7}), 3)},
		{"void ring", rastertest.VoidRing(plane, 2)},
		{"hole of one cell", rastertest.Hole(rastertest.Plane(9, 7, 1000, 3, 10), raster.Window{Col: 4, Row: 3, Cols: 1, Rows: 1})},
		{"hole of 5 x 6", rastertest.Hole(rastertest.Plane(20, 20, 1000, 3, 10), raster.Window{Col: 6, Row: 7, Cols: 5, Rows: 6})},
		{"islands", rastertest.Pepper(5, rastertest.Random(5, 30, 30, 10), 2)},
		{"negative heights", rastertest.Plane(9, 7, -1000, 3, 10)},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			f := run(t, tt.g, 2)
			sameCells(t, "filled", tt.g, f.FilledMM, fixpointFill(tt.g))
			sameCells(t, "down", tt.g, downs(f), slowDown(tt.g, f.FilledMM))
			sameCells(t, "cells", tt.g, f.Cells, walkedCells(t, tt.g, downs(f)))
			if _, sum := endsSum(f); sum != tt.g.ValidCells() {
				t.Errorf("ends gather %d cells, %d hold data", sum, tt.g.ValidCells())
			}
		})
	}
}

// Every border cell of level ground is an end, and no water comes in.
func TestAllFlat(t *testing.T) {
	g := rastertest.Plane(7, 5, 5000, 0, 0)
	f := run(t, g, 1)
	for i := range g.MM {
		if end := f.Down(i) < 0; end != onRim(g, i) {
			t.Errorf("cell %d: end %v, on the border %v", i, end, onRim(g, i))
		}
	}
	if len(f.Inflow) != 0 {
		t.Errorf("inflow %v, want none", f.Inflow)
	}
}

// A frame of voids is the same as the end of the grid.
func TestVoidRingIsABorder(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		g := drawGrid(t)
		const width = 2
		bare, ringed := run(t, g, 1), run(t, rastertest.VoidRing(g, width), 1)
		for i := range g.MM {
			col, row := g.ColRow(i)
			j := (row+width)*ringed.Cols + col + width
			if bare.FilledMM[i] != ringed.FilledMM[j] || bare.Cells[i] != ringed.Cells[j] || bare.BearingDeg(i) != ringed.BearingDeg(j) {
				t.Fatalf("column %d, row %d: filled %d cells %d bearing %d, in a frame of voids %d, %d, %d", col, row,
					bare.FilledMM[i], bare.Cells[i], bare.BearingDeg(i), ringed.FilledMM[j], ringed.Cells[j], ringed.BearingDeg(j))
			}
		}
	})
}
