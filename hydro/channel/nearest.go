package channel

import (
	"math"

	"siltstep/hydro/flow"
	"siltstep/raster"
)

// Nearest returns the channel cell nearest to a map position, no further than withinM
// metres, and its distance; where there is none ok is false, cell −1 and distM +Inf. Channel is every cell with
// enough catchment: a link that Build would prune as too short counts too. Distances run to
// cell centres; of equal ones the lower cell index wins. A position outside the grid is
// answered; a withinM that is negative or not a number finds nothing. Cost: the cells of
// the square that holds the circle.
func Nearest(g *raster.Grid, f *flow.Field, cfg Config, x, y, withinM float64) (cell int, distM float64, ok bool) {
	mustMatch(g, f)
	t := g.Transform
	startCells := cfg.startCells(t.CellM)
	fromCol, toCol := span((x-t.OriginX)/t.CellM, withinM/t.CellM, g.Cols)
	fromRow, toRow := span((t.OriginY-y)/t.CellM, withinM/t.CellM, g.Rows)
	cell, distM = -1, math.Inf(1)
	for row := fromRow; row < toRow; row++ {
		for col := fromCol; col < toCol; col++ {
			i := g.Index(col, row)
			if f.Cells[i] < startCells {
				continue
			}
			cx, cy := t.Center(col, row)
			if d := math.Hypot(cx-x, cy-y); d <= withinM && d < distM {
				cell, distM, ok = i, d, true
			}
		}
	}
	return cell, distM, ok
}

// span returns the half-open range of cells, of n along one axis, that a circle can reach;
// middle and radius are in cell sides from the outer edge. Empty where any is not a number.
func span(middle, radius float64, n int) (from, to int) {
	low, high := math.Floor(middle-radius), math.Ceil(middle+radius)
	if math.IsNaN(low) || math.IsNaN(high) || low >= high {
		return 0, 0
	}
	return int(max(0, min(low, float64(n)))), int(max(0, min(high, float64(n))))
}
