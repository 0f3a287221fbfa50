package raster

import "fmt"

// Window is a rectangle of cells: Cols × Rows from the north-west cell (Col, Row). Cells
// may lie outside a grid; a window with no columns or no rows is empty.
type Window struct {
	Col, Row   int // north-west cell
	Cols, Rows int // size in cells
}

// Empty reports whether the window holds no cell.
func (w Window) Empty() bool { return w.Cols <= 0 || w.Rows <= 0 }

// Intersect returns the cells that lie in both windows, the zero Window where there are none.
func (w Window) Intersect(o Window) Window {
	if w.Empty() || o.Empty() {
		return Window{}
	}
	col, row := max(w.Col, o.Col), max(w.Row, o.Row)
	both := Window{
		Col: col, Row: row,
		Cols: min(w.Col+w.Cols, o.Col+o.Cols) - col,
		Rows: min(w.Row+w.Rows, o.Row+o.Rows) - row,
	}
	if both.Empty() {
		return Window{}
	}
	return both
}

// Bounds returns the window that holds the whole grid.
func (g *Grid) Bounds() Window { return Window{Cols: g.Cols, Rows: g.Rows} }

// Clip returns a new grid that holds the cells of w inside g, at their places on the map;
// what reaches over the edge of g is left off. Elevations are copied, so changing one grid
// leaves the other. Error: w and g have no cell in common.
func (g *Grid) Clip(w Window) (*Grid, error) {
	in := w.Intersect(g.Bounds())
	if in.Empty() {
		return nil, fmt.Errorf("raster: window of %d x %d cells at column %d, row %d lies outside the grid of %d x %d; choose one that touches it",
			w.Cols, w.Rows, w.Col, w.Row, g.Cols, g.Rows)
	}
	t := g.Transform
	t.OriginX += float64(in.Col) * t.CellM
	t.OriginY -= float64(in.Row) * t.CellM
	out := New(in.Cols, in.Rows, t)
	for row := range in.Rows {
		from := g.Index(in.Col, in.Row+row)
		copy(out.MM[row*in.Cols:(row+1)*in.Cols], g.MM[from:from+in.Cols])
	}
	return out, nil
}
