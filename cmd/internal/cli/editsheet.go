package cli

import (
	"bytes"
	"encoding/csv"
	"errors"
	"fmt"
	"io"
	"math"
	"slices"
	"strconv"
	"strings"
	"unicode/utf8"

	"github.com/paulmach/orb"

	"siltstep/hydro"
	"siltstep/raster/gdal"
)

// editColumns are the columns of a file of field edits that are read.
var editColumns = []string{"id", "edit", "note", "drainage", "station_m", "effective_height_m", "planned_station_m", "planned_height_m", "bed_m", "notch_sill_m", "rock_t", "x_m", "y_m", "lon", "lat"}

// An editRow is one row of a file of field edits as text.
type editRow struct {
	name  string            // for messages: "line 4", "feature 3"
	cells map[string]string // by column, in lower case, without spaces around; empty or absent for nothing
	point *orb.Point        // of a map layer, in map coordinates; nil where there is none
}

// sheetRows reads a CSV table: a header, then a row a dam. A byte order mark, CRLF and rows without anything in them are
// passed over. Errors are faults of the file.
func sheetRows(path string, text []byte) (rows []editRow, err error) {
	text = bytes.TrimPrefix(text, []byte("\ufeff"))
	if !utf8.Valid(text) {
		return nil, requestf("%s: is not UTF-8 text: save it as CSV UTF-8, with commas", path)
	}
	in := csv.NewReader(bytes.NewReader(text))
	in.FieldsPerRecord = -1
	header, err := in.Read()
	if errors.Is(err, io.EOF) {
		return nil, requestf("%s: is empty: give a header and a row for each dam", path)
	}
	if err != nil {
		return nil, requestf("%s: %w", path, err)
	}
	if header, err = sheetHeader(header); err != nil {
		return nil, requestf("%s: line 1: %w", path, err)
	}
	for {
		cells, err := in.Read()
		if errors.Is(err, io.EOF) {
			return rows, nil
		}
		if err != nil {
			return nil, requestf("%s: %w", path, err)
		}
		line, _ := in.FieldPos(0)
		if len(cells) > len(header) {
			return nil, requestf("%s: line %d: has %d cells under %d columns: put quotes around text with a comma in it", path, line, len(cells), len(header))
		}
		row := editRow{name: fmt.Sprintf("line %d", line), cells: map[string]string{}}
		for i, cell := range cells {
			if cell = strings.TrimSpace(cell); cell != "" {
				row.cells[header[i]] = cell
			}
		}
		if len(row.cells) > 0 {
			rows = append(rows, row)
		}
	}
}

// sheetHeader returns the names of columns in lower case.
func sheetHeader(header []string) ([]string, error) {
	if len(header) == 1 && strings.ContainsAny(header[0], ";\t") {
		return nil, errors.New("columns are parted by semicolons or tabs: save the table as CSV with commas, and decimals with a point")
	}
	names := make([]string, len(header))
	for i, name := range header {
		names[i] = strings.ToLower(strings.TrimSpace(name))
		if slices.Contains(editColumns, names[i]) && slices.Contains(names[:i], names[i]) {
			return nil, fmt.Errorf("has two columns %s: leave one", names[i])
		}
	}
	if !slices.Contains(names, "edit") {
		return nil, errNoEdit
	}
	return names, nil
}

// errNoEdit says that a file holds no edits at all.
var errNoEdit = errors.New("has no column edit: add one, with reject, move, height or built where a dam is to change, else nothing")

// mostShapefileName is the length at which a Shapefile cuts off names of columns, from its description of 1998 (from memory).
const mostShapefileName = 10

// shapeRows reads the features of a map layer. Where a file has several layers, those that hold neither edits nor dams are
// passed over.
func shapeRows(path string, shapes []gdal.Shape) (rows []editRow, err error) {
	edits := false
	for _, s := range shapes {
		row := editRow{name: s.Name, cells: map[string]string{}}
		said := false
		for name, value := range s.Attributes {
			name = strings.ToLower(name)
			for _, full := range editColumns {
				if len(full) > mostShapefileName && name == full[:mostShapefileName] {
					name = full
				}
			}
			said = said || name == "edit"
			if cell := cellText(value); cell != "" {
				row.cells[name] = cell
			}
		}
		edits = edits || said
		points := pointsOf(s.Geometry)
		if _, _, dam := hydro.ParseDamID(row.cells["id"]); !said && (!dam || len(points) == 0) {
			continue
		}
		switch {
		case s.Geometry == nil:
		case len(points) == 1:
			row.point = &points[0]
		default:
			return nil, requestf("%s: %s: a dam is one point, on the channel line", path, s.Name)
		}
		rows = append(rows, row)
	}
	if !edits {
		return nil, requestf("%s: %w", path, errNoEdit)
	}
	return rows, nil
}

// cellText returns an attribute as text.
func cellText(value any) string {
	switch v := value.(type) {
	case nil:
		return ""
	case float64:
		return strconv.FormatFloat(v, 'g', -1, 64)
	case string:
		return strings.TrimSpace(v)
	}
	return fmt.Sprint(value)
}

// number reads a cell; NaN where it is empty.
func (r editRow) number(column string) (float64, error) {
	text := r.cells[column]
	if text == "" {
		return math.NaN(), nil
	}
	x, err := strconv.ParseFloat(text, 64)
	if err != nil || math.IsNaN(x) || math.IsInf(x, 0) {
		return 0, fmt.Errorf("%s %q is no number: write it without a unit, decimals with a point", column, text)
	}
	return x, nil
}

// place returns where a row says that its dam is, in map coordinates: its point, else x_m and y_m, else lon and lat; NaN
// where it says nothing.
func (r editRow) place(toMap func([]orb.Point) ([]orb.Point, error)) (orb.Point, error) {
	if r.point != nil {
		return *r.point, nil
	}
	at, err := r.pair("x_m", "y_m")
	if err != nil || !math.IsNaN(at[0]) {
		return at, err
	}
	if at, err = r.pair("lon", "lat"); err != nil || math.IsNaN(at[0]) {
		return at, err
	}
	if math.Abs(at[0]) > 180 || math.Abs(at[1]) > 90 {
		return at, fmt.Errorf("lon %g, lat %g is no place on the Earth: degrees of WGS 84 are wanted", at[0], at[1])
	}
	points, err := toMap([]orb.Point{at})
	if err != nil {
		return at, fmt.Errorf("lon %g, lat %g: %w", at[0], at[1], err)
	}
	return points[0], nil
}

// pair reads two cells that go together.
func (r editRow) pair(first, second string) (at orb.Point, err error) {
	if at[0], err = r.number(first); err != nil {
		return at, err
	}
	if at[1], err = r.number(second); err != nil {
		return at, err
	}
	if math.IsNaN(at[0]) != math.IsNaN(at[1]) {
		return at, fmt.Errorf("gives only one of %s and %s", first, second)
	}
	return at, nil
}
