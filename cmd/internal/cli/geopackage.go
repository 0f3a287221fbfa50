package cli

import (
	"context"
	"fmt"
	"math"
	"slices"
	"strings"

	"siltstep/geojson"
	"siltstep/hydro"
	"siltstep/raster/gdal"

	"github.com/paulmach/orb"
)

// geopackage writes every map layer of the plan into one file, in the coordinate system of the grid: plan.gpkg, or screen.gpkg
// where no sites were looked for.
func (w planWriter) geopackage(ctx context.Context) error {
	var layers []gdal.VectorLayer
	for _, layer := range w.mapLayers() {
		if err := ctx.Err(); err != nil {
			return err
		}
		c, err := layer.of(w.record.Plan, asTheyAre)
		if err != nil {
			return err
		}
		layers = append(layers, tableOf(c))
	}
	name := w.record.GeoPackage()
	path, err := w.out.path(name)
	if err != nil {
		return fmt.Errorf("%s: %w", name, err)
	}
	return gdal.WriteGeoPackage(ctx, path, w.crs, layers)
}

// A mapLayer is a layer of the map by its name and what makes it.
type mapLayer struct {
	name string
	of   func(*hydro.Plan, geojson.Projector) (geojson.Collection, error)
}

// mapLayers lists the map layers of the plan, or of the screening.
func (w planWriter) mapLayers() []mapLayer {
	layers := []mapLayer{{"drainages", geojson.Drainages}, {"catchments", geojson.Catchments}, {"headcuts", geojson.Headcuts}, {"depressions", geojson.Depressions}}
	if !w.record.ScreenedOnly() {
		layers = append(layers, mapLayer{"sites", geojson.Sites}, mapLayer{"reaches", geojson.Reaches}, mapLayer{"footprints", geojson.Footprints}, mapLayer{"effects", geojson.Effects})
	}
	return layers
}

// asTheyAre is a geojson.Projector that leaves positions in the coordinates of the grid.
func asTheyAre(points []orb.Point) ([]orb.Point, error) { return slices.Clone(points), nil }

// columnTypes tells how the values of a field are held in a table.
var columnTypes = map[geojson.Type]gdal.ColumnType{geojson.Text: gdal.TextColumn, geojson.Int: gdal.IntColumn, geojson.Real: gdal.RealColumn, geojson.Bool: gdal.BoolColumn}

// tableOf returns a layer of features as a table, its numbers with the decimals of the GeoJSON file.
func tableOf(c geojson.Collection) gdal.VectorLayer {
	layer := gdal.VectorLayer{Name: c.Layer.Name, Meaning: c.Layer.Meaning, Geometry: c.Layer.Geometry}
	if strings.Contains(layer.Geometry, "MultiPolygon") {
		layer.Geometry = "MultiPolygon"
	}
	for _, f := range c.Layer.Fields {
		layer.Columns = append(layer.Columns, gdal.Column{Name: f.Name, Type: columnTypes[f.Type]})
	}
	for i, f := range c.Features {
		shape := gdal.Shape{Name: fmt.Sprintf("feature %d", i+1), Geometry: f.Geometry, Attributes: make(map[string]any, len(f.Values))}
		for k, field := range c.Layer.Fields {
			v := f.Values[k]
			if real, ok := v.(float64); ok {
				scale := math.Pow10(max(field.Decimals, 1))
				v = math.Round(real*scale) / scale
			}
			shape.Attributes[field.Name] = v
		}
		layer.Shapes = append(layer.Shapes, shape)
	}
	return layer
}
