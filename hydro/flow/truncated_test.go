package flow_test

import (
	"context"
	"math"
	"slices"
	"testing"

	"siltstep/hydro/flow"
	"siltstep/raster"
	"siltstep/raster/rastertest"
)

// inflow tells which cells of a row, by column, water comes in at.
func inflow(g *raster.Grid, f *flow.Field, row int) (cols []int) {
	for _, i := range f.Inflow {
		if c, r := g.ColRow(i); r == row {
			cols = append(cols, c)
		}
	}
	return cols
}

// count returns from, from+1 … to.
func count(from, to int) (n []int) {
	for i := from; i <= to; i++ {
		n = append(n, i)
	}
	return n
}

// A plane that falls south goes on rising to the north: water comes in along the whole
// north border, runs beside the other borders and makes every catchment too small.
func TestInflowOnPlane(t *testing.T) {
	g := rastertest.Plane(8, 10, 100_000, 0, 1000)
	f := run(t, g, 1)
	if want := count(0, 7); !slices.Equal(f.Inflow, want) { // row 0 by index
		t.Errorf("inflow %v, want %v", f.Inflow, want)
	}
	for i := range g.MM {
		if !f.Truncated(i) {
			t.Errorf("cell %d is below the north border and not truncated", i)
		}
	}
}

// On a plane that falls south-east, it comes in from the north and the west, and over the corner
// between them: the highest of its border, as a ridge is, but the plane goes on behind it. The two
// corners where the water of that border leaves are left open.
func TestInflowOnDiagonalPlane(t *testing.T) {
	g := rastertest.Plane(10, 10, 100_000, 1000, 1000)
	f := run(t, g, 1)
	for _, n := range count(0, 8) {
		if !slices.Contains(f.Inflow, g.Index(n, 0)) || !slices.Contains(f.Inflow, g.Index(0, n)) {
			t.Errorf("cell %d of the north or west border is missing from %v", n, f.Inflow)
		}
	}
	for _, i := range f.Inflow {
		if col, row := g.ColRow(i); col > 0 && row > 0 {
			t.Errorf("inflow at column %d, row %d", col, row)
		}
	}
}

func TestClosedEdgeLetsNothingIn(t *testing.T) {
	g := rastertest.Plane(8, 10, 100_000, 0, 1000)
	open := run(t, g, 1)
	closed, err := flow.Run(context.Background(), g, flow.Config{Edge: flow.EdgeClosed, Workers: 2}, nil)
	if err != nil {
		t.Fatal(err)
	}
	if len(closed.Inflow) != 0 {
		t.Errorf("inflow %v, want none", closed.Inflow)
	}
	if slices.Contains(truncations(closed), true) {
		t.Error("a cell is truncated")
	}
	sameCells(t, "down", g, downs(closed), downs(open))
	sameCells(t, "cells", g, closed.Cells, open.Cells)
}

// A spur falls south along column 10, 1 m a row, with flanks of 0.1 m a column: all water
// runs south. The crest of the spur at the border is a local ridge and lets nothing in;
// the cells beside it do.
func TestRidgeAtTheBorderLetsNothingIn(t *testing.T) {
	g := rastertest.Surface(21, 15, 1, func(col, row int) int32 {
		return 100_000 - 100*int32(max(col-10, 10-col)) - 1000*int32(row)
	})
	f := run(t, g, 1)
	cols := inflow(g, f, 0)
	if slices.Contains(cols, 10) {
		t.Error("water comes in over the crest of the spur")
	}
	for _, col := range []int{3, 8, 9, 11, 12, 17} {
		if !slices.Contains(cols, col) {
			t.Errorf("no water comes in at column %d of %v", col, cols)
		}
	}
	for row := range g.Rows {
		if f.Truncated(g.Index(10, row)) || !f.Truncated(g.Index(9, row)) {
			t.Errorf("row %d: crest truncated %v, beside it %v; want false, true", row,
				f.Truncated(g.Index(10, row)), f.Truncated(g.Index(9, row)))
		}
	}
}

// A round hill sheds all its water outwards.
func TestHillHasNoInflow(t *testing.T) {
	g := rastertest.Surface(31, 31, 1, func(col, row int) int32 {
		return int32(100_000 - 1000*math.Hypot(float64(col-15), float64(row-15)))
	})
	if f := run(t, g, 1); len(f.Inflow) != 0 {
		t.Errorf("inflow %v, want none", f.Inflow)
	}
}

// A round basin with its rim inside the grid: what drains into the basin is whole, what
// falls from the rim outwards too.
func TestBasinInsideIsWhole(t *testing.T) {
	g := rastertest.Surface(41, 41, 1, func(col, row int) int32 {
		return int32(100_000 - 1000*math.Abs(math.Hypot(float64(col-20), float64(row-20))-12))
	})
	f := run(t, g, 1)
	if len(f.Inflow) != 0 || slices.Contains(truncations(f), true) {
		t.Errorf("inflow %v, want none and nothing truncated", f.Inflow)
	}
}

// Two valleys side by side, sides 0.5, beds 0.05 falling south; outer crests at columns 2
// and 38, beyond which the ground falls to the border. The western bed (column 10) comes
// in over the north border; the eastern one (column 30) begins at a crest on row 5, north
// of which its bed falls north and out.
func TestValleyOverTheEdgeIsTruncated(t *testing.T) {
	const north, bedW, bedE, divide = 5, 10, 30, 20
	g := rastertest.Surface(41, 30, 1, func(col, row int) int32 {
		bed, fall := bedW, row
		if col > divide {
			bed, fall = bedE, max(row-north, north-row)
		}
		side := min(max(col-bed, bed-col), 16-max(col-bed, bed-col)) // 8 columns up, then down
		if col >= 2 && col <= 38 {
			side = max(col-bed, bed-col)
		}
		return 50_000 + 500*int32(side) - 50*int32(fall)
	})
	f := run(t, g, 1)
	for row := range g.Rows {
		if !f.Truncated(g.Index(bedW, row)) {
			t.Errorf("row %d of the western bed is not truncated", row)
		}
	}
	for row := north; row < g.Rows; row++ {
		i := g.Index(bedE, row)
		if f.Truncated(i) {
			t.Errorf("row %d of the eastern bed is truncated", row)
		}
		// From column 21 to the crest on 38 or the column before it, by the tie order there.
		if per := int(f.Cells[i]) / (row - north + 1); per < 17 || per > 18 {
			t.Errorf("row %d of the eastern bed gathers %d cells", row, f.Cells[i])
		}
	}
	if !slices.Contains(inflow(g, f, 0), bedW) {
		t.Errorf("no inflow where the western bed enters: %v", inflow(g, f, 0))
	}
	for _, col := range inflow(g, f, 0) {
		if col > divide {
			t.Errorf("inflow at column %d of the north border, where all water leaves", col)
		}
	}
}

// A hole of 16 x 12 voids in a plane that falls south: ground north of it drains into it,
// ground south of it may get water from it.
func TestLargeHoleTruncates(t *testing.T) {
	hole := raster.Window{Col: 10, Row: 20, Cols: 16, Rows: 12}
	g := rastertest.Hole(rastertest.Plane(40, 60, 100_000, 0, 1000), hole)
	f := run(t, g, 1)
	below := inflow(g, f, hole.Row+hole.Rows)
	if want := count(hole.Col, hole.Col+hole.Cols-1); !slices.Equal(below, want) {
		t.Errorf("below the hole water comes in at columns %v, want %v", below, want)
	}
	for col := hole.Col; col < hole.Col+hole.Cols; col++ {
		above := g.Index(col, hole.Row-1)
		if f.Down(above) >= 0 {
			t.Errorf("column %d above the hole drains on to %d", col, f.Down(above))
		}
		if last := g.Index(col, g.Rows-1); !f.Truncated(last) {
			t.Errorf("column %d far below the hole is not truncated", col)
		}
	}
	if beside := inflow(g, f, hole.Row+5); len(beside) != 0 {
		t.Errorf("beside the hole water comes in at columns %v, want none", beside)
	}
}
