package gdal

import (
	"math"
	"slices"
)

// phaseCells is how far, in cells, tiles may lie off a common grid: enough for rounded
// corner coordinates, far too little to shift a cell.
const phaseCells = 0.01

// mosaic is one elevation model made of one or more files on a common grid.
type mosaic struct {
	tiles      []tile
	cols, rows int
	geo        [6]float64
	system     crs
	overlaps   bool
	gaps       bool // some cells lie in no file
}

// assemble checks that the files fit together and finds the place of each.
func assemble(tiles []tile, system crs) (mosaic, error) {
	first := tiles[0]
	if len(tiles) == 1 {
		return mosaic{tiles: tiles, cols: first.cols, rows: first.rows, geo: first.geo, system: system}, nil
	}
	west, north := first.geo[0], first.geo[3]
	for i := range tiles {
		if err := fits(&first, &tiles[i]); err != nil {
			return mosaic{}, err
		}
		west, north = min(west, tiles[i].geo[0]), max(north, tiles[i].geo[3])
	}
	m := mosaic{tiles: tiles, geo: first.geo, system: system}
	// The corner is counted from the first file in whole cells, so that rounded corner
	// coordinates of other files do not move the grid.
	dx, dy := first.geo[1], -first.geo[5]
	left, up := math.Round((first.geo[0]-west)/dx), math.Round((north-first.geo[3])/dy)
	m.geo[0], m.geo[3] = first.geo[0]-left*dx, first.geo[3]+up*dy
	for i := range tiles {
		t := &m.tiles[i]
		col, row := (t.geo[0]-m.geo[0])/dx, (m.geo[3]-t.geo[3])/dy
		t.col, t.row = int(math.Round(col)), int(math.Round(row))
		if math.Abs(col-math.Round(col)) > phaseCells || math.Abs(row-math.Round(row)) > phaseCells {
			return mosaic{}, wrong("%s and %s: their cells do not lie on one grid (shifted by %.2f and %.2f cells): resample one onto the other first",
				first.path, t.path, math.Abs(col-math.Round(col)), math.Abs(row-math.Round(row)))
		}
		m.cols, m.rows = max(m.cols, t.col+t.cols), max(m.rows, t.row+t.rows)
	}
	m.coverage()
	return m, nil
}

// fits compares a file with the first one; each message names both.
func fits(a, b *tile) error {
	const together = "%s and %s cannot be one elevation model: "
	switch {
	case !sameCRS(a.wkt, b.wkt):
		return wrong(together+"their coordinate systems differ (%s; %s): warp one to the other first",
			a.path, b.path, systemName(a.wkt), systemName(b.wkt))
	case !a.northUp() || !b.northUp():
		t := a
		if a.northUp() {
			t = b
		}
		return wrong(together+"%s is rotated or south-up: warp it north-up first, or give it alone", a.path, b.path, t.path)
	case math.Abs(a.geo[1]-b.geo[1])*float64(max(a.cols, b.cols)) > phaseCells*a.geo[1],
		math.Abs(a.geo[5]-b.geo[5])*float64(max(a.rows, b.rows)) > phaseCells*-a.geo[5]:
		return wrong(together+"their cells differ (%g x %g; %g x %g): resample one to the other first",
			a.path, b.path, a.geo[1], -a.geo[5], b.geo[1], -b.geo[5])
	case a.band != b.band:
		return wrong(together+"their band types differ (%s; %s): convert one, for instance with gdal_translate -ot %s",
			a.path, b.path, a.band, b.band, a.band)
	case !sameUnitText(a.unitText, b.unitText):
		return wrong(together+"their heights are in different units (%s; %s): bring both to one unit first",
			a.path, b.path, orNone(a.unitText), orNone(b.unitText))
	}
	return nil
}

func systemName(wkt string) string {
	if wkt == "" {
		return "none"
	}
	return firstQuoted(wkt)
}

func sameUnitText(a, b string) bool {
	if a == b {
		return true
	}
	one, ok := unitByWord(a)
	two, also := unitByWord(b)
	return ok && also && one.same(two)
}

func orNone(text string) string {
	if text == "" {
		return "not stated"
	}
	return text
}

// coverage finds whether files overlap and whether cells lie in none, on the raster of
// all their edges.
func (m *mosaic) coverage() {
	xs, ys := []int{0, m.cols}, []int{0, m.rows}
	for _, t := range m.tiles {
		xs, ys = append(xs, t.col, t.col+t.cols), append(ys, t.row, t.row+t.rows)
	}
	slices.Sort(xs)
	slices.Sort(ys)
	xs, ys = slices.Compact(xs), slices.Compact(ys)
	count := make([]int, len(xs)*len(ys))
	for _, t := range m.tiles {
		for i, y := range ys {
			for k, x := range xs {
				if x >= t.col && x < t.col+t.cols && y >= t.row && y < t.row+t.rows {
					count[i*len(xs)+k]++
				}
			}
		}
	}
	for i := range len(ys) - 1 {
		for k := range len(xs) - 1 {
			n := count[i*len(xs)+k]
			m.overlaps = m.overlaps || n > 1
			m.gaps = m.gaps || n == 0
		}
	}
}
