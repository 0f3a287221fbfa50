package cli

import (
	"github.com/paulmach/orb"
	"github.com/paulmach/orb/planar"

	"siltstep/hydro/siting"
	"siltstep/raster/gdal"
)

// readProperty returns the area inside which structures may stand; nil, anywhere, where no
// file is named. A place on the line counts as inside.
func readProperty(path string, dem *gdal.DEM) (siting.Area, error) {
	if path == "" {
		return nil, nil
	}
	land, err := gdal.ReadPolygons(path, dem)
	if err != nil {
		return nil, err
	}
	bound := land.Bound()
	return func(x, y float64) bool {
		p := orb.Point{x, y}
		return bound.Contains(p) && planar.MultiPolygonContains(land, p)
	}, nil
}
