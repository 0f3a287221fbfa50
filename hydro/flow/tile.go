package flow

import "siltstep/raster"

// tileSide is the side of a tile in cells. With a wall one cell wide around it a tile has
// 2^16 places, so that a place fits in 16 bits and the working set in a core's own cache.
const (
	tileSide = 254
	wallSide = tileSide + 2
	places   = wallSide * wallSide
)

// Labels of places during a flood. Those from firstLabel up name the floods of a tile.
const (
	openLabel    uint16 = 0      // not reached yet
	outsideLabel uint16 = 1      // drains to an end of flow without rising
	firstLabel   uint16 = 2      // first flood that starts from a cell on the tile's perimeter
	waitingLabel uint16 = 0xfffe // on the perimeter, in the queue
	voidLabel    uint16 = 0xffff // no data, or the wall
)

// tile is a square of the grid and what its flood left for the others.
type tile struct {
	col, row, cols, rows int
	labels               int    // floods that started from the perimeter
	ends                 []int  // declared ends of flow in it
	meets                []edge // lowest places where floods meet: a spanning forest
	node                 int    // number of its first flood among all tiles
}

func tilesAcross(cells int) int { return (cells + tileSide - 1) / tileSide }

func layTiles(g *raster.Grid) []tile {
	var tiles []tile
	for row := 0; row < g.Rows; row += tileSide {
		for col := 0; col < g.Cols; col += tileSide {
			tiles = append(tiles, tile{col: col, row: row, cols: min(tileSide, g.Cols-col), rows: min(tileSide, g.Rows-row)})
		}
	}
	return tiles
}

// global returns the node of a label: 0 for the outside.
func (t *tile) global(label uint16) uint32 {
	if label == outsideLabel {
		return 0
	}
	return uint32(t.node) + uint32(label-firstLabel)
}

// raise lifts every cell of the tile to the level of its flood.
func (t *tile) raise(gridCols int, filled []int32, labels []uint16, levels []int32) {
	for r := t.row; r < t.row+t.rows; r++ {
		from := r*gridCols + t.col
		zs, ls := filled[from:from+t.cols], labels[from:from+t.cols]
		for i, l := range ls {
			if l >= firstLabel && l != voidLabel {
				zs[i] = max(zs[i], levels[l-firstLabel])
			}
		}
	}
}
