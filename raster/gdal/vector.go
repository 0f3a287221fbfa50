package gdal

import (
	"fmt"
	"io"
	"slices"
	"sync/atomic"

	"github.com/airbusgeo/godal"
	"github.com/paulmach/orb"
	"github.com/paulmach/orb/geojson"
)

// Shape is one feature of a vector file.
type Shape struct {
	Name       string         // for messages: its number in the layer, from 1, and the layer
	Geometry   orb.Geometry   // in the map coordinates of the analysis grid, m; heights left out; nil where the feature has none
	Attributes map[string]any // float64, string, bool or nil by name, as JSON has them
}

// ReadShapes returns every feature of a vector file in the order of the file, in the map
// coordinates of the analysis grid; curves become lines. Any layer that the library reads will
// do. Errors (ErrInput): a file that is missing or not a vector file, a layer with features but
// without a coordinate system, a shape outside the area of the grid's system.
func ReadShapes(path string, d *DEM) (all []Shape, err error) {
	defer guard(&err)
	if err := mustExist(path); err != nil {
		return nil, err
	}
	start()
	var j journal
	ds, err := godal.Open(path, godal.VectorOnly(), godal.SiblingFiles(), godal.ErrLogger(j.note))
	if err != nil {
		return nil, wrong("%s: not a vector file that can be read: give a layer such as GeoJSON, GeoPackage or Shapefile (%s)", path, j.said(err))
	}
	defer ds.Close(godal.ErrLogger(j.note))
	for _, layer := range ds.Layers() {
		some, err := layerShapes(path, ds, layer, d.target.wkt)
		if err != nil {
			return nil, err
		}
		all = append(all, some...)
	}
	return all, nil
}

// layerShapes reads one layer. The library turns the coordinates, since the layer's own system
// knows the order of its axes, and hands the layer over as text, where an attribute without a
// value differs from one that is zero.
func layerShapes(path string, ds *godal.Dataset, layer godal.Layer, wkt string) ([]Shape, error) {
	var j journal
	if n, err := layer.FeatureCount(godal.ErrLogger(j.note)); err == nil && n == 0 || layer.Type() == godal.GTNone {
		return nil, nil
	}
	if text, err := layer.SpatialRef().WKT(godal.ErrLogger(j.note)); err != nil || text == "" {
		return nil, wrong("%s: layer %q does not state its coordinate system: save it again with one", path, layer.Name())
	}
	text, err := layerText(ds, layer.Name(), wkt, &j)
	if err != nil {
		return nil, wrong("%s: layer %q cannot be brought to the system of the elevation model (%s)", path, layer.Name(), j.said(err))
	}
	features, err := geojson.UnmarshalFeatureCollection(text)
	if err != nil {
		return nil, wrong("%s: layer %q cannot be read (%w)", path, layer.Name(), err)
	}
	shapes := make([]Shape, len(features.Features))
	for i, f := range features.Features {
		name := fmt.Sprintf("feature %d", i+1)
		if ds.Layers()[0].Name() != layer.Name() {
			name += fmt.Sprintf(" of layer %q", layer.Name())
		}
		shapes[i] = Shape{Name: name, Geometry: f.Geometry, Attributes: f.Properties}
	}
	return shapes, nil
}

// scratch numbers the files in memory, so that no two have one name.
var scratch atomic.Int64

// layerText returns a layer as GeoJSON in another system.
func layerText(ds *godal.Dataset, layer, wkt string, j *journal) ([]byte, error) {
	name := fmt.Sprintf("/vsimem/siltstep-%d.geojson", scratch.Add(1))
	defer godal.VSIUnlink(name)
	out, err := ds.VectorTranslate(name, []string{"-f", "GeoJSON", "-t_srs", wkt, "-nlt", "CONVERT_TO_LINEAR", "-lco", "COORDINATE_PRECISION=9", layer}, godal.ErrLogger(j.note))
	if err != nil {
		return nil, err
	}
	if err := out.Close(godal.ErrLogger(j.note)); err != nil {
		return nil, err
	}
	file, err := godal.VSIOpen(name, godal.ErrLogger(j.note))
	if err != nil {
		return nil, err
	}
	defer file.Close()
	return io.ReadAll(file)
}

// ReadPolygons returns every polygon of a vector file as ReadShapes does; points and lines are
// passed over. Errors (ErrInput): those of ReadShapes; no polygons; no overlap between the bounds
// of the polygons and of the grid.
func ReadPolygons(path string, d *DEM) (orb.MultiPolygon, error) {
	shapes, err := ReadShapes(path, d)
	if err != nil {
		return nil, err
	}
	var all orb.MultiPolygon
	for _, s := range shapes {
		all = append(all, Polygons(s.Geometry)...)
	}
	if len(all) == 0 {
		return nil, wrong("%s: holds no polygons: give the property line as an area, not as points or lines", path)
	}
	if !slices.ContainsFunc(all, func(p orb.Polygon) bool { return d.Touches(p) }) {
		return nil, wrong("%s: does not touch the elevation model: check that both are of the same place, and the coordinate system of each", path)
	}
	return all, nil
}

// Polygons returns the polygons of a geometry, those of collections too; none for points, lines
// and nil. A ring of fewer than three corners is left out with its holes.
func Polygons(g orb.Geometry) (out orb.MultiPolygon) {
	switch g := g.(type) {
	case orb.Polygon:
		if len(g) > 0 && len(g[0]) > 3 {
			out = append(out, g)
		}
	case orb.MultiPolygon:
		for _, p := range g {
			out = append(out, Polygons(p)...)
		}
	case orb.Collection:
		for _, part := range g {
			out = append(out, Polygons(part)...)
		}
	}
	return out
}

// Touches reports whether the bounds of a geometry and of the analysis grid meet.
func (d *DEM) Touches(g orb.Geometry) bool {
	t := d.target.transform
	grid := orb.Bound{
		Min: orb.Point{t.OriginX, t.OriginY - float64(d.target.rows)*t.CellM},
		Max: orb.Point{t.OriginX + float64(d.target.cols)*t.CellM, t.OriginY},
	}
	return g != nil && g.Bound().Intersects(grid)
}
