package page

import (
	"fmt"
	"maps"
	"math"
	"slices"

	"siltstep/cmd/internal/facts"

	"github.com/paulmach/orb"
	"github.com/paulmach/orb/simplify"
)

// ringWithinCells is how far the outline of a catchment may lie from what it was, in cells; our own choice.
const ringWithinCells = 0.75

// An origin is the lower left corner of the grid, from which places on the map are counted, and its cell.
type origin struct{ westM, southM, cellM float64 }

func originOf(g facts.Grid) origin {
	return origin{float64(g.WestM), float64(g.NorthM) - float64(g.Rows)*float64(g.CellM), float64(g.CellM)}
}

// catchments packs the outlines of catchments by drainage, with fewer corners.
func (o origin) catchments(shapes map[string]orb.Geometry, toGrid func([]orb.Point) ([]orb.Point, error)) (map[string][][]int, error) {
	packed := make(map[string][][]int, len(shapes))
	for id, shape := range shapes {
		for _, ring := range ringsOf(shape) {
			ints, err := o.ring(orb.LineString(ring), ringWithinCells*o.cellM, toGrid)
			if err != nil {
				return nil, fmt.Errorf("catchment of %s: %w", id, err)
			}
			packed[id] = append(packed[id], ints)
		}
	}
	return packed, nil
}

func ringsOf(shape orb.Geometry) (rings []orb.Ring) {
	switch g := shape.(type) {
	case orb.Polygon:
		return g
	case orb.MultiPolygon:
		for _, p := range g {
			rings = append(rings, p...)
		}
	}
	return rings
}

// A limit is what was declared of one kind, property or road say: lines, areas by their rings, and single places.
type limit struct {
	Kind   string  `json:"kind"`
	Lines  [][]int `json:"lines"`
	Areas  [][]int `json:"areas"`
	Places [][]int `json:"places"`
}

// limits packs what was declared, by kind in the order of the alphabet.
func (o origin) limits(declared map[string][]orb.Geometry, toGrid func([]orb.Point) ([]orb.Point, error)) (list []limit, err error) {
	for _, kind := range slices.Sorted(maps.Keys(declared)) {
		one := limit{Kind: kind}
		for _, shape := range declared[kind] {
			if err := o.add(&one, shape, toGrid); err != nil {
				return nil, fmt.Errorf("%s: %w", kind, err)
			}
		}
		list = append(list, one)
	}
	return list, nil
}

// add packs one shape into a limit.
func (o origin) add(l *limit, shape orb.Geometry, toGrid func([]orb.Point) ([]orb.Point, error)) error {
	into := func(list *[][]int, line orb.LineString) error {
		ints, err := o.ring(line, 0, toGrid)
		*list = append(*list, ints)
		return err
	}
	switch g := shape.(type) {
	case orb.Point:
		return into(&l.Places, orb.LineString{g})
	case orb.LineString:
		return into(&l.Lines, g)
	case orb.MultiPoint:
		return o.addAll(l, len(g), func(i int) orb.Geometry { return g[i] }, toGrid)
	case orb.MultiLineString:
		return o.addAll(l, len(g), func(i int) orb.Geometry { return g[i] }, toGrid)
	case orb.Collection:
		return o.addAll(l, len(g), func(i int) orb.Geometry { return g[i] }, toGrid)
	}
	for _, ring := range ringsOf(shape) {
		if err := into(&l.Areas, orb.LineString(ring)); err != nil {
			return err
		}
	}
	return nil
}

func (o origin) addAll(l *limit, n int, shape func(int) orb.Geometry, toGrid func([]orb.Point) ([]orb.Point, error)) error {
	for i := range n {
		if err := o.add(l, shape(i), toGrid); err != nil {
			return err
		}
	}
	return nil
}

// ring returns a line as x and y by turns, decimetres from the origin, each the difference from the one before.
func (o origin) ring(line orb.LineString, withinM float64, toGrid func([]orb.Point) ([]orb.Point, error)) ([]int, error) {
	at, err := toGrid(line)
	if err != nil {
		return nil, err
	}
	if len(at) != len(line) {
		return nil, errOutside
	}
	if withinM > 0 {
		at = simplify.DouglasPeucker(withinM).LineString(append(orb.LineString(nil), at...))
	}
	ints := make([]int, 0, 2*len(at))
	var lastX, lastY int
	for _, p := range at {
		if math.IsNaN(p[0]+p[1]) || math.IsInf(p[0]+p[1], 0) {
			return nil, errOutside
		}
		x, y := int(math.Round((p[0]-o.westM)*10)), int(math.Round((p[1]-o.southM)*10))
		ints = append(ints, x-lastX, y-lastY)
		lastX, lastY = x, y
	}
	return ints, nil
}
