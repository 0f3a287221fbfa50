package cli

import (
	"github.com/paulmach/orb"
	"github.com/paulmach/orb/planar"

	"siltstep/hydro/channel"
	"siltstep/hydro/siting"
	"siltstep/raster/gdal"
)

// A property is the land of a ranch in map coordinates; nil where none is given.
type property orb.MultiPolygon

// readProperty reads the outlines of a property; nil where no file is named.
func readProperty(path string, dem *gdal.DEM) (property, error) {
	if path == "" {
		return nil, nil
	}
	land, err := gdal.ReadPolygons(path, dem)
	return property(land), err
}

// area returns where structures may stand; nil, anywhere, where no property is given. A place
// on the line counts as inside.
func (p property) area() siting.Area {
	if p == nil {
		return nil
	}
	land := orb.MultiPolygon(p)
	bound := land.Bound()
	return func(x, y float64) bool {
		at := orb.Point{x, y}
		return bound.Contains(at) && planar.MultiPolygonContains(land, at)
	}
}

// shares returns the share of the length of each drainage that lies inside, by its stations;
// nil where no property is given.
func (p property) shares(n *channel.Network) []float64 {
	inside := p.area()
	if inside == nil {
		return nil
	}
	shares := make([]float64, len(n.Drainages))
	for i := range n.Drainages {
		profile := n.Drainages[i].Profile
		within := 0.0
		for k := 1; k < len(profile.Stations); k++ {
			a, b := profile.Stations[k-1], profile.Stations[k]
			for _, end := range []channel.Station{a, b} {
				if inside(end.X, end.Y) {
					within += (b.StationM - a.StationM) / 2
				}
			}
		}
		if length := profile.LengthM(); length > 0 {
			shares[i] = within / length
		}
	}
	return shares
}
