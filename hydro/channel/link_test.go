package channel

import (
	"slices"
	"testing"

	"pgregory.net/rapid"
)

// binaryTree returns the complete binary tree of a depth, one cell a link: cell i drains
// to cell (i−1)/2, and heads have the same area.
func binaryTree(depth int) tree {
	n := 1<<depth - 1
	t := tree{cols: n}
	for i := range n {
		below := 0 // level of cell i under the root
		for c := i; c > 0; c = (c - 1) / 2 {
			below++
		}
		t.cell = append(t.cell, i)
		t.down = append(t.down, int32((i+1)/2-1))
		t.area = append(t.area, 1<<(depth-below)-1) // cells of the subtree
	}
	return t
}

func TestOrdersOfCompleteBinaryTrees(t *testing.T) {
	// Closed form: depth d has 2^d − 1 links and 2^(d−1) heads; all inflows alike, so the
	// Strahler order rises by one at each level.
	for _, want := range []struct{ depth, strahler, shreve, links int }{
		{1, 1, 1, 1}, {2, 2, 2, 3}, {3, 3, 4, 7}, {4, 4, 8, 15},
	} {
		links := binaryTree(want.depth).links()
		rank(links)
		low := links[len(links)-1]
		if len(links) != want.links || low.Strahler != want.strahler || low.Shreve != want.shreve || low.Down != -1 {
			t.Errorf("depth %d: %d links, Strahler %d, Shreve %d, down %d; want %d, %d, %d, -1",
				want.depth, len(links), low.Strahler, low.Shreve, low.Down, want.links, want.strahler, want.shreve)
		}
	}
}

func TestStrahlerNeedsTwoEqualInflows(t *testing.T) {
	// Two heads meet (order 2), then a single head joins: the order stays 2. Shreve 3.
	const cols = 9
	t1 := sketch(cols, nil, path(cols, 4, 0, "vvvvvv"), path(cols, 2, 0, `\\`), path(cols, 6, 2, "//"))
	links := t1.links()
	rank(links)
	if low := links[len(links)-1]; low.Strahler != 2 || low.Shreve != 3 || len(links) != 5 {
		t.Errorf("Strahler %d, Shreve %d, %d links; want 2, 3, 5", low.Strahler, low.Shreve, len(links))
	}
}

func TestThreeInflowsMakeOneJunction(t *testing.T) {
	const cols = 5
	links := sketch(cols, nil, path(cols, 2, 0, "vvv"), path(cols, 1, 0, `\v`), path(cols, 3, 0, "/v")).links()
	rank(links)
	low := links[len(links)-1]
	if len(links) != 4 || !slices.Equal(low.Up, []int{0, 1, 2}) || low.Strahler != 2 || low.Shreve != 3 {
		t.Errorf("%d links, last %+v; want 4 links, the last with inflows 0 1 2, Strahler 2, Shreve 3", len(links), low)
	}
	if want := path(cols, 2, 1, "vv"); !slices.Equal(low.Cells, want) {
		t.Errorf("last link has cells %v, want %v: it begins at the junction cell", low.Cells, want)
	}
}

func TestLinkStepsCountTheJunction(t *testing.T) {
	// A head of 3 cells, > then \, enters the junction with one more \: 1 straight, 2 diagonal.
	const cols = 8
	t1 := sketch(cols, nil, path(cols, 1, 0, `>\\`), path(cols, 4, 0, "vvvv"))
	links := t1.links()
	for i, l := range links {
		want := steps{2, 0} // the straight head into the junction and the link below alike
		if l.Cells[0] == 1 {
			want = steps{1, 2}
		}
		if got := t1.linkSteps(links, i); got != want {
			t.Errorf("link from cell %d: %+v, want %+v", l.Cells[0], got, want)
		}
	}
}

// randomTree draws a tree of channel cells by letting each cell drain to one of lower index.
func randomTree(r *rapid.T) tree {
	n := rapid.IntRange(0, 60).Draw(r, "cells")
	t := tree{cols: 8}
	for i := range n {
		t.cell = append(t.cell, i)
		t.down = append(t.down, int32(rapid.IntRange(max(-1, i-4), i-1).Draw(r, "down")))
		t.area = append(t.area, 0)
	}
	for i := n - 1; i >= 0; i-- {
		t.area[i]++
		if d := t.down[i]; d >= 0 {
			t.area[d] += t.area[i]
		}
	}
	return t
}

func TestLinksCoverTheTree(t *testing.T) {
	rapid.Check(t, func(r *rapid.T) {
		tr := randomTree(r)
		links := tr.links()
		rank(links)
		var cells []int
		heads, ends := 0, 0
		for i, l := range links {
			cells = append(cells, l.Cells...)
			if len(l.Up) == 1 {
				r.Fatalf("link %d begins at a junction with one inflow", i)
			}
			if len(l.Up) == 0 {
				heads++
			}
			if l.Down < 0 {
				ends += l.Shreve
			} else if l.Down <= i || !slices.Contains(links[l.Down].Up, i) {
				r.Fatalf("link %d flows into %d, which does not stand below it", i, l.Down)
			}
			if !slices.IsSorted(l.Up) {
				r.Fatalf("link %d: inflows %v not ascending", i, l.Up)
			}
		}
		slices.Sort(cells)
		if !slices.Equal(cells, tr.cell) {
			r.Fatalf("cells of links %v, of the tree %v", cells, tr.cell)
		}
		if heads != ends {
			r.Fatalf("%d heads, Shreve at the ends sums to %d", heads, ends)
		}
	})
}
