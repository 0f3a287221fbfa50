package flow

import (
	"slices"
	"sync"
	"sync/atomic"

	"siltstep/raster"
)

// Fill returns the filled surface of a grid in millimetres: for each cell the lowest level
// over all paths to an end of flow of the highest ground on the path. Ends of flow are the
// cells on the border of the grid and beside voids; voids stay raster.VoidMM.
//
// Square tiles are flooded apart from each other, each from its own perimeter, in a bucket
// queue by elevation; a graph of the places where floods meet then gives the level that
// the land outside a tile holds back. Method: Barnes2014Fill in the tile, Barnes2016
// between tiles; the surface is unique, so neither tiles nor workers show in it.
// Cost: linear in cells, plus the relief of each tile in millimetres / 64.
func Fill(g *raster.Grid, workers int) []int32 {
	out := slices.Clone(g.MM)
	fillInPlace(g, out, nil, workers)
	return out
}

// fillInPlace raises a surface over the cells of a grid to its filled surface; ends are cells, beside those of Fill,
// where flow ends. Voids are taken from the grid.
func fillInPlace(g *raster.Grid, surface []int32, ends []int, workers int) {
	labels := make([]uint16, len(surface))
	tiles := layTiles(g)
	across := tilesAcross(g.Cols)
	for _, i := range ends {
		t := &tiles[i/g.Cols/tileSide*across+i%g.Cols/tileSide]
		t.ends = append(t.ends, i)
	}
	eachWorker(len(tiles), workers, func(next func() (int, bool)) {
		var t flood
		for k, ok := next(); ok; k, ok = next() {
			t.run(g, &tiles[k], surface, labels)
		}
	})
	if len(tiles) == 1 {
		return
	}
	levels := spillLevels(g, tiles, surface, labels)
	eachWorker(len(tiles), workers, func(next func() (int, bool)) {
		for k, ok := next(); ok; k, ok = next() {
			tiles[k].raise(g.Cols, surface, labels, levels[tiles[k].node:])
		}
	})
}

// eachWorker shares the numbers 0 … n−1 among goroutines: each runs work, which asks next
// until there is none left. It returns when all are done.
func eachWorker(n, workers int, work func(next func() (int, bool))) {
	var taken atomic.Int64
	next := func() (int, bool) {
		k := int(taken.Add(1)) - 1
		return k, k < n
	}
	workers = min(workers, n)
	if workers <= 1 {
		work(next)
		return
	}
	var wg sync.WaitGroup
	for range workers {
		wg.Go(func() { work(next) })
	}
	wg.Wait()
}

// spillLevels returns, for each label of each tile, the level below which water cannot
// leave to an end of flow, counted from the node numbers of the tiles.
//
// The edges are taken from the lowest up; the level of a label is that of the edge which
// first joins its component to the outside.
func spillLevels(g *raster.Grid, tiles []tile, filled []int32, labels []uint16) []int32 {
	nodes := 1 // node 0 is the outside
	var edges []edge
	for k := range tiles {
		tiles[k].node = nodes
		nodes += tiles[k].labels
		edges = append(edges, tiles[k].meets...)
		first := len(edges) - len(tiles[k].meets)
		for e := first; e < len(edges); e++ {
			edges[e].a, edges[e].b = tiles[k].global(uint16(edges[e].a)), tiles[k].global(uint16(edges[e].b))
		}
		tiles[k].meets = nil
	}
	edges = appendSeams(edges, g, tiles, filled, labels)
	slices.SortFunc(edges, func(p, q edge) int { return int(p.mm) - int(q.mm) })

	levels := make([]int32, nodes)
	sets := newSets(nodes)
	for _, e := range edges {
		a, b := sets.find(e.a), sets.find(e.b)
		if a == b {
			continue
		}
		outside := sets.find(0)
		if a == outside || b == outside {
			inside := a + b - outside
			for m := inside; ; {
				levels[m] = e.mm
				if m = sets.ring[m]; m == inside {
					break
				}
			}
		}
		sets.join(a, b)
	}
	return levels
}
