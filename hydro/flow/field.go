package flow

// Edge says what may come in over the edge of the data.
type Edge uint8

const (
	// EdgeOpen: water may enter where the ground outside seems higher. The default.
	EdgeOpen Edge = iota
	// EdgeClosed: the user declares that nothing flows in.
	EdgeClosed
)

// Config holds the settings of the package.
type Config struct {
	Edge           Edge
	CutLengthM     float64 // longest cut in open ground, m; default 30; zero turns such cuts off and leaves a plain fill
	CutDepthM      float64 // deepest cut in open ground, m; default 1
	RoadCutLengthM float64 // longest cut within reach of a road line, m; default 60
	RoadCutDepthM  float64 // deepest cut within reach of a road line, m; default 6
	RoadReachM     float64 // how far from a road line its limits hold, m; default 30
	Features       Features
	Workers        int // goroutines for the stages that can share work; zero means one per processor
}

// Direction codes kept in a byte a cell; 0 to 7 index the tie order.
const (
	dirE uint8 = iota
	dirS
	dirW
	dirN
	dirSE
	dirSW
	dirNW
	dirNE
	dirEnd  // flow ends here: it leaves the data
	dirVoid // no data
)

const (
	dirMask      uint8 = 0x0f
	truncatedBit uint8 = 0x80 // flow entered the catchment of this cell over the edge of the data
)

// Neighbours in the tie order: steps in column and row.
var (
	stepCol = [8]int{1, 0, -1, 0, 1, -1, -1, 1}
	stepRow = [8]int{0, 1, 0, -1, 1, 1, -1, -1}
)

// Field is the flow over a grid. It is safe for reading by several goroutines.
type Field struct {
	Cols, Rows int
	FilledMM   []int32  // filled surface, mm; raster.VoidMM where there is no data
	Cells      []uint32 // cells that drain through each cell, itself included; 0 where there is no data
	Inflow     []int    // border cells over which water enters the data, by index, ascending; empty under EdgeClosed

	// EdgeSpills lists the ends of flow on the border of the data over which filled, standing water leaves,
	// by index, ascending: a drainage may be dammed or cut short there.
	EdgeSpills []int

	// Cuts lists, in the order made, culverts that were declared and cuts of 0.3 m and deeper, or deeper than 0.05 m
	// with more than four cells below the ground; of the others, noise of the survey, SmallCuts is the number. Cuts that the fill
	// flooded again are left out.
	Cuts      []Cut
	SmallCuts int

	// Depressions lists, by cell, ground that was filled: deeper than 0.3 m, or deeper than 0.05 m with more than
	// four cells, or in a declared stock pond or playa; of the others SmallDepressions is the number.
	Depressions      []Depression
	SmallDepressions int

	Settled []Settled // one per Features.Inflows, same order
	Playas  []int     // the end of flow of each of Features.Playas, or -1 where it has no cell with data
	Unused  []string  // declared features that changed nothing, by kind and number from 1, and why

	dir       []uint8
	cut, pond mask
	ends      []int // cells of Playas, ascending
}

// Cut reports whether the ground at cell i was lowered by one of Cuts.
func (f *Field) Cut(i int) bool { return f.cut.has(i) }

// InStockPond reports whether cell i lies in a declared stock pond or playa, or in a depression whose cause is one.
func (f *Field) InStockPond(i int) bool { return f.pond.has(i) }

// Down returns the index of the cell that cell i drains to, or -1 where flow ends or
// there is no data.
func (f *Field) Down(i int) int {
	d := f.dir[i] & dirMask
	if d > dirNE {
		return -1
	}
	return i + stepRow[d]*f.Cols + stepCol[d]
}

// Valid reports whether cell i holds data.
func (f *Field) Valid(i int) bool { return f.dir[i]&dirMask != dirVoid }

// Truncated reports whether flow enters the catchment of cell i over the edge of the
// data, so that its catchment is "at least" Cells.
func (f *Field) Truncated(i int) bool { return f.dir[i]&truncatedBit != 0 }

// bearings are grid bearings downstream, by direction code.
var bearings = [10]int16{90, 180, 270, 360, 135, 225, 315, 45, 0, VoidBearing}

// VoidBearing stands in a bearing raster where there is no data.
const VoidBearing int16 = -1

// BearingDeg returns the grid bearing of flow at cell i in whole degrees, as in weather
// reports but downstream: 45, 90 … 360 (north); 0 where flow ends; VoidBearing for no data.
func (f *Field) BearingDeg(i int) int16 { return bearings[f.dir[i]&dirMask] }
