package erosion

// Judgement is what is known of the erosion of one drainage.
type Judgement struct {
	Depths   Depths
	Headcuts []Headcut // from the lower end upstream
	Power    Power
	Severity Severity
}

// Depths is how far a bed lies below the land beside it, one value a station of the profile.
// NaN stands where it cannot be told, as where no bed is seen.
type Depths struct {
	SectionM  []float64 // by the nearest resolved cross-sections, between them by length, m
	TopHatM   []float64 // by the black top-hat at the bed, m
	IncisionM []float64 // SectionM; where that is unknown TopHatM, m

	BedWidthM, BankToBankM, BankLeftM, BankRightM []float64 // of the cross-sections, as SectionM, m
	BankSlope                                     []float64 // mean of both banks, rise over run

	MeanM, MaxM   float64 // of IncisionM by length, m; NaN where nothing is known
	IncisedShare  float64 // share of the known length that is Config.IncisedM deep or deeper
	KnownShare    float64 // share of the length for which IncisionM is known
	ResolvedShare float64 // share of the sections that are resolved; NaN without sections
	DisagreeM     float64 // median difference of SectionM and TopHatM, without sign, m; NaN where they never meet
}

// Cause says what a headcut stands at.
type Cause string

// The causes of headcuts.
const (
	CauseHeadcut Cause = "headcut"    // a step in the bed and nothing beside it that would explain it
	CauseRoad    Cause = "road"       // at a road, its fill or a culvert cut
	CauseDam     Cause = "stock pond" // at a stock pond or what holds it; also below a bed that something holds level
)

// Headcut is a step in the bed.
type Headcut struct {
	StationM    float64 // of the lip, m
	X, Y        float64 // map position of the lip, m
	HeightM     float64 // of the step, the grade of the bed around it left out, m
	CatchmentM2 float64 // land that drains over the lip, m²
	Cause       Cause
}

// Power is what storm water can do to the bed, one value a station of the profile.
type Power struct {
	SlopeArea     []float64 // bed slope times catchment in ha to the power 0.38: the usual form of gully thresholds, to rank by
	PeakM3s       []float64 // storm peak, m³/s; nil without a storm
	UnitPowerWm2  []float64 // stream power over top width, W/m²; nil without a storm
	ShearPa       []float64 // greatest bed shear, Pa; nil without a storm
	PermissiblePa float64   // of the bed material chosen, Pa; NaN where none is
	ShearRatio    float64   // 90th percentile of ShearPa over PermissiblePa; NaN where either is missing
}

// Class is the verdict on a drainage.
type Class string

// The classes, by severity: below 20 sound, to 40 watch, to 60 eroding, above severe; with a worn piece at least watch, see Rank.
// Source: this project's judgement.
const (
	Sound   Class = "sound"
	Watch   Class = "watch"
	Eroding Class = "eroding"
	Severe  Class = "severe"
)

// Part is one piece of evidence for a severity.
type Part struct {
	Name   string  // "incision", "headcuts", "shear", "bank-slope", "incised-length"
	Value  float64 // as measured; NaN where it was not
	Unit   string  // of Value: "m", "m/100 m", "1"
	Score  float64 // 0 to 100; NaN where Value is
	Weight float64 // as set, before rescaling
}

// Severity is how badly a drainage erodes.
type Severity struct {
	Total  float64 // 0 to 100; NaN where no part is known
	Class  Class   // empty where Total is NaN
	WornM  float64 // length of the worn piece for which a drainage with the severity of a sound one is watch, m; else 0
	Parts  []Part  // always all five, in the order of the settings
	Rank   int     // among the drainages of the plan, 1 is the worst; 0 where Total is NaN
	Steady float64 // share of draws of weights and heights in which it is among the first ten; NaN where Rank is 0
}
