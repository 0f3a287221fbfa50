package channel

import "math"

// smoothPasses is how often the mean of three points, weights 1 : 2 : 1, runs over a line.
// Three passes leave at most 0.7 % of the up to 8.24 % that D8 adds to a straight valley
// and shorten a bend of radius 10 cells by 0.75 %. Source: our own choice, by the algebra
// of the kernel: variance 1.5 cells².
const smoothPasses = 3

// maxShiftCells is how far a vertex may move from the centre of its cell, in cell sides.
// Only a hairpin reaches it. Source: our own choice.
const maxShiftCells = 1.0

// vertex is a place on the grid in cell sides: the centre of cell (col, row) is (col, row).
// Sums of such numbers with these weights are exact.
type vertex struct {
	col, row float64
}

// distance returns how far apart two vertices are, in cell sides.
func (v vertex) distance(o vertex) float64 {
	return math.Sqrt((v.col-o.col)*(v.col-o.col) + (v.row-o.row)*(v.row-o.row))
}

// centers returns the cell centres of a path.
func centers(cells []int, cols int) []vertex {
	line := make([]vertex, len(cells), len(cells)+1) // room for a confluence
	for k, cell := range cells {
		line[k] = vertex{float64(cell % cols), float64(cell / cols)}
	}
	return line
}

// smooth returns a line freed of the steps of D8, vertex by vertex, both ends fixed. Each
// vertex stays within maxShiftCells of where it was.
func smooth(line []vertex) []vertex {
	out := make([]vertex, len(line))
	copy(out, line)
	for range smoothPasses {
		smoothOnce(out)
	}
	for k, v := range out {
		if d := v.distance(line[k]); d > maxShiftCells {
			pull := maxShiftCells / d
			out[k] = vertex{line[k].col + (v.col-line[k].col)*pull, line[k].row + (v.row-line[k].row)*pull}
		}
	}
	return out
}

// smoothOnce replaces each inner vertex by the mean of three points, weights 1 : 2 : 1.
func smoothOnce(line []vertex) {
	if len(line) < 3 {
		return
	}
	before := line[0]
	for k := 1; k < len(line)-1; k++ {
		here, after := line[k], line[k+1]
		line[k] = vertex{(before.col + 2*here.col + after.col) / 4, (before.row + 2*here.row + after.row) / 4}
		before = here
	}
}

// stationsOf returns the length along a line from its lower end to each vertex, in cell
// sides. The line runs downstream; the stations too, so the last one is zero.
func stationsOf(line []vertex) []float64 {
	s := make([]float64, len(line))
	for k := len(line) - 2; k >= 0; k-- {
		s[k] = s[k+1] + line[k].distance(line[k+1])
	}
	return s
}
