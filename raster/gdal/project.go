package gdal

import (
	"fmt"
	"math"

	"github.com/airbusgeo/godal"
	"github.com/paulmach/orb"
)

// projector turns points from one system into another. Not safe for several goroutines.
type projector struct {
	from, to *godal.SpatialRef
	turn     *godal.Transform
}

func newProjector(from, to string) (*projector, error) {
	start()
	var j journal
	p := &projector{}
	var err error
	if p.from, err = godal.NewSpatialRef(from, godal.ErrLogger(j.note)); err != nil {
		return nil, wrong("coordinate system %q is not known (%s)", clip(from), j.said(err))
	}
	if p.to, err = godal.NewSpatialRef(to, godal.ErrLogger(j.note)); err != nil {
		p.close()
		return nil, wrong("coordinate system %q is not known (%s)", clip(to), j.said(err))
	}
	if p.turn, err = godal.NewTransform(p.from, p.to, godal.ErrLogger(j.note)); err != nil {
		p.close()
		return nil, wrong("no way from coordinate system %q to %q (%s)", clip(from), clip(to), j.said(err))
	}
	return p, nil
}

// close frees the projector; the transform goes first because it points at its target.
func (p *projector) close() {
	if p.turn != nil {
		p.turn.Close()
	}
	if p.to != nil {
		p.to.Close()
	}
	if p.from != nil {
		p.from.Close()
	}
}

// points returns new points; an error names the first that has no place in the target.
func (p *projector) points(pts []orb.Point) (out []orb.Point, err error) {
	defer guard(&err)
	if len(pts) == 0 {
		return nil, nil
	}
	x, y, ok := make([]float64, len(pts)), make([]float64, len(pts)), make([]bool, len(pts))
	for i, pt := range pts {
		x[i], y[i] = pt[0], pt[1]
	}
	err = p.turn.TransformEx(x, y, nil, ok)
	out = make([]orb.Point, len(pts))
	for i := range pts {
		if !ok[i] || math.IsInf(x[i], 0) || math.IsNaN(x[i]) || math.IsInf(y[i], 0) || math.IsNaN(y[i]) {
			return nil, wrong("point %d (%g, %g) lies outside the area of its coordinate system: check the system", i, pts[i][0], pts[i][1])
		}
		out[i] = orb.Point{x[i], y[i]}
	}
	if err != nil {
		return nil, fmt.Errorf("turning %d points: %w", len(pts), err)
	}
	return out, nil
}

// Projector returns a function that turns points of one coordinate system into another,
// each given as WKT or user text, and a function that frees it. Points are x, y or
// longitude, latitude in degrees. The first returns new points, nothing for nothing, and
// an error for a system that is not known or a point outside its area (ErrInput). It works
// fastest on large batches and is not safe for several goroutines: make one for each.
func Projector(from, to string) (points func([]orb.Point) ([]orb.Point, error), free func()) {
	p, err := newProjector(from, to)
	if err != nil {
		return func([]orb.Point) ([]orb.Point, error) { return nil, err }, func() {}
	}
	return p.points, p.close
}

// ToLonLat is Projector from the analysis grid to WGS 84 longitude and latitude.
func (d *DEM) ToLonLat() (points func([]orb.Point) ([]orb.Point, error), free func()) {
	return Projector(d.target.wkt, lonLat)
}

// FromLonLat is Projector from WGS 84 longitude and latitude to the analysis grid.
func (d *DEM) FromLonLat() (points func([]orb.Point) ([]orb.Point, error), free func()) {
	return Projector(lonLat, d.target.wkt)
}

// LayerCRS returns the coordinate system of the first layer of a vector file, as WKT. Errors (ErrInput): a file that is missing or not a
// vector file; a layer that states none.
func LayerCRS(path string) (wkt string, err error) {
	defer guard(&err)
	if err := mustExist(path); err != nil {
		return "", err
	}
	start()
	var j journal
	ds, err := godal.Open(path, godal.VectorOnly(), godal.SiblingFiles(), godal.ErrLogger(j.note))
	if err != nil {
		return "", wrong("%s: not a vector file that can be read (%s)", path, j.said(err))
	}
	defer ds.Close(godal.ErrLogger(j.note))
	if layers := ds.Layers(); len(layers) > 0 {
		if wkt, err := layers[0].SpatialRef().WKT(godal.ErrLogger(j.note)); err == nil && wkt != "" {
			return wkt, nil
		}
	}
	return "", wrong("%s: does not state its coordinate system", path)
}
