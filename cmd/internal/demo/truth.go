package demo

import (
	"encoding/json"
	"fmt"
	"io"

	"github.com/paulmach/orb"
)

// Truth is what is known of a ranch because it was made so. Places are map coordinates in CRS,
// lengths and levels metres. Levels are those before texture was added, about 2 cm.
type Truth struct {
	Ranch     string    `json:"ranch"`
	Note      string    `json:"note"`
	CRS       string    `json:"crs"`
	Seed      uint64    `json:"seed"`
	Cols      int       `json:"cols"`
	Rows      int       `json:"rows"`
	CellM     float64   `json:"cell_m"`
	Trenches  []Trench  `json:"trenches"`
	Headcuts  []Headcut `json:"headcuts"`
	RoadFill  RoadFill  `json:"road_fill"`
	StockPond StockPond `json:"stock_pond"`
	Property  Cut       `json:"property_cut"`
	Entering  Entering  `json:"entering"`
}

// Trench is a cut trench of known shape.
type Trench struct {
	ID          string      `json:"id"`
	Into        string      `json:"into,omitempty"` // trench it meets; empty where it runs out or leaves the data
	Start       orb.Point   `json:"start"`          // upper end: the lip of its first headcut
	End         orb.Point   `json:"end"`            // lower end
	LengthM     float64     `json:"length_m"`
	BedWidthM   float64     `json:"bed_width_m"`
	BankRun     float64     `json:"bank_run"`     // horizontal run of the banks per metre of height
	Line        []orb.Point `json:"line"`         // bed line running downstream, every 4 m and the end
	BedM        []float64   `json:"bed_m"`        // bed at each place of Line
	DepthM      []float64   `json:"depth_m"`      // depth below the valley floor at each place of Line
	MeasuredAt  []int       `json:"measured_at"`  // places of Line away from headcuts, meetings, fills and ends, where the depth can be measured
	CatchmentM2 [2]float64  `json:"catchment_m2"` // at the upper and at the lower end, to about a coarse cell
}

// Headcut is a near-vertical step of known height.
type Headcut struct {
	Trench  string    `json:"trench"`
	At      orb.Point `json:"at"`       // the lip
	Toward  orb.Point `json:"toward"`   // unit vector downstream, east and north
	HeightM float64   `json:"height_m"` // the valley's own grade left out
	Grade   float64   `json:"grade"`    // of the valley floor, rise over run
}

// RoadFill is the embankment of the road; its culvert is known here and declared nowhere else.
type RoadFill struct {
	Trench        string       `json:"trench"`
	At            orb.Point    `json:"at"`
	CrestM        float64      `json:"crest_m"`
	BedM          float64      `json:"bed_m"`
	HeightM       float64      `json:"height_m"`
	CrestWidthM   float64      `json:"crest_width_m"`
	Ends          [2]orb.Point `json:"ends"`
	CulvertInlet  orb.Point    `json:"culvert_inlet"`
	CulvertOutlet orb.Point    `json:"culvert_outlet"`
}

// StockPond is existing water, still and level.
type StockPond struct {
	Water   orb.Polygon `json:"water"`
	LevelM  float64     `json:"level_m"`
	DamTopM float64     `json:"dam_top_m"`
}

// Cut is where the property line crosses a drainage.
type Cut struct {
	Trench string    `json:"trench"`
	At     orb.Point `json:"at"`
}

// Entering is where a drainage whose head lies outside comes in over the edge of the data.
type Entering struct {
	Trench    string    `json:"trench"`
	At        orb.Point `json:"at"`
	OutsideM2 float64   `json:"outside_m2"` // catchment beyond the edge, to about a coarse cell
}

// WriteJSON writes the truth as indented JSON. It returns the error of the writer.
func (t *Truth) WriteJSON(w io.Writer) error {
	e := json.NewEncoder(w)
	e.SetIndent("", " ")
	if err := e.Encode(t); err != nil {
		return fmt.Errorf("truth of %s: %w", t.Ranch, err)
	}
	return nil
}
