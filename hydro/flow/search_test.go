package flow

import (
	"cmp"
	"slices"
	"testing"

	"pgregory.net/rapid"

	"siltstep/raster"
)

// slowPath finds the least (excavation, length) from a pit to lower ground or the border by trying every cell again and
// again until nothing changes: no window, no queue. It returns the pair of the best end.
func slowPath(g *raster.Grid, pit int, depth int64) (best [2]int64, ok bool) {
	reached := map[int][2]int64{pit: {}}
	level := int64(g.MM[pit])
	onBorder := func(i int) bool { c, r := g.ColRow(i); return touchesOutside(g, c, r) }
	for changed := true; changed; {
		changed = false
		for i := range g.MM {
			at, known := reached[i]
			if !known || i != pit && (onBorder(i) || int64(g.MM[i]) < level) {
				continue // water that got there needs no further way
			}
			c, r := g.ColRow(i)
			for d := range stepCol {
				if !g.Inside(c+stepCol[d], r+stepRow[d]) {
					continue
				}
				n := g.Index(c+stepCol[d], r+stepRow[d])
				deep := max(0, int64(g.MM[n])-level)
				if deep > depth || n == pit {
					continue
				}
				to := [2]int64{at[0] + deep*stepLength[d], at[1] + stepLength[d]}
				if old, has := reached[n]; !has || slices.Compare(to[:], old[:]) < 0 {
					reached[n], changed = to, true
				}
			}
		}
	}
	for i, at := range reached {
		if i == pit || !onBorder(i) && int64(g.MM[i]) >= level {
			continue
		}
		if !ok || slices.Compare(at[:], best[:]) < 0 {
			best, ok = at, true
		}
	}
	return best, ok
}

func TestSearchAgainstEveryPath(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		g := raster.New(rapid.IntRange(3, 12).Draw(t, "cols"), rapid.IntRange(3, 12).Draw(t, "rows"), raster.Transform{CellM: 1})
		levels := rapid.SampledFrom([]int32{3, 10, 1000}).Draw(t, "levels")
		for i := range g.MM {
			g.MM[i] = rapid.Int32Range(0, levels).Draw(t, "mm")
		}
		pit := g.Index(rapid.IntRange(1, g.Cols-2).Draw(t, "col"), rapid.IntRange(1, g.Rows-2).Draw(t, "row"))
		depth := rapid.Int64Range(0, int64(levels)).Draw(t, "depth")
		ends := newMask(len(g.MM))
		listPits(g.Cols, g.Rows, g.MM, ends, 1)
		s := newSearch(g.Cols, &ground{z: g.MM, before: g.MM, dug: newMask(len(g.MM))}, ends, nil)
		lim := limits{length: 1000 * stepScale, depth: depth}
		for range 2 { // the window is used again
			s.open([]int{pit}, lim.longest())
			target, ok := s.run(&lim)
			want, found := slowPath(g, pit, depth)
			if ok != found {
				t.Fatalf("from cell %d found %v, want %v: %v", pit, ok, found, g.MM)
			}
			if !ok {
				continue
			}
			path := s.path(nil, target)
			got := [2]int64{int64(s.nodes[s.place(target)].toll >> lengthBits), pathLength(g.Cols, path)}
			if got != want || path[0] != pit || path[len(path)-1] != target {
				t.Fatalf("from cell %d path %v costs %v, want %v: %v", pit, path, got, want, g.MM)
			}
		}
	})
}

func TestFrontierIsInOrder(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		var f frontier
		var all []head
		for range rapid.IntRange(1, 60).Draw(t, "heads") {
			h := head{toll: toll(rapid.Uint64Range(0, 15).Draw(t, "toll")), cell: rapid.Int32Range(0, 9).Draw(t, "cell")}
			f.push(h)
			all = append(all, h)
		}
		slices.SortFunc(all, func(a, b head) int {
			return cmp.Or(cmp.Compare(a.toll, b.toll), cmp.Compare(a.cell, b.cell))
		})
		for k, want := range all {
			if got := f.pop(); got != want {
				t.Fatalf("head %d is %+v, want %+v", k, got, want)
			}
		}
	})
}

// A void is lower than all around it and no pit.
func TestVoidIsNoPit(t *testing.T) {
	g := raster.New(7, 7, raster.Transform{CellM: 1})
	for i := range g.MM {
		g.MM[i] = 10
	}
	g.MM[g.Index(3, 3)] = raster.VoidMM
	for _, p := range listPits(g.Cols, g.Rows, g.MM, newMask(len(g.MM)), 1) {
		if p.level() == raster.VoidMM {
			t.Errorf("the void at cell %d is listed as a pit", p.cell())
		}
	}
}
