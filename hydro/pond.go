package hydro

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"siltstep/hydro/flow"
	"siltstep/raster"

	"github.com/paulmach/orb"
	"github.com/paulmach/orb/planar"
)

// declaredPonds finds declared stock ponds in the data: the bottom cells of depressions that were
// filled in them, and the cells of those in which nothing was, as their water stands level already.
func declaredPonds(p *Plan) (bottoms map[int]bool, still [][]int) {
	bottoms = map[int]bool{}
	seen := map[int]bool{}
	for _, pond := range p.Config.Flow.Features.StockPonds {
		cells := cellsIn(p.Grid, pond)
		wet := false
		for _, i := range cells {
			if p.Flow.FilledMM[i] <= p.Grid.MM[i] {
				continue
			}
			wet = true
			if !seen[i] {
				bottoms[bottomOf(p, i, seen)] = true
			}
		}
		if len(cells) > 0 && !wet {
			still = append(still, cells)
		}
	}
	return bottoms, still
}

// bottomOf returns the lowest cell, the first of equals, of the filled ground around a cell of it.
func bottomOf(p *Plan, cell int, seen map[int]bool) int {
	g, bottom := p.Grid, cell
	seen[cell] = true
	for at := []int{cell}; len(at) > 0; {
		i := at[len(at)-1]
		at = at[:len(at)-1]
		if g.MM[i] < g.MM[bottom] || g.MM[i] == g.MM[bottom] && i < bottom {
			bottom = i
		}
		col, row := g.ColRow(i)
		for r := row - 1; r <= row+1; r++ {
			for c := col - 1; c <= col+1; c++ {
				if n := g.Index(c, r); g.Inside(c, r) && !seen[n] && p.Flow.FilledMM[n] > g.MM[n] {
					seen[n] = true
					at = append(at, n)
				}
			}
		}
	}
	return bottom
}

// stillPond tells of a declared stock pond in which nothing was filled.
func stillPond(p *Plan, cells []int, owner map[int]string) Depression {
	lowest := slices.MinFunc(cells, func(a, b int) int { return cmp.Or(cmp.Compare(p.Grid.MM[a], p.Grid.MM[b]), cmp.Compare(a, b)) })
	d := Depression{Kind: DepressionKept, Cause: flow.CauseStockPond, LengthM: math.NaN(), AreaM2: float64(len(cells)) * cellM2(p.Grid), cell: lowest,
		Note: "Declared stock pond with a spillway: its water stands level in the data, and water passes through it"}
	d.X, d.Y = p.Grid.CenterOf(lowest)
	for _, i := range cells {
		if d.Drainage == "" {
			d.Drainage = owner[i]
		}
	}
	return d
}

// keptPlaya tells of the k-th declared playa with the land that drains to it; ok is false where it
// lies off the data.
func keptPlaya(p *Plan, k int, owner map[int]string) (Depression, bool) {
	end := p.Flow.Playas[k]
	if end < 0 {
		return Depression{}, false
	}
	d := Depression{Kind: DepressionKept, Cause: flow.CausePlaya, LengthM: math.NaN(), cell: end, Drainage: owner[end],
		AreaM2: float64(len(cellsIn(p.Grid, p.Config.Flow.Features.Playas[k]))) * cellM2(p.Grid),
		Note:   fmt.Sprintf("Declared playa: flow ends here, from a catchment of %.2f ha", float64(p.Flow.Cells[end])*cellM2(p.Grid)/10_000)}
	d.X, d.Y = p.Grid.CenterOf(end)
	return d, true
}

// cellsIn lists the cells that hold data and whose centre lies in a polygon, ascending.
func cellsIn(g *raster.Grid, area orb.Polygon) (cells []int) {
	if len(area) == 0 || len(area[0]) == 0 {
		return nil
	}
	b := area.Bound()
	left, top := g.Transform.ColRow(b.Min[0], b.Max[1])
	right, bottom := g.Transform.ColRow(b.Max[0], b.Min[1])
	for row := max(top, 0); row <= min(bottom, g.Rows-1); row++ {
		for col := max(left, 0); col <= min(right, g.Cols-1); col++ {
			x, y := g.Transform.Center(col, row)
			if i := g.Index(col, row); g.MM[i] != raster.VoidMM && planar.PolygonContains(area, orb.Point{x, y}) {
				cells = append(cells, i)
			}
		}
	}
	return cells
}
