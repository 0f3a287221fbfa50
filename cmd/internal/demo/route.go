package demo

import (
	"context"
	"math"

	"siltstep/hydro/flow"
	"siltstep/raster"
)

// routing is where water goes on a surface.
type routing struct {
	down   []int32   // receiving cell, or -1 where water leaves
	order  []int32   // every cell after the one it drains to
	areaM2 []float64 // land that drains through each cell, itself included
}

// route finds where water goes on the surface, as the planner does on the finished ranch.
// Each cell is raised by up to jitterM, at random, which keeps valleys from running in the
// eight directions of the grid.
func route(s *surface, rand noise, jitterM float64) (*routing, error) {
	g := raster.New(s.cols, s.rows, raster.Transform{CellM: s.cellM})
	for i, z := range s.z {
		g.MM[i] = int32(math.Round(1000 * (z + float64(jitterM*rand.unit(i)))))
	}
	f, err := flow.Run(context.Background(), g, flow.Config{Edge: flow.EdgeClosed}, nil)
	if err != nil {
		return nil, err
	}
	r := &routing{down: make([]int32, len(s.z)), areaM2: make([]float64, len(s.z))}
	for i := range s.z {
		r.down[i] = int32(f.Down(i))
		r.areaM2[i] = float64(f.Cells[i]) * s.cellM * s.cellM
	}
	r.order = downstreamFirst(r.down)
	return r, nil
}

// downstreamFirst returns all cells so that each comes after the one it drains to: the
// outlets, then their donors, and so on, kept in lists of donors.
func downstreamFirst(down []int32) []int32 {
	first, next := make([]int32, len(down)), make([]int32, len(down))
	for i := range first {
		first[i] = -1
	}
	order := make([]int32, 0, len(down))
	for i, d := range down {
		if d < 0 {
			order = append(order, int32(i))
			continue
		}
		next[i], first[d] = first[d], int32(i)
	}
	for k := 0; k < len(order); k++ {
		for c := first[order[k]]; c >= 0; c = next[c] {
			order = append(order, c)
		}
	}
	return order
}
