package erosion

import (
	"fmt"
	"math"
	"runtime"
	"sync"
	"sync/atomic"

	"siltstep/hydro/channel"
	"siltstep/raster"
)

// tileSide is the least side of the squares in which the top-hat is worked, in cells: one with its margins and the
// scratch stay in a cache of 1 MiB. Our own choice; 128 and 512 were no faster or slower.
const tileSide = 256

// Survey measures the depth of the bed below the land at every station of every drainage by the black
// top-hat, in metres, one slice a drainage. workers is the number of goroutines; zero means one per processor.
//
// The black top-hat is the closing of the ground by a level square, less the ground. The closing at a cell is the least, over
// all squares of side windowM that hold the cell, of the highest ground in the square. It is read at the cell that Station.GroundM was
// read from; of several at that level the greatest counts. A station without a bed (Station.NoBed) has NaN; so have all where
// windowM is under two cells, since a square of three then reaches past it, up the sides of the valley, and no gully shows.
//
// A trench narrower than the square is measured to its full depth whatever the slope of the land
// along it. So is what is no trench: a plain valley whose sides rise by s reads up to s·windowM/√2, which Measure takes off again,
// and noise adds some three of its standard deviations. Only the land around stations is worked. The result is the same for any number of
// workers. It panics where windowM is not positive. See TopHatMM for the edges of the data.
func Survey(g *raster.Grid, n *channel.Network, windowM float64, workers int) [][]float64 {
	w := squareOf(g, windowM)
	seen := spans(windowM, g.Transform.CellM)
	out := make([][]float64, len(n.Drainages))
	stops := make([][]stop, w.tiles(g))
	for i, d := range n.Drainages {
		out[i] = make([]float64, len(d.Profile.Stations))
		for k, s := range d.Profile.Stations {
			out[i][k] = math.NaN()
			if !s.NoBed && seen {
				t := w.tileOf(g, s.Cell)
				stops[t] = append(stops[t], stop{i, k, s.Cell, int32(math.Round(s.GroundM * 1000))})
			}
		}
	}
	w.each(g, workers, func(tile int, r *roof) {
		if len(stops[tile]) == 0 {
			return
		}
		r.raise(g, around(g, stops[tile]), w)
		for _, s := range stops[tile] {
			out[s.drainage][s.station] = float64(r.atBed(g, s)) / 1000
		}
	})
	return out
}

// TopHatMM returns the black top-hat of a whole grid in millimetres, exact, one value a cell: the closing
// by a square of side windowM, less the ground. The side is the nearest odd number of cells, of two the larger, and at
// least 3. It is never negative; void cells stay raster.VoidMM.
// Voids and the land beyond the edge raise nothing, and a square may reach over them: where the
// bank of a trench is not on the data no depth is told, and a plane has none anywhere.
// workers is the number of goroutines; zero means one per processor; the result is the same for any number. It panics
// where windowM is not positive. Cost: three comparisons a cell, axis and pass, whatever the window. Sources: Serra1982 for the
// closing, VanHerk1992 and GilWerman1993 for running maxima.
func TopHatMM(g *raster.Grid, windowM float64, workers int) []int32 {
	return squareOf(g, windowM).topHatMM(g, workers)
}

// topHatMM is TopHatMM for a square.
func (w square) topHatMM(g *raster.Grid, workers int) []int32 {
	out := make([]int32, len(g.MM))
	w.each(g, workers, func(tile int, r *roof) {
		in := w.tile(g, tile)
		r.raise(g, in, w)
		r.finish()
		for row := in.Row; row < in.Row+in.Rows; row++ {
			from := g.Index(in.Col, row)
			for k, over := range r.row(row) {
				if z := g.MM[from+k]; z != raster.VoidMM {
					out[from+k] = ^over - z
				} else {
					out[from+k] = raster.VoidMM
				}
			}
		}
	})
	return out
}

// stop is a station with a bed, as the survey needs it.
type stop struct {
	drainage, station int
	cell              int
	groundMM          int32
}

// around returns the cells of stops and all their neighbours, as a window inside the grid.
func around(g *raster.Grid, stops []stop) raster.Window {
	west, north := g.Cols, g.Rows
	east, south := 0, 0
	for _, s := range stops {
		col, row := g.ColRow(s.cell)
		west, east = min(west, col-1), max(east, col+1)
		north, south = min(north, row-1), max(south, row+1)
	}
	return raster.Window{Col: west, Row: north, Cols: east - west + 1, Rows: south - north + 1}.Intersect(g.Bounds())
}

// square is the shape of the closing: the cells it reaches from its middle along a row and along a column.
// Beyond half the grid a longer reach changes nothing and is cut.
type square struct {
	cols, rows int
	side       int // of a tile, in cells
}

func squareOf(g *raster.Grid, windowM float64) square {
	if !(windowM > 0) {
		panic(fmt.Sprintf("erosion: window of the top-hat is %g m; it must be positive", windowM))
	}
	half := reachCells(windowM, g.Transform.CellM)
	w := square{cols: min(half, g.Cols/2), rows: min(half, g.Rows/2)}
	w.side = max(tileSide, 4*w.cols, 4*w.rows)
	return w
}

// reachCells returns how many cells the square reaches from its middle, at least one.
func reachCells(windowM, cellM float64) int {
	const slack = 1e-9 // a side that is a whole number of cells stays so whatever the rounding
	return int(min(max(1, math.Floor(windowM/cellM/2+slack)), raster.MaxCells))
}

// spans reports whether a window reaches a cell to either side of its middle, so that the square need not be larger than asked for.
func spans(windowM, cellM float64) bool { return windowM >= 2*cellM*(1-1e-9) }

// spanM returns the side of the square between the middles of its outer cells, in metres.
func spanM(windowM, cellM float64) float64 { return 2 * float64(reachCells(windowM, cellM)) * cellM }

// tiles returns how many tiles cover a grid.
func (w square) tiles(g *raster.Grid) int { return w.across(g) * ((g.Rows + w.side - 1) / w.side) }

// across returns how many tiles lie side by side.
func (w square) across(g *raster.Grid) int { return (g.Cols + w.side - 1) / w.side }

// tileOf returns the tile that holds a cell.
func (w square) tileOf(g *raster.Grid, cell int) int {
	col, row := g.ColRow(cell)
	return row/w.side*w.across(g) + col/w.side
}

// tile returns the cells of a tile.
func (w square) tile(g *raster.Grid, i int) raster.Window {
	col, row := i%w.across(g)*w.side, i/w.across(g)*w.side
	return raster.Window{Col: col, Row: row, Cols: w.side, Rows: w.side}.Intersect(g.Bounds())
}

// each calls do once for every tile, from several goroutines at once, each with a roof of its own.
func (w square) each(g *raster.Grid, workers int, do func(tile int, r *roof)) {
	if workers <= 0 {
		workers = runtime.GOMAXPROCS(0)
	}
	tiles := w.tiles(g)
	var next atomic.Int64
	var group sync.WaitGroup
	for range min(workers, tiles) {
		group.Go(func() {
			var r roof
			for i := int(next.Add(1)) - 1; i < tiles; i = int(next.Add(1)) - 1 {
				do(i, &r)
			}
		})
	}
	group.Wait()
}
