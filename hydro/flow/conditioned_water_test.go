package flow_test

import (
	"math"
	"slices"
	"testing"

	"pgregory.net/rapid"

	"siltstep/hydro/flow"
	"siltstep/raster"
)

// Inflow points add what they say to each cell below them and settle what comes in there; all
// else stays as it was. On cells of 30 m a point can enter at no other cell than its own.
func TestInflowAddsDownstream(t *testing.T) {
	eachCase(t, declared{}, func(t *rapid.T, c groundCase, _ *flow.Field) {
		c.g.Transform.CellM, c.cfg.CutLengthM = 30, 120
		open := conditioned(t, c.g, c.cfg)
		if len(open.Inflow) == 0 {
			t.Skip("nothing comes in")
		}
		want, rest, all := slices.Clone(open.Cells), slices.Clone(open.Inflow), c.g.ValidCells()
		for range rapid.IntRange(1, 3).Draw(t, "inflows") {
			at, cells := rapid.SampledFrom(open.Inflow).Draw(t, "at"), rapid.IntRange(1, 2000).Draw(t, "cells")
			x, y := c.g.CenterOf(at)
			c.cfg.Features.Inflows = append(c.cfg.Features.Inflows, flow.Inflow{X: x, Y: y, CatchmentM2: float64(cells) * 900})
			for i := at; i >= 0; i = open.Down(i) {
				want[i] += uint32(cells)
			}
			rest = slices.DeleteFunc(rest, func(i int) bool {
				for ; i >= 0 && i != at; i = open.Down(i) {
				}
				return i == at
			})
			all += cells
		}
		f := conditioned(t, c.g, c.cfg)
		sameCells(t, "filled", c.g, f.FilledMM, open.FilledMM)
		sameCells(t, "down", c.g, downs(f), downs(open))
		sameCells(t, "cells", c.g, f.Cells, want)
		if !slices.Equal(f.Inflow, rest) {
			t.Fatalf("inflow %v, want %v\n%v", f.Inflow, rest, c)
		}
		sameCells(t, "truncated", c.g, truncations(f), walkedTruncation(f))
		if _, sum := endsSum(f); sum != all {
			t.Fatalf("ends gather %d cells, want %d\n%v", sum, all, c)
		}
	})
}

// Weighted catchments are the weights summed by walking down from every cell; weights of 1
// give the cells; the largest weights still add up.
func TestWeightsEqualWalking(t *testing.T) {
	eachCase(t, everything, func(t *rapid.T, c groundCase, f *flow.Field) {
		ones := slices.Repeat([]uint32{1}, len(c.g.MM))
		cells := make([]uint64, len(c.g.MM))
		for i, n := range f.Cells {
			cells[i] = uint64(n)
		}
		sameCells(t, "weights of 1", c.g, weighed(t, f, ones), cells)

		weight := rapid.OneOf(rapid.Uint32Range(0, 9), rapid.Uint32(), rapid.Just(uint32(math.MaxUint32)))
		weights := rapid.SliceOfN(weight, len(c.g.MM), len(c.g.MM)).Draw(t, "weights")
		want := make([]uint64, len(c.g.MM))
		for i := range c.g.MM {
			for at := i; f.Valid(i) && at >= 0; at = f.Down(at) {
				want[at] += uint64(weights[i])
			}
		}
		before := slices.Clone(weights)
		sameCells(t, "weights", c.g, weighed(t, f, weights), want)
		sameCells(t, "weights after", c.g, weights, before)
		sameCells(t, "weights again", c.g, weighed(t, f, weights), want)
	})
}

// weighed is AccumulateWeights of weights alone, which must not fail.
func weighed(t fataler, f *flow.Field, weights []uint32) []uint64 {
	t.Helper()
	sums, err := f.AccumulateWeights(weights, nil, 2)
	if err != nil {
		t.Fatalf("weights: %v", err)
	}
	return sums
}

// A declared playa with data holds one end of flow, which is told.
func TestPlayaEndsAreTold(t *testing.T) {
	eachCase(t, everything, func(t *rapid.T, c groundCase, f *flow.Field) {
		if len(f.Playas) != len(c.cfg.Features.Playas) {
			t.Fatalf("%d playas told, %d declared\n%v", len(f.Playas), len(c.cfg.Features.Playas), c)
		}
		for k, end := range f.Playas {
			inside := in(c.g, c.cfg.Features.Playas[k:k+1])
			lowest := int32(math.MaxInt32)
			for i, z := range c.g.MM {
				if inside[i] && z != raster.VoidMM {
					lowest = min(lowest, z)
				}
			}
			switch {
			case end < 0 && lowest != math.MaxInt32:
				t.Fatalf("playa %d holds data and has no end\n%v", k, c)
			case end >= 0 && (!inside[end] || c.g.MM[end] != lowest || f.Down(end) >= 0):
				t.Fatalf("playa %d ends at cell %d of %d mm, which drains to %d; want an end at its lowest place, %d mm\n%v", k, end, c.g.MM[end], f.Down(end), lowest, c)
			}
		}
	})
}
