package demo

import (
	"errors"
	"math"
)

// Shares of the data's width and height that the property takes, and how far its east or
// west line may be moved, as a share of the width, to cross a trenched drainage.
const (
	propertyWide  = 0.56
	propertyHigh  = 0.62
	propertyMove  = 0.14
	propertyPiece = 0.3 // share of the property's sides that the corner left out takes
)

// limits are the property lines: north–south and east–west, as survey sections run, with a
// corner left out in the north-west. In the middle of the data, so that catchments reach
// beyond the property and the data beyond them.
type limits struct {
	west, north, east, south float64 // ranch metres
	cut                      *gully  // the drainage that the east or west line crosses
	cutStation               int
}

// layProperty draws the property so that its east or west line crosses a trenched drainage
// in the middle of its trench: the crossing that moves the line least.
func (b *builder) layProperty() error {
	w, h := b.land.widthM, b.land.heightM
	l := limits{
		west: w * (1 - propertyWide) / 2, east: w * (1 + propertyWide) / 2,
		north: h * (1 - propertyHigh) / 2, south: h * (1 + propertyHigh) / 2,
	}
	best := propertyMove * w
	for _, g := range b.gullies[1:] {
		k := (g.from + g.to) / 2
		p := g.line.at[k]
		move := min(math.Abs(p.e-l.west), math.Abs(p.e-l.east))
		across := math.Abs(g.line.along(k).e) > 0.5
		if across && !g.enters && !g.nearHead(k, 10) && p.s > l.north+80 && p.s < l.south-80 && move < best {
			best, l.cut, l.cutStation = move, g, k
		}
	}
	if l.cut == nil {
		return errors.New("no trenched drainage for the property line to cross; try another seed")
	}
	if p := l.cut.line.at[l.cutStation]; p.e > w/2 {
		l.east = p.e
	} else {
		l.west = p.e
	}
	b.limits = l
	return nil
}

// corner returns the inner corner of the piece left out in the north-west.
func (l *limits) corner() spot {
	return spot{lerp(l.west, l.east, propertyPiece), lerp(l.north, l.south, propertyPiece)}
}

// holds reports whether a place lies on the property, at least insetM from its lines.
func (l *limits) holds(p spot, insetM float64) bool {
	c := l.corner()
	return p.e > l.west+insetM && p.e < l.east-insetM && p.s > l.north+insetM && p.s < l.south-insetM &&
		(p.e > c.e+insetM || p.s > c.s+insetM)
}

// ring returns the property counterclockwise on the map, closed.
func (l *limits) ring() []spot {
	c := l.corner()
	return []spot{{l.west, c.s}, {l.west, l.south}, {l.east, l.south}, {l.east, l.north}, {c.e, l.north}, c, {l.west, c.s}}
}
