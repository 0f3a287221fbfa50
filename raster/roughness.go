package raster

import "math"

// How things that stand on the ground are told from the ground. Source: our own choices, by the size of trees and sheds.
const (
	roughPatch   = 64      // side of a patch, cells
	roughCells   = 1 << 22 // most cells looked at
	steepSlope   = 1.0     // rise over run; loose ground stands no steeper
	steepRelief  = 2000    // mm within steepWideM
	steepWideM   = 3.0     // side of the square in which relief is taken, m
	topApartM    = 4.0     // a top is the highest cell within this distance along rows and columns, m
	topReachM    = 15.0    // the ground is met within this distance on all sides, m
	lowestTopMM  = 2000    // least fall from a top to the ground on every side, mm
	highestTopMM = 25_000  // greatest, on the side of the least fall, mm
)

// RoughCellM is the largest cell on which single trees and sheds can be told, m. Source: our own choice.
const RoughCellM = 3.0

// Roughness tells of steep and standing things, which bare ground has few of and a surface model (tops of trees, roofs) many.
type Roughness struct {
	SteepShare float64 // share of cells, 0 to 1, steeper than 1 (45°) where the ground spans over 2 m within 3 m
	TopsPerHa  float64 // things 2 to 25 m high that fall off steeply on all sides, on a hectare
}

// Roughness looks at up to about four million cells, in patches. Both values are NaN on cells over RoughCellM and where no
// cell has four neighbours with data. Rock towers count as standing; roofs more than 15 m across do not.
func (g *Grid) Roughness() Roughness {
	none := Roughness{math.NaN(), math.NaN()}
	if g.Transform.CellM > RoughCellM {
		return none
	}
	steep, tops, counted := 0, 0, 0
	for _, w := range g.patches(roughPatch, roughCells) {
		for row := w.Row; row < w.Row+w.Rows; row++ {
			for col := w.Col; col < w.Col+w.Cols; col++ {
				s, ok := g.steep(col, row)
				if !ok {
					continue
				}
				counted++
				if s {
					steep++
				}
				if g.isTop(col, row) && g.standsAlone(col, row) {
					tops++
				}
			}
		}
	}
	if counted == 0 {
		return none
	}
	hectares := float64(counted) * g.Transform.CellM * g.Transform.CellM / 10_000
	return Roughness{float64(steep) / float64(counted), float64(tops) / hectares}
}

// steep reports whether a cell is steep in a place of high relief; ok is false where one of its four neighbours has no data.
func (g *Grid) steep(col, row int) (steep, ok bool) {
	if col < 1 || row < 1 || col > g.Cols-2 || row > g.Rows-2 {
		return false, false
	}
	i := row*g.Cols + col
	w, e, n, s := g.MM[i-1], g.MM[i+1], g.MM[i-g.Cols], g.MM[i+g.Cols]
	if min(g.MM[i], w, e, n, s) == VoidMM {
		return false, false
	}
	dx, dy := float64(e)-float64(w), float64(s)-float64(n)
	run := 2 * g.Transform.CellM * mmPerM * steepSlope
	if dx*dx+dy*dy <= run*run {
		return false, true
	}
	return g.reliefMM(col, row, g.cellsOf(steepWideM/2)) > steepRelief, true
}

// cellsOf returns a length in whole cells, at least one.
func (g *Grid) cellsOf(m float64) int { return max(1, int(math.Round(m/g.Transform.CellM))) }

// reliefMM returns highest less lowest within some cells along rows and columns, voids left out. The cell itself holds data.
func (g *Grid) reliefMM(col, row, reach int) int64 {
	lo, hi := g.At(col, row), g.At(col, row)
	for r := max(0, row-reach); r <= min(g.Rows-1, row+reach); r++ {
		for c := max(0, col-reach); c <= min(g.Cols-1, col+reach); c++ {
			if z := g.MM[r*g.Cols+c]; z != VoidMM {
				lo, hi = min(lo, z), max(hi, z)
			}
		}
	}
	return int64(hi) - int64(lo)
}

// isTop reports whether no cell near is higher, nor as high and earlier in the grid.
func (g *Grid) isTop(col, row int) bool {
	i := row*g.Cols + col
	z := g.MM[i]
	// Nearest first: most cells are no top.
	if g.MM[i-1] >= z || g.MM[i+1] > z || g.MM[i-g.Cols] >= z || g.MM[i+g.Cols] > z {
		return false
	}
	reach := g.cellsOf(topApartM)
	for r := max(0, row-reach); r <= min(g.Rows-1, row+reach); r++ {
		for c := max(0, col-reach); c <= min(g.Cols-1, col+reach); c++ {
			k := r*g.Cols + c
			if g.MM[k] > z || g.MM[k] == z && k < i {
				return false
			}
		}
	}
	return true
}

// standsAlone reports whether the ground falls off steeply and far enough in all eight directions, and not too far in one.
func (g *Grid) standsAlone(col, row int) bool {
	least := int64(math.MaxInt64)
	for _, way := range [8][2]int{{1, 0}, {0, 1}, {-1, 0}, {0, -1}, {1, 1}, {-1, 1}, {-1, -1}, {1, -1}} {
		fall, steep := g.fallMM(col, row, way[0], way[1])
		if !steep || fall < lowestTopMM {
			return false
		}
		least = min(least, fall)
	}
	return least <= highestTopMM
}

// fallMM returns how far the ground falls along a ray within reach of a top, and whether it does so steeply anywhere: a
// cell's fall over a cell's run, the run along a diagonal being longer by √2. The ray ends at a void or the border.
func (g *Grid) fallMM(col, row, right, down int) (fall int64, steep bool) {
	top := int64(g.At(col, row))
	run := g.Transform.CellM * math.Hypot(float64(right), float64(down))
	before := top
	for range int(topReachM / run) {
		col, row = col+right, row+down
		z := int64(g.At(col, row))
		if z == int64(VoidMM) {
			break
		}
		if float64(before-z) > steepSlope*run*mmPerM {
			steep = true
		}
		fall, before = max(fall, top-z), z
	}
	return fall, steep
}
