package cli

import (
	"errors"
	"fmt"
	"math"
	"os"
	"path/filepath"
	"slices"
	"strings"

	"github.com/paulmach/orb"
	"github.com/urfave/cli/v2"

	"siltstep/hydro"
	"siltstep/hydro/siting"
	"siltstep/raster/gdal"
)

// Heights that an edit may give, m. Source: our own choice; wider than what a plan lays out, since the field tells what stands.
const (
	leastEditM = 0.05
	mostEditM  = 2.0
)

// editsFlag names a file of field edits.
func editsFlag() cli.Flag {
	return &cli.StringFlag{Name: "edits", Usage: "field edits: `FILE` is sites.geojson of an earlier plan, its dams as another point layer or as CSV, or edits.csv, with reject, move, height or built in a column edit; " +
		"place of a dam: its point, or of CSV station_m with drainage, else x_m and y_m, else lon and lat; height and built take effective_height_m"}
}

// readEdits reads a file of field edits; no path, no edits. Errors name file and row, all of them at once.
func readEdits(path string, dem *gdal.DEM) (hydro.Edits, error) {
	if path == "" {
		return hydro.Edits{}, nil
	}
	rows, err := editRows(path, dem)
	if err != nil {
		return hydro.Edits{}, err
	}
	toMap, free := dem.FromLonLat()
	defer free()
	return takeEdits(path, rows, toMap)
}

// editRows reads the rows of a file, CSV by its name and other layers through the library.
func editRows(path string, dem *gdal.DEM) ([]editRow, error) {
	if strings.EqualFold(filepath.Ext(path), ".csv") {
		text, err := os.ReadFile(path)
		if err != nil {
			return nil, request(err)
		}
		return sheetRows(path, text)
	}
	shapes, err := gdal.ReadShapes(path, dem)
	if err != nil {
		return nil, err
	}
	return shapeRows(path, shapes)
}

// takeEdits turns rows into what the field asks and the dams it was asked of. toMap turns longitude and latitude into map
// coordinates.
func takeEdits(path string, rows []editRow, toMap func([]orb.Point) ([]orb.Point, error)) (hydro.Edits, error) {
	var all hydro.Edits
	var faults []error
	first := map[string]string{} // row of an id
	for _, row := range rows {
		f, err := row.read(toMap)
		if err == nil && f.dam {
			if other, ok := first[f.id]; ok {
				err = fmt.Errorf("%s stands in %s already: each dam has one row", f.id, other)
			}
			first[f.id] = row.name
		}
		if err != nil {
			faults = append(faults, requestf("%s: %s: %w", path, row.name, err))
			continue
		}
		if was, ok := f.earlier(); ok {
			all.Earlier = append(all.Earlier, was)
		}
		if f.action != "" {
			all.Asked = append(all.Asked, f.asked())
		}
	}
	if len(faults) > 0 {
		return hydro.Edits{}, errors.Join(faults...)
	}
	return all, nil
}

// A fieldRow is an editRow that has been read.
type fieldRow struct {
	name, id, drainage, note string
	dam                      bool          // id is that of a dam of a plan
	action                   siting.Action // empty: none
	stationM                 float64       // NaN: not given
	at                       orb.Point     // map coordinates; NaN: not given
	drawn                    bool          // at is drawn on a map, and says where the dam is
	heightM                  float64       // NaN: not given
	stoodM, plannedM         float64       // station and height as planned; NaN: not given
	rockT                    float64
}

// read reads a row.
func (r editRow) read(toMap func([]orb.Point) ([]orb.Point, error)) (f fieldRow, err error) {
	f = fieldRow{name: r.name, drainage: strings.ToUpper(r.cells["drainage"]), note: r.cells["note"], drawn: r.point != nil}
	if f.action, err = actionOf(r.cells["edit"]); err != nil {
		return f, err
	}
	if err := f.readID(r.cells["id"]); err != nil {
		return f, err
	}
	var bedM, sillM float64
	for _, cell := range []struct {
		column string
		to     *float64
	}{{"station_m", &f.stationM}, {"effective_height_m", &f.heightM}, {"planned_station_m", &f.stoodM}, {"planned_height_m", &f.plannedM},
		{"bed_m", &bedM}, {"notch_sill_m", &sillM}, {"rock_t", &f.rockT}} {
		if *cell.to, err = r.number(cell.column); err != nil {
			return f, err
		}
	}
	if math.IsNaN(f.plannedM) {
		f.plannedM = math.Round(1000*(sillM-bedM)) / 1000
	}
	if f.at, err = r.place(toMap); err != nil {
		return f, err
	}
	return f, f.check()
}

// actionOf reads what a row asks; nothing asks nothing.
func actionOf(text string) (siting.Action, error) {
	allowed := []siting.Action{siting.Reject, siting.Move, siting.Fix, siting.Built}
	asked := siting.Action(strings.ToLower(text))
	if asked != "" && !slices.Contains(allowed, asked) {
		return "", fmt.Errorf("edit says %q; allowed are %s, %s, %s, %s, or nothing", text, allowed[0], allowed[1], allowed[2], allowed[3])
	}
	return asked, nil
}

// readID tells a dam of a plan from a new one, whose own name, if it has one, joins the note.
func (f *fieldRow) readID(text string) error {
	drainage, number, ok := hydro.ParseDamID(text)
	switch {
	case ok:
		f.id, f.dam = hydro.DamID(drainage, number), true
	case f.action == siting.Move, f.action == siting.Built:
		if text != "" {
			f.note = strings.TrimSuffix(text+": "+f.note, ": ")
		}
	case text == "":
		return errors.New("has no id: give that of a dam, as in D07-03; a new dam has none and move or built in the column edit")
	default:
		return fmt.Errorf("id %q is not that of a dam, as in D07-03", text)
	}
	return nil
}

// check tells what an edit lacks.
func (f *fieldRow) check() error {
	switch {
	case f.action == "":
		return nil
	case math.IsNaN(f.stationM) && math.IsNaN(f.at[0]):
		return errors.New("has no place: keep the point, or station_m, of the dam in the file")
	case f.action != siting.Fix && f.action != siting.Built:
		return nil
	case math.IsNaN(f.heightM):
		return fmt.Errorf("edit says %s: give the height in effective_height_m, m", f.action)
	case f.heightM < leastEditM || f.heightM > mostEditM:
		return fmt.Errorf("effective_height_m %g m; allowed is %g to %g", f.heightM, leastEditM, mostEditM)
	}
	return nil
}

// relocates reports whether the place in the row may differ from that of the earlier plan.
func (f *fieldRow) relocates() bool { return f.action == siting.Move || f.action == siting.Built }

// asked returns what the row asks: of a dam that is drawn at its point, of another at its station if that is given.
func (f *fieldRow) asked() hydro.Asked {
	a := hydro.Asked{Row: f.name, ID: f.id, Action: f.action, Drainage: f.drainage, StationM: f.stationM, X: f.at[0], Y: f.at[1], Note: f.note}
	if f.drawn {
		a.StationM = math.NaN()
	}
	if f.action == siting.Fix || f.action == siting.Built {
		a.HeightM = f.heightM
	}
	return a
}

// earlier returns the dam as it stood before the edit; ok is false for a new dam, and for one that has an id and nothing that a plan
// found out. Where an edit has written a new place over the old one, what is left of the old one tells it: planned_station_m, else station_m
// beside a point that was moved, else a point beside a station_m that was written anew.
func (f *fieldRow) earlier() (e hydro.Earlier, ok bool) {
	e = hydro.Earlier{Row: f.name, ID: f.id, StationM: f.stationM, X: f.at[0], Y: f.at[1], HeightM: f.plannedM, RockT: f.rockT, Note: f.note}
	switch {
	case !f.relocates():
	case !math.IsNaN(f.stoodM), f.drawn, math.IsNaN(f.stationM):
		e.X, e.Y = math.NaN(), math.NaN()
	default:
		e.StationM = math.NaN()
	}
	if !math.IsNaN(f.stoodM) {
		e.StationM = f.stoodM
	}
	if math.IsNaN(e.HeightM) && f.action != siting.Fix && f.action != siting.Built {
		e.HeightM = f.heightM
	}
	known := !math.IsNaN(e.StationM) || !math.IsNaN(e.HeightM) || !math.IsNaN(e.RockT)
	return e, f.dam && (known || !f.relocates())
}

// editsFault marks what the analysis finds wrong with field edits as the fault of their file.
func editsFault(path string, err error) error {
	var wrong hydro.EditFaults
	if !errors.As(err, &wrong) {
		return err
	}
	faults := make([]error, len(wrong))
	for i, w := range wrong {
		faults[i] = requestf("%s: %s: %s%s", path, w.Row, w.Text, didYouMean(w.Wrong, w.Known, ""))
	}
	return errors.Join(faults...)
}
