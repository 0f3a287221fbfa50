package facts

import (
	"encoding/csv"
	"errors"
	"fmt"
	"io/fs"
	"math"
	"os"
	"path/filepath"
	"strconv"
)

// Station is a place along a drainage.
type Station struct {
	Place
	StationM    float64
	GroundM     float64
	BedM        float64
	Slope       float64
	CatchmentHa float64
	IncisionM   float64
	DamID       string // of the dam next to it; empty for none
	NotchSillM  float64
	DepositM    float64 // surface of the full sediment wedge above it
}

// Profile is the longitudinal profile of a drainage, from the lower end upstream. What is not known is NaN.
type Profile []Station

// SectionPoint is a place on a cross-section.
type SectionPoint struct {
	OffsetM float64 // from the thalweg, left negative, looking downstream
	GroundM float64
	DamM    float64 // top of the dam; NaN where there is none
}

// Section is the cross-section at a dam, from left to right.
type Section []SectionPoint

// readProfiles reads the profiles of drainages; one of a single station has none.
func (f *Folder) readProfiles() error {
	f.Profiles = make(map[string]Profile, len(f.Drainages))
	for _, d := range f.Drainages {
		t, err := readTable(filepath.Join(f.Dir, "profiles", d.ID+".csv"))
		if errors.Is(err, fs.ErrNotExist) {
			continue
		}
		if err != nil {
			return err
		}
		profile := make(Profile, len(t.rows))
		for i := range t.rows {
			profile[i] = Station{
				Place:    Place{Lon: Num(t.number(i, "lon")), Lat: Num(t.number(i, "lat")), XM: Num(t.number(i, "x_m")), YM: Num(t.number(i, "y_m"))},
				StationM: t.number(i, "station_m"), GroundM: t.number(i, "ground_m"), BedM: t.number(i, "bed_m"), Slope: t.number(i, "slope"),
				CatchmentHa: t.number(i, "catchment_ha"), IncisionM: t.number(i, "incision_m"),
				DamID: t.text(i, "dam_id"), NotchSillM: t.number(i, "notch_sill_m"), DepositM: t.number(i, "deposit_m"),
			}
		}
		if t.fault != nil {
			return t.fault
		}
		f.Profiles[d.ID] = profile
	}
	return nil
}

// readSections reads the cross-sections of dams; a dam without a design has none.
func (f *Folder) readSections() error {
	f.Sections = make(map[string]Section, len(f.Sites))
	for _, s := range f.Sites {
		t, err := readTable(filepath.Join(f.Dir, "sections", s.ID+".csv"))
		if errors.Is(err, fs.ErrNotExist) {
			continue
		}
		if err != nil {
			return err
		}
		section := make(Section, len(t.rows))
		for i := range t.rows {
			section[i] = SectionPoint{t.number(i, "offset_m"), t.number(i, "ground_m"), t.number(i, "dam_m")}
		}
		if t.fault != nil {
			return t.fault
		}
		f.Sections[s.ID] = section
	}
	return nil
}

// A table is a file of columns by name.
type table struct {
	path   string
	column map[string]int
	rows   [][]string
	fault  error // the first that was met while reading values
}

func readTable(path string) (*table, error) {
	file, err := os.Open(path)
	if err != nil {
		return nil, err
	}
	defer file.Close()
	all, err := csv.NewReader(file).ReadAll()
	if err != nil {
		return nil, fmt.Errorf("%s: damaged: %w", path, err)
	}
	if len(all) == 0 {
		return nil, fmt.Errorf("%s: empty", path)
	}
	t := &table{path: path, column: map[string]int{}, rows: all[1:]}
	for i, name := range all[0] {
		t.column[name] = i
	}
	return t, nil
}

// text returns a value; empty where it is not known or the column is not there.
func (t *table) text(row int, name string) string {
	i, ok := t.column[name]
	if !ok {
		if t.fault == nil {
			t.fault = fmt.Errorf("%s: no column %s", t.path, name)
		}
		return ""
	}
	return t.rows[row][i]
}

// number returns a value; NaN where it is not known.
func (t *table) number(row int, name string) float64 {
	text := t.text(row, name)
	if text == "" {
		return math.NaN()
	}
	x, err := strconv.ParseFloat(text, 64)
	if err != nil && t.fault == nil {
		t.fault = fmt.Errorf("%s: row %d: %s %q is not a number", t.path, row+2, name, text)
	}
	return x
}
