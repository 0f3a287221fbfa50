package demo

import (
	"testing"

	"pgregory.net/rapid"
)

func TestReceiversComeFirst(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(1, 60).Draw(t, "cells")
		down := make([]int32, n)
		for i := range down {
			down[i] = int32(rapid.IntRange(-1, i-1).Draw(t, "down")) // always to an earlier cell: no rings
		}
		order := downstreamFirst(down)
		if len(order) != n {
			t.Fatalf("%d of %d cells", len(order), n)
		}
		done := make([]bool, n)
		for _, c := range order {
			if d := down[c]; done[c] || d >= 0 && !done[d] {
				t.Fatalf("cell %d before the one it drains to, or twice: %v of %v", c, order, down)
			}
			done[c] = true
		}
	})
}
