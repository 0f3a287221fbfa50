package gdal

import (
	"encoding/json"
	"fmt"
	"strings"

	"github.com/airbusgeo/godal"
	"github.com/paulmach/orb"
)

// ReadPolygons returns every polygon of a vector file, in the map coordinates of the
// analysis grid, in metres and in the order of the file; heights and attributes are left
// out, points and lines are passed over. Any layer that the library reads will do. Errors
// (ErrInput): a file that is missing or holds no polygons, a layer without a coordinate
// system, no overlap between the bounds of the polygons and of the grid.
func ReadPolygons(path string, d *DEM) (all orb.MultiPolygon, err error) {
	defer guard(&err)
	if err := mustExist(path); err != nil {
		return nil, err
	}
	start()
	var j journal
	ds, err := godal.Open(path, godal.VectorOnly(), godal.SiblingFiles(), godal.ErrLogger(j.note))
	if err != nil {
		return nil, wrong("%s: not a vector file that can be read: give a polygon layer such as GeoJSON, GeoPackage or Shapefile (%s)", path, j.said(err))
	}
	defer ds.Close(godal.ErrLogger(j.note))
	for _, layer := range ds.Layers() {
		some, err := layerPolygons(path, layer, d.target.wkt)
		if err != nil {
			return nil, err
		}
		all = append(all, some...)
	}
	if len(all) == 0 {
		return nil, wrong("%s: holds no polygons: give the property line as an area, not as points or lines", path)
	}
	t := d.target.transform
	grid := orb.Bound{
		Min: orb.Point{t.OriginX, t.OriginY - float64(d.target.rows)*t.CellM},
		Max: orb.Point{t.OriginX + float64(d.target.cols)*t.CellM, t.OriginY},
	}
	for _, polygon := range all {
		if polygon.Bound().Intersects(grid) {
			return all, nil
		}
	}
	return nil, wrong("%s: does not touch the elevation model: check that both are of the same place, and the coordinate system of each", path)
}

// layerPolygons reads one layer. Its own system knows the order of its axes, so the
// library turns the coordinates.
func layerPolygons(path string, layer godal.Layer, wkt string) (orb.MultiPolygon, error) {
	var j journal
	var all orb.MultiPolygon
	var turn *godal.Transform
	from := layer.SpatialRef()
	to, err := godal.NewSpatialRef(wkt, godal.ErrLogger(j.note))
	if err != nil {
		return nil, fmt.Errorf("%s: %w", path, err)
	}
	defer to.Close()
	defer func() {
		if turn != nil {
			turn.Close()
		}
	}()
	layer.ResetReading()
	for feature := layer.NextFeature(); feature != nil; feature = layer.NextFeature() {
		g := feature.Geometry()
		if !strings.HasSuffix(g.Name(), "POLYGON") && g.Name() != "MULTISURFACE" {
			feature.Close()
			continue
		}
		if turn == nil {
			if text, err := from.WKT(godal.ErrLogger(j.note)); err != nil || text == "" {
				feature.Close()
				return nil, wrong("%s: layer %q does not state its coordinate system: save it again with one", path, layer.Name())
			}
			if turn, err = godal.NewTransform(from, to, godal.ErrLogger(j.note)); err != nil {
				feature.Close()
				return nil, wrong("%s: layer %q cannot be brought to the system of the elevation model (%s)", path, layer.Name(), j.said(err))
			}
		}
		some, err := polygonsOf(g, turn, to)
		feature.Close()
		if err != nil {
			return nil, wrong("%s: layer %q: %w", path, layer.Name(), err)
		}
		all = append(all, some...)
	}
	return all, nil
}

// polygonsOf turns one geometry; curves become lines.
func polygonsOf(g *godal.Geometry, turn *godal.Transform, to *godal.SpatialRef) (orb.MultiPolygon, error) {
	var j journal
	if g.Empty() {
		return nil, nil
	}
	if err := g.Transform(turn, godal.ErrLogger(j.note)); err != nil {
		return nil, fmt.Errorf("a polygon lies outside the area of the elevation model's system (%s)", j.said(err))
	}
	wkb, err := g.WKB(godal.ErrLogger(j.note))
	if err != nil {
		return nil, fmt.Errorf("a polygon cannot be read (%s)", j.said(err))
	}
	// The geometry belongs to its feature and the next call eats what it is given, so it
	// gets a copy.
	again, err := godal.NewGeometryFromWKB(wkb, to, godal.ErrLogger(j.note))
	if err != nil {
		return nil, fmt.Errorf("a polygon cannot be read (%s)", j.said(err))
	}
	multi := again.ForceToMultiPolygon()
	defer multi.Close()
	text, err := multi.GeoJSON(godal.SignificantDigits(9), godal.ErrLogger(j.note))
	if err != nil {
		return nil, fmt.Errorf("a polygon cannot be read (%s)", j.said(err))
	}
	var plain struct {
		Coordinates orb.MultiPolygon `json:"coordinates"`
	}
	if err := json.Unmarshal([]byte(text), &plain); err != nil {
		return nil, fmt.Errorf("a polygon cannot be read: %w", err)
	}
	var out orb.MultiPolygon
	for _, polygon := range plain.Coordinates {
		if len(polygon) > 0 && len(polygon[0]) > 3 {
			out = append(out, polygon)
		}
	}
	return out, nil
}
