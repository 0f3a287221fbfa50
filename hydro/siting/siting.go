package siting

// Area reports whether a map position lies inside, in metres of the grid's coordinate system.
type Area func(x, y float64) bool

// Reach is a piece of a drainage with one verdict.
type Reach struct {
	Drainage   string
	FromM, ToM float64 // stations, FromM below ToM
	Eligible   bool
	Reasons    []Reason // why not; empty where eligible
	Notes      []Reason // of an eligible reach: what no dam covers, and why
}

// LengthM returns the length of the reach along the channel line in metres.
func (r Reach) LengthM() float64 { return r.ToM - r.FromM }

// Site is one check dam.
type Site struct {
	ID               string // D07-03: drainage and number from the bottom
	Drainage         string
	Series           int // run within the drainage, from the bottom, 1 …
	Number           int // number within the drainage, from the bottom, 1 …
	StationM         float64
	X, Y             float64
	Cell             int     // D8 cell of the station at or next below the axis
	BedM             float64 // original bed at the axis, m
	SillM            float64 // notch sill, m
	EffectiveHeightM float64 // SillM − BedM
	Slope            float64 // bed slope at the nearest station
	CatchmentM2      float64 // catchment of Cell
	SpacingDownM     float64 // to the dam below in the same series, axis to axis, m; NaN for the lowest
	RiseM            float64 // bed rise from the dam below in the same series, m; NaN for the lowest
	SpacingUpM       float64 // to the dam above in the same series, m; NaN for the highest
	WedgeEndM        float64 // station of the upper end of the sediment wedge
	BodyUpM          float64 // how far the body reaches upstream of the axis at its base, m
	BodyDownM        float64 // the same downstream
	Base             Base    // what the dam stands on
	Edit             Action  // what the field asked for; empty where it did not
	Cautions         []Reason
}

// Base is what the lowest dam of a series stands on.
type Base string

// The bases, the safest first.
const (
	OnDam        Base = "dam below"  // in the silt of the dam below: every dam but the lowest of a series
	OnDeclared   Base = "declared"   // bedrock or a grade control that was declared
	OnConfluence Base = "confluence" // just above a confluence, whose bed holds the level
	OnFooter     Base = "footer"     // on the bed, which may cut down below it: it needs a footer
)

// Layout is what siting found on one drainage.
type Layout struct {
	Reaches        []Reach   // from the lower end upstream, without gap or overlap
	Sites          []Site    // from the lower end upstream
	EligibleM      float64   // length of eligible reaches, m
	BareM          float64   // of that, what no wedge covers, m
	TreatedM       float64   // treated channel length, m
	SeriesTreatedM []float64 // of each series, from the bottom, m; their sum is TreatedM

	Chosen Alternative   // what the layout takes, by the sizes that it was chosen by
	March  Alternative   // what a plain march takes; not looked for where the field asks for dams
	Others []Alternative // what each objective takes; nil unless Config.Compare
}
