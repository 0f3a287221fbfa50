package report

import (
	"path/filepath"

	"siltstep/geojson"
	"siltstep/hydro"
)

// Record is a finished plan with all that is needed to make it again.
type Record struct {
	Version   string // version of the program
	CRS       string // coordinate system of the grid, name or code; empty where unknown
	Inputs    []Input
	Settings  []Setting
	Decisions []string // what was decided about the grid, in sentences
	Plan      *hydro.Plan
	ToLonLat  geojson.Projector

	PropertyShare []float64 // share of the length of each drainage inside the property; nil where none is given
}

// ScreenedOnly reports whether no sites were looked for.
func (r Record) ScreenedOnly() bool { return r.Plan.Layouts == nil }

// Command returns the command whose record this is.
func (r Record) Command() string {
	if r.ScreenedOnly() {
		return "screen"
	}
	return "plan"
}

// File returns the name of the file that holds the whole record: plan.json or screen.json.
func (r Record) File() string { return r.Command() + ".json" }

// GeoPackage returns the name of the file that holds every map layer: plan.gpkg or screen.gpkg.
func (r Record) GeoPackage() string { return r.Command() + ".gpkg" }

// propertyShare returns the share of drainage i inside the property, nil where none is given.
func (r Record) propertyShare(i int) any {
	if i >= len(r.PropertyShare) {
		return nil
	}
	return r.PropertyShare[i]
}

// Input is a file that was read.
type Input struct {
	Role   string // "elevation", "property", "settings", "rain table", "roads", "culverts", "stock ponds", "inflow", "field edits", "exclusions", "buildings", "live streams", "base level"
	Path   string // only the last element is written
	SHA256 string // checksum in lower-case hex
}

// Setting is one setting as it was used, defaults included.
type Setting struct {
	Key   string // "dams.height"
	Value string // with its unit, "0.6 m"
}

// Tool is the name of the program in what it writes.
const Tool = "siltstep"

// base returns the last element of a path, so that no folder gets into a file.
func base(path string) string {
	if path == "" {
		return ""
	}
	return filepath.Base(path)
}
