package gdal

import (
	"bufio"
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"strings"

	"github.com/airbusgeo/godal"
	"github.com/paulmach/orb/geojson"
)

// ColumnType is the type of a column of a VectorLayer.
type ColumnType int

// The types of columns.
const (
	TextColumn ColumnType = iota
	IntColumn             // 64 bits
	RealColumn            // 64 bits
	BoolColumn
)

// Column is a column of a VectorLayer.
type Column struct {
	Name string
	Type ColumnType
}

// VectorLayer is a layer to write: one table of a GeoPackage.
type VectorLayer struct {
	Name     string // of the table: lower case, digits and underscores
	Meaning  string // told to readers as the description of the table
	Geometry string // of all shapes: "Point", "LineString", "Polygon" or "MultiPolygon", in which a polygon becomes a multipolygon of one
	Columns  []Column
	Shapes   []Shape // their attributes are string, int, float64, bool or nil for null, as the columns say; one that is missing is null
}

// pinnedDate is what a GeoPackage says of when it was last changed, so that the same input gives the same bytes.
const pinnedDate = "2000-01-01T00:00:00.000Z"

// unsynced spares waiting for the disk after every step: a file that is not complete is thrown away anyhow.
var unsynced = godal.ConfigOption("OGR_SQLITE_SYNCHRONOUS=OFF")

// WriteGeoPackage writes layers as one OGC GeoPackage, all in the coordinate system given as WKT or user text, in map
// coordinates as they are: typed columns, null where a value is null, feature ids from 1 in the order of the shapes, a spatial
// index for each layer, empty layers too. The file appears under its name only when complete, and the same input gives the same
// bytes; its date of change is pinned to the start of the year 2000. NaN and infinite values are written as null. Errors: a coordinate
// system that is not known (ErrInput); a folder that cannot be written, a full disk; ctx cancelled. An attribute of another type
// than its column panics.
func WriteGeoPackage(ctx context.Context, path, crs string, layers []VectorLayer) (err error) {
	defer guard(&err)
	start()
	c, err := parseCRS(crs)
	if err != nil {
		return err
	}
	part, err := os.MkdirTemp(filepath.Dir(path), "."+filepath.Base(path)+".*.part")
	if err != nil {
		return fmt.Errorf("%s cannot be written: %w", path, err)
	}
	defer os.RemoveAll(part)
	whole := filepath.Join(part, "layers.gpkg")
	for i, layer := range layers {
		err := ctx.Err()
		if err == nil {
			err = addLayer(whole, filepath.Join(part, layer.Name+".geojson"), c.horizontal, layer, i == 0)
		}
		if err != nil {
			return fmt.Errorf("%s was not written: layer %s: %w", path, layer.Name, err)
		}
	}
	if err = pinDate(whole); err == nil {
		err = os.Rename(whole, path)
	}
	if err != nil {
		return fmt.Errorf("%s was not written: %w", path, err)
	}
	return nil
}

// pinDate sets the date of change of every layer. The library writes the present one as it closes a file that it changed.
func pinDate(path string) error {
	var j journal
	ds, err := godal.Open(path, godal.VectorOnly(), godal.Update(), unsynced, godal.ErrLogger(j.note))
	if err != nil {
		return err
	}
	_, err = ds.ExecuteSQL("UPDATE gpkg_contents SET last_change = '"+pinnedDate+"'", godal.ErrLogger(strict))
	return errors.Join(err, ds.Close(godal.ErrLogger(strict)))
}

// addLayer hands a layer over as text, with one shape more in front that has a value of its type in every column: types are
// told from values, and a column of nulls would have none. That shape is left behind.
func addLayer(whole, text, wkt string, layer VectorLayer, first bool) error {
	if err := writeShapes(text, layer); err != nil {
		return err
	}
	var j journal
	from, err := godal.Open(text, godal.VectorOnly(), godal.ErrLogger(j.note))
	if err != nil {
		return err
	}
	defer from.Close(godal.ErrLogger(j.note))
	switches := []string{"-f", "GPKG", "-where", "FID > 0", "-a_srs", wkt, "-nlt", strings.ToUpper(layer.Geometry), "-nln", layer.Name, "-lco", "DESCRIPTION=" + layer.Meaning}
	if !first {
		switches = append(switches, "-update", "-append")
	}
	to, err := from.VectorTranslate(whole, switches, unsynced, godal.ErrLogger(strict))
	if err != nil {
		return err
	}
	return to.Close(godal.ErrLogger(strict)) // a full disk may show only now
}

// writeShapes writes a layer as GeoJSON in map coordinates, with all digits, after one shape of no place and typical values.
func writeShapes(name string, layer VectorLayer) error {
	file, err := os.Create(name)
	if err != nil {
		return err
	}
	out := bufio.NewWriterSize(file, 1<<16)
	typical := Shape{Attributes: map[string]any{}}
	for _, c := range layer.Columns {
		typical.Attributes[c.Name] = typicalOf(c.Type)
	}
	out.WriteString(`{"type":"FeatureCollection","features":[`) // errors stay in the writer until Flush
	err = writeShape(out, layer.Columns, typical)
	for i := 0; i < len(layer.Shapes) && err == nil; i++ {
		out.WriteByte(',')
		err = writeShape(out, layer.Columns, layer.Shapes[i])
	}
	out.WriteString("\n]}\n")
	return errors.Join(err, out.Flush(), file.Close())
}

// typicalOf returns a value that can be of no other type.
func typicalOf(t ColumnType) any {
	switch t {
	case IntColumn:
		return 1 << 40 // more than 32 bits hold
	case RealColumn:
		return 0.5
	case BoolColumn:
		return true
	}
	return "text"
}

func writeShape(out *bufio.Writer, columns []Column, s Shape) error {
	out.WriteString("\n{\"type\":\"Feature\",\"properties\":{")
	for i, c := range columns {
		if i > 0 {
			out.WriteByte(',')
		}
		name, _ := json.Marshal(c.Name) // cannot fail: a string
		out.Write(append(name, ':'))
		out.Write(c.value(s.Attributes[c.Name]))
	}
	out.WriteString(`},"geometry":`)
	place := []byte("null")
	if s.Geometry != nil {
		var err error
		if place, err = json.Marshal(geojson.NewGeometry(s.Geometry)); err != nil {
			return fmt.Errorf("%s: %w", s.Name, err)
		}
	}
	out.Write(append(place, '}'))
	return nil
}

// value returns a value of a column in JSON.
func (c Column) value(v any) []byte {
	fits := v == nil
	switch v.(type) {
	case string:
		fits = c.Type == TextColumn
	case int:
		fits = c.Type == IntColumn
	case float64:
		fits = c.Type == RealColumn
	case bool:
		fits = c.Type == BoolColumn
	}
	if !fits {
		panic(fmt.Sprintf("gdal: value %v of column %s is %T", v, c.Name, v))
	}
	text, err := json.Marshal(v)
	if err != nil { // NaN or infinite
		return []byte("null")
	}
	return text
}
