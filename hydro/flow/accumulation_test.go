package flow_test

import (
	"slices"
	"testing"

	"pgregory.net/rapid"

	"siltstep/hydro/flow"
	"siltstep/raster"
)

// walkedCells counts, for every cell, the cells whose water passes it, by walking down
// from each. It fails where water runs in a loop.
func walkedCells(t fataler, g *raster.Grid, down []int) []uint32 {
	t.Helper()
	cells := make([]uint32, len(g.MM))
	for i, z := range g.MM {
		if z == raster.VoidMM {
			continue
		}
		steps := 0
		for at := i; at >= 0; at = down[at] {
			cells[at]++
			if steps++; steps > len(g.MM) {
				t.Fatalf("water from cell %d never ends", i)
			}
		}
	}
	return cells
}

// walkedTruncation tells, for every cell, whether water of an inflow cell passes it.
func walkedTruncation(f *flow.Field) []bool {
	cut := make([]bool, len(f.Cells))
	for _, i := range f.Inflow {
		for at := i; at >= 0 && !cut[at]; at = f.Down(at) {
			cut[at] = true
		}
	}
	return cut
}

func truncations(f *flow.Field) []bool {
	cut := make([]bool, len(f.Cells))
	for i := range cut {
		cut[i] = f.Truncated(i)
	}
	return cut
}

// endsSum returns how many ends of flow there are and the cells that drain to them.
func endsSum(f *flow.Field) (ends, cells int) {
	for i := range f.Cells {
		if f.Valid(i) && f.Down(i) < 0 {
			ends++
			cells += int(f.Cells[i])
		}
	}
	return ends, cells
}

// An end is told as a spill exactly where a filled cell reaches it without leaving its level.
func TestSpillsCarryStandingWater(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		g := drawGrid(t)
		f := run(t, g, 1)
		var want []int
		for i := range g.MM {
			if !f.Valid(i) || f.FilledMM[i] == g.MM[i] {
				continue
			}
			end := i
			for f.Down(end) >= 0 && f.FilledMM[f.Down(end)] == f.FilledMM[i] {
				end = f.Down(end)
			}
			if f.Down(end) < 0 {
				want = append(want, end)
			}
		}
		slices.Sort(want)
		if want = slices.Compact(want); !slices.Equal(f.EdgeSpills, want) {
			t.Fatalf("spills %v, want %v", f.EdgeSpills, want)
		}
	})
}

func TestCellsEqualWalking(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		g := drawGrid(t)
		f := run(t, g, 1)
		sameCells(t, "cells", g, f.Cells, walkedCells(t, g, downs(f)))
		if _, sum := endsSum(f); sum != g.ValidCells() {
			t.Fatalf("ends gather %d cells, %d hold data", sum, g.ValidCells())
		}
	})
}

// A cell is truncated exactly where water of an inflow cell passes; inflow cells come in
// ascending order, hold data and lie on the rim.
func TestTruncationFollowsInflow(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		g := drawGrid(t)
		f := run(t, g, 1)
		sameCells(t, "truncated", g, truncations(f), walkedTruncation(f))
		for n, i := range f.Inflow {
			if n > 0 && f.Inflow[n-1] >= i {
				t.Fatalf("inflow out of order: %v", f.Inflow)
			}
			if !f.Valid(i) || !onRim(g, i) || f.Down(i) < 0 {
				t.Fatalf("inflow at cell %d, which is void, inside or an end", i)
			}
		}
	})
}

// walkedLabels follows the water of every cell down to the first point.
func walkedLabels(f *flow.Field, points []int) []int32 {
	labels := make([]int32, len(f.Cells))
	for i := range labels {
		labels[i] = -1
		if !f.Valid(i) {
			continue
		}
		for at := i; at >= 0 && labels[i] < 0; at = f.Down(at) {
			for n, p := range points {
				if p == at {
					labels[i] = int32(n)
					break
				}
			}
		}
	}
	return labels
}

func TestLabelsEqualWalking(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		g := drawGrid(t)
		f := run(t, g, 1)
		walkedCells(t, g, downs(f)) // no loop, or the walks below would not end
		var valid []int
		for i := range g.MM {
			if f.Valid(i) {
				valid = append(valid, i)
			}
		}
		points := rapid.SliceOfN(rapid.SampledFrom(valid), 0, 8).Draw(t, "points") // equal ones too
		labels := f.Labels(points)
		sameCells(t, "labels", g, labels, walkedLabels(f, points))
		count := make([]uint32, len(points))
		for _, l := range labels {
			if l >= 0 {
				count[l]++
			}
		}
		if len(points) == 1 && count[0] != f.Cells[points[0]] {
			t.Fatalf("one point labels %d cells, its catchment is %d", count[0], f.Cells[points[0]])
		}
	})
}
