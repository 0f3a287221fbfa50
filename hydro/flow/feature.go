package flow

import "github.com/paulmach/orb"

// Features are things on the ground that an elevation model does not tell of itself, in the
// coordinates of the grid. The zero value declares nothing.
type Features struct {
	Roads      []orb.LineString // centre lines: cuts within Config.RoadReachM of one have wider limits
	Culverts   []orb.LineString // one vertex: a place on the fill; two or more: from inlet to outlet
	StockPonds []orb.Polygon    // water with a spillway: filled and passed through, never cut
	Playas     []orb.Polygon    // flow ends there
	Inflows    []Inflow
}

// Inflow is a known upstream area that enters at a place.
type Inflow struct {
	X, Y        float64
	CatchmentM2 float64
}

// Cause says what probably holds water back, in the words of the trade.
type Cause string

const (
	CauseCulvert   Cause = "culvert"    // declared
	CauseRoadFill  Cause = "road fill"  // within reach of a road line
	CauseNoise     Cause = "noise"      // shallow and small: noise of the survey
	CauseStockPond Cause = "stock pond" // declared, or large, deep and away from a road
	CausePlaya     Cause = "playa"      // declared
	CauseUnknown   Cause = "unknown"
)

// Cut is a path along which the ground was lowered so that water passes. Where it runs into an earlier cut, what that one
// took away is not of this one.
type Cut struct {
	Cells    []int   // from the pit or inlet to the lower end, running downstream
	Lowered  int     // how many of them this cut lowered
	X, Y     float64 // where it lowered the ground most, m
	DepthM   float64 // by how much there, m
	LengthM  float64 // along the path between cell centres, m
	VolumeM3 float64
	Cause    Cause
}

// Depression is ground that was filled.
type Depression struct {
	X, Y      float64 // deepest place, m
	Cell      int     // the cell of it
	LevelMM   int32   // level that water fills it to
	Cells     int
	DepthM    float64
	AreaM2    float64
	VolumeM3  float64
	SpillCell int // where water leaves
	Cause     Cause
	Why       string // why a cut was not made: "longer than 30 m", "deeper than 1 m", or WhyReview; else empty, as where level ground was too large to try
}
