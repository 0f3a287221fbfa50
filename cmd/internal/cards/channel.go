package cards

import (
	"fmt"
	"math"

	"siltstep/cmd/internal/facts"

	"github.com/paulmach/orb"
)

// A channel is the line of a drainage in metres of the grid.
type channel struct {
	id    string
	line  orb.LineString
	bound orb.Bound
}

// channels returns the lines of all drainages: from their profiles, else from the map layer where toGrid can place it.
func channels(f *facts.Folder, toGrid func([]orb.Point) ([]orb.Point, error)) (list []channel, err error) {
	for _, d := range f.Drainages {
		var line orb.LineString
		for _, p := range f.Profiles[d.ID] {
			if p.XM.Known() && p.YM.Known() {
				line = append(line, orb.Point{float64(p.XM), float64(p.YM)})
			}
		}
		if len(line) < 2 && toGrid != nil && len(f.Lines[d.ID]) > 1 {
			places, err := toGrid(f.Lines[d.ID])
			if err != nil {
				return nil, fmt.Errorf("line of %s: %w", d.ID, err)
			}
			line = places
		}
		if len(line) > 1 {
			list = append(list, channel{d.ID, line, line.Bound()})
		}
	}
	return list, nil
}

// mapBound returns the land of the overview: channels with dams, or all where there are none.
func (d *document) mapBound() (b orb.Bound, ok bool) {
	with := map[string]bool{}
	for _, r := range d.runs {
		for _, s := range r.dams {
			with[s.Drainage] = true
			if p, known := placeOf(s); known {
				b, ok = grown(b, p.Bound(), ok), true
			}
		}
	}
	for _, c := range d.lines {
		if len(with) == 0 || with[c.id] {
			b, ok = grown(b, c.bound, ok), true
		}
	}
	return b, ok
}

// grown joins two bounds; the first counts only where it holds something.
func grown(b, more orb.Bound, holds bool) orb.Bound {
	if !holds {
		return more
	}
	return b.Union(more)
}

// placeOf returns where a dam stands, metres of the grid.
func placeOf(s facts.Site) (orb.Point, bool) {
	return orb.Point{float64(s.XM), float64(s.YM)}, s.XM.Known() && s.YM.Known()
}

// acrossOf returns the direction across the channel at a dam, of length 1, x to the east and y to the north; to the east where no line is near.
func (d *document) acrossOf(s facts.Site) orb.Point {
	at, _ := placeOf(s)
	best, way := math.Inf(1), orb.Point{0, 1}
	for _, c := range d.lines {
		if c.id != s.Drainage {
			continue
		}
		for i := 1; i < len(c.line); i++ {
			a, b := c.line[i-1], c.line[i]
			far := math.Hypot((a[0]+b[0])/2-at[0], (a[1]+b[1])/2-at[1])
			if long := math.Hypot(b[0]-a[0], b[1]-a[1]); far < best && long > 0 {
				best, way = far, orb.Point{(b[0] - a[0]) / long, (b[1] - a[1]) / long}
			}
		}
	}
	return orb.Point{way[1], -way[0]}
}
