package erosion

import (
	"math"

	"siltstep/raster"
)

// roof is the closing of part of a grid, with the memory to work it.
type roof struct {
	in     raster.Window
	span   int     // cells of the square along a row
	stride int     // cells from row to row
	mm     []int32 // rows of stride cells, first cell in the north-west corner of in; upside down
	tail   []int32 // scratch
	front  []int32 // scratch
}

// raise works the closing at the cells of a window inside the grid, all but the last pass along rows, which at and finish do.
//
// A closing is the least, over all squares that hold the cell, of the greatest elevation in the square.
// Greatest first, along rows then columns, then least. Each pass leaves the value of the cells i … i+2·reach at place i, so
// that a margin of twice the reach on all sides is used up. Voids are the least of numbers and so never are the greatest.
func (r *roof) raise(g *raster.Grid, in raster.Window, w square) {
	r.load(g, in, w)
	cols, rows := in.Cols+4*w.cols, in.Rows+4*w.rows
	r.alongRows(cols, rows, 2*w.cols+1)
	cols -= 2 * w.cols
	r.alongColumns(cols, rows, 2*w.rows+1)
	rows -= 2 * w.rows
	r.turnOver(cols, rows) // the least is the greatest upside down
	r.alongColumns(cols, rows, 2*w.rows+1)
}

// at returns the closing at a cell of the window, in millimetres.
func (r *roof) at(col, row int) int32 {
	from := (row-r.in.Row)*r.stride + col - r.in.Col
	top := int32(math.MinInt32)
	for _, z := range r.mm[from : from+r.span] {
		top = max(top, z)
	}
	return ^top
}

// finish works the last pass for the whole window. From then on row is read and no longer at.
func (r *roof) finish() { r.alongRows(r.in.Cols+r.span-1, r.in.Rows, r.span) }

// row returns the closing upside down along a row of the grid: the complement of millimetres.
func (r *roof) row(row int) []int32 {
	from := (row - r.in.Row) * r.stride
	return r.mm[from : from+r.in.Cols]
}

// load copies the elevations of a window with its margin; off the grid they are void.
func (r *roof) load(g *raster.Grid, in raster.Window, w square) {
	r.in, r.span = in, 2*w.cols+1
	r.stride = in.Cols + 4*w.cols
	rows := in.Rows + 4*w.rows
	r.mm = sized(r.mm, r.stride*rows)
	r.front = sized(r.front, r.stride)
	r.tail = sized(r.tail, max(r.span, r.stride*(2*w.rows+1)))
	west, north := in.Col-2*w.cols, in.Row-2*w.rows
	here := raster.Window{Col: west, Row: north, Cols: r.stride, Rows: rows}.Intersect(g.Bounds())
	for i := range rows {
		line := r.mm[i*r.stride : (i+1)*r.stride]
		row := north + i
		if row < here.Row || row >= here.Row+here.Rows {
			fill(line, raster.VoidMM)
			continue
		}
		first := here.Col - west
		fill(line[:first], raster.VoidMM)
		from := g.Index(here.Col, row)
		copy(line[first:], g.MM[from:from+here.Cols])
		fill(line[first+here.Cols:], raster.VoidMM)
	}
}

// alongRows replaces each cell by the greatest of itself and the span−1 cells after it in its row. The
// last span−1 cells of a row are left unfit for use.
func (r *roof) alongRows(cols, rows, span int) {
	tail := r.tail[:span]
	for i := range rows {
		line := r.mm[i*r.stride : i*r.stride+cols]
		for from := 0; from+span <= cols; from += span {
			block := line[from : from+span]
			top := int32(math.MinInt32)
			for k := span - 1; k >= 0; k-- {
				top = max(top, block[k])
				tail[k] = top
			}
			next := line[from+span : min(from+2*span, cols)]
			top = math.MinInt32
			block[0] = tail[0]
			rest, tails := block[1:], tail[1:]
			for k := range min(len(next), len(rest)) {
				top = max(top, next[k])
				rest[k] = max(top, tails[k])
			}
		}
	}
}

// alongColumns replaces each cell by the greatest of itself and the span−1 cells after it in its column. The
// last span−1 rows are left unfit for use.
func (r *roof) alongColumns(cols, rows, span int) {
	line := func(i int) []int32 { return r.mm[i*r.stride : i*r.stride+cols] }
	tail := func(k int) []int32 { return r.tail[k*cols : (k+1)*cols] }
	for from := 0; from+span <= rows; from += span {
		copy(tail(span-1), line(from+span-1))
		for k := span - 2; k >= 0; k-- {
			greater(tail(k), line(from+k), tail(k+1))
		}
		copy(line(from), tail(0))
		front := r.front[:cols]
		fill(front, math.MinInt32)
		for k := 1; k < span && from+span+k-1 < rows; k++ {
			advance(line(from+k), front, line(from+span+k-1), tail(k))
		}
	}
}

// greater sets out to the greater of a and b, cell by cell.
func greater(out, a, b []int32) {
	a, b = a[:len(out)], b[:len(out)]
	for i := range out {
		out[i] = max(a[i], b[i])
	}
}

// advance raises front to next and sets out to the greater of front and tail.
func advance(out, front, next, tail []int32) {
	front, next, tail = front[:len(out)], next[:len(out)], tail[:len(out)]
	for i := range out {
		top := max(front[i], next[i])
		front[i] = top
		out[i] = max(top, tail[i])
	}
}

// turnOver sets each cell to its complement, which reverses the order of elevations.
func (r *roof) turnOver(cols, rows int) {
	for i := range rows {
		line := r.mm[i*r.stride : i*r.stride+cols]
		for k, z := range line {
			line[k] = ^z
		}
	}
}

// atBed returns the top-hat in millimetres at the cell that a stop's ground was read from, of several the greatest; at the stop's
// own cell where none is at that level, as where a tributary ends on the bed of a larger drainage.
func (r *roof) atBed(g *raster.Grid, s stop) int32 {
	col, row := g.ColRow(s.cell)
	depth, found := int32(0), false
	for dRow := -1; dRow <= 1; dRow++ {
		for dCol := -1; dCol <= 1; dCol++ {
			if z := g.At(col+dCol, row+dRow); z == s.groundMM && z != raster.VoidMM {
				depth, found = max(depth, r.at(col+dCol, row+dRow)-z), true
			}
		}
	}
	if !found {
		return r.at(col, row) - g.MM[s.cell]
	}
	return depth
}

// sized returns a slice of n cells, buf itself where it is large enough.
func sized(buf []int32, n int) []int32 {
	if cap(buf) < n {
		return make([]int32, n)
	}
	return buf[:n]
}

// fill sets every cell to z.
func fill(cells []int32, z int32) {
	for i := range cells {
		cells[i] = z
	}
}
