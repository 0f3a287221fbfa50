package gdal

import (
	"math"

	"github.com/paulmach/orb"
)

// Ellipsoid of WGS 84. Source: NGA.SIG.0012, 2014 (from memory); it defines EPSG:7030.
const (
	semiMajorM = 6378137.0
	flattening = 1 / 298.257223563
)

// radii returns the radii of curvature at a latitude in degrees, m: along the meridian and
// along the parallel's prime vertical. Closed forms of the ellipsoid.
func radii(lat float64) (meridianM, normalM float64) {
	e2 := flattening * (2 - flattening)
	s := math.Sin(lat * math.Pi / 180)
	w := 1 - e2*s*s
	return semiMajorM * (1 - e2) / (w * math.Sqrt(w)), semiMajorM / math.Sqrt(w)
}

// groundM returns the distance on the ellipsoid between two near positions in degrees, m.
// Right to 1 in a million up to some kilometres: the curvature is that of the middle.
func groundM(a, b orb.Point) float64 {
	m, n := radii((a[1] + b[1]) / 2)
	north := (b[1] - a[1]) * math.Pi / 180 * m
	east := math.Remainder(b[0]-a[0], 360) * math.Pi / 180 * n * math.Cos((a[1]+b[1])/2*math.Pi/180)
	return math.Hypot(east, north)
}

// mapPoint returns the map position of a place in cells, by an affine transform.
func mapPoint(geo [6]float64, col, row float64) orb.Point {
	return orb.Point{geo[0] + col*geo[1] + row*geo[2], geo[3] + col*geo[4] + row*geo[5]}
}

// cellGround returns the ground sizes of the cell at a place, along a row and along a
// column, m.
func cellGround(p *projector, geo [6]float64, col, row float64) (alongM, downM float64, err error) {
	pts, err := p.points([]orb.Point{
		mapPoint(geo, col-0.5, row), mapPoint(geo, col+0.5, row),
		mapPoint(geo, col, row-0.5), mapPoint(geo, col, row+0.5),
	})
	if err != nil {
		return 0, 0, err
	}
	return groundM(pts[0], pts[1]), groundM(pts[2], pts[3]), nil
}

// outline returns points along the four edges of a raster, edgePoints on each, in map
// coordinates.
func outline(geo [6]float64, cols, rows int) []orb.Point {
	const edgePoints = 65
	var pts []orb.Point
	w, h := float64(cols), float64(rows)
	for i := range edgePoints {
		f := float64(i) / (edgePoints - 1)
		pts = append(pts, mapPoint(geo, f*w, 0), mapPoint(geo, f*w, h), mapPoint(geo, 0, f*h), mapPoint(geo, w, f*h))
	}
	return pts
}
