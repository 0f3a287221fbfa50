package flow

import "siltstep/raster"

// edge says that water passes between two floods at a level.
type edge struct {
	a, b uint32 // labels of one tile, later nodes of the whole grid
	mm   int32
}

// sets is a forest of disjoint sets whose members are also linked in a ring.
type sets struct {
	parent, size, ring []uint32
}

func newSets(n int) *sets {
	s := &sets{make([]uint32, n), make([]uint32, n), make([]uint32, n)}
	for i := range n {
		s.parent[i], s.size[i], s.ring[i] = uint32(i), 1, uint32(i)
	}
	return s
}

func (s *sets) find(i uint32) uint32 {
	for s.parent[i] != i {
		s.parent[i] = s.parent[s.parent[i]]
		i = s.parent[i]
	}
	return i
}

// join unites the sets of two roots.
func (s *sets) join(a, b uint32) {
	if s.size[a] < s.size[b] {
		a, b = b, a
	}
	s.parent[b] = a
	s.size[a] += s.size[b]
	s.ring[a], s.ring[b] = s.ring[b], s.ring[a]
}

// appendSeams adds an edge for the cells that touch across tile borders, corners too.
// Runs of pairs with the same two labels are kept as their lowest one.
func appendSeams(edges []edge, g *raster.Grid, tiles []tile, filled []int32, labels []uint16) []edge {
	across := tilesAcross(g.Cols)
	at := func(col, row int) (uint32, int32) {
		i := row*g.Cols + col
		l := labels[i]
		if l == voidLabel {
			return 0, raster.VoidMM
		}
		return tiles[row/tileSide*across+col/tileSide].global(l), filled[i]
	}
	var run edge
	pair := func(col, row, col2, row2 int) {
		if col2 < 0 || col2 >= g.Cols || row2 >= g.Rows {
			return
		}
		a, za := at(col, row)
		b, zb := at(col2, row2)
		if za == raster.VoidMM || zb == raster.VoidMM || a == b {
			return
		}
		mm := max(za, zb)
		if a == run.a && b == run.b {
			run.mm = min(run.mm, mm)
			return
		}
		if run.a != run.b {
			edges = append(edges, run)
		}
		run = edge{a, b, mm}
	}
	for row := tileSide - 1; row < g.Rows-1; row += tileSide {
		for col := range g.Cols {
			for step := -1; step <= 1; step++ {
				pair(col, row, col+step, row+1)
			}
		}
	}
	for col := tileSide - 1; col < g.Cols-1; col += tileSide {
		for row := range g.Rows {
			for step := -1; step <= 1; step++ {
				if row+step >= 0 {
					pair(col, row, col+1, row+step)
				}
			}
		}
	}
	if run.a != run.b {
		edges = append(edges, run)
	}
	return edges
}
