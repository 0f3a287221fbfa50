package facts

// Plan is plan.json. Members are as there; the schema beside it says what each means.
type Plan struct {
	Program     Program      `json:"program"`
	Cautions    []Text       `json:"cautions"`
	Inputs      []Input      `json:"inputs"`
	Settings    []Setting    `json:"settings"`
	Grid        Grid         `json:"grid"`
	Decisions   []Text       `json:"decisions"`
	Totals      Totals       `json:"totals"`
	Drainages   []Drainage   `json:"drainages"`
	Parts       []Part       `json:"severity_parts"`
	Headcuts    []Headcut    `json:"headcuts"`
	Reaches     []Reach      `json:"reaches"`
	Sites       []Site       `json:"sites"`
	Designs     []Design     `json:"designs"`
	Series      []Series     `json:"series"`
	Scenarios   []Scenario   `json:"scenarios"`
	Loads       []Load       `json:"loads"`
	Gradients   []Gradient   `json:"gradients"`
	Filling     []Filling    `json:"filling"`
	Checks      []Check      `json:"checks"`
	Weaknesses  []Weakness   `json:"weaknesses"`
	Changes     []Change     `json:"changes"`
	Depressions []Depression `json:"depressions"`
	Findings    []Finding    `json:"findings"`
	Sources     []Source     `json:"sources"`
}

// Program is what wrote the plan.
type Program struct {
	Name    string `json:"name"`
	Version string `json:"version"`
	Format  int    `json:"format"`
	Command string `json:"command"`
}

// Text is a sentence.
type Text struct {
	Text string `json:"text"`
}

// Input is a file that the plan was made from.
type Input struct {
	Role   string `json:"role"`
	File   string `json:"file"`
	SHA256 string `json:"sha256"`
}

// Setting is a setting as it was used.
type Setting struct {
	Key   string `json:"key"`
	Value string `json:"value"`
}

// Source is a publication.
type Source struct {
	Key  string `json:"key"`
	Text string `json:"text"`
}

// Grid is the elevation model as analysed.
type Grid struct {
	CRS        string `json:"crs"`
	Cols       int    `json:"cols"`
	Rows       int    `json:"rows"`
	CellM      Num    `json:"cell_m"`
	WestM      Num    `json:"west_m"`
	NorthM     Num    `json:"north_m"`
	ValidCells int    `json:"valid_cells"`
	LowestM    Num    `json:"lowest_m"`
	HighestM   Num    `json:"highest_m"`
	NoiseM     Num    `json:"noise_m"`
}

// Quantities are what dams take and give.
type Quantities struct {
	Dams           int `json:"dams"`
	Undesigned     int `json:"undesigned"`
	RockM3         Num `json:"rock_m3"`
	RockT          Num `json:"rock_t"`
	PondM3         Num `json:"pond_m3"`
	SedimentLowM3  Num `json:"sediment_low_m3"`
	SedimentM3     Num `json:"sediment_m3"`
	SedimentHighM3 Num `json:"sediment_high_m3"`
	PersonDays     Num `json:"person_days"`
	Cost           Num `json:"cost"`
}

// Totals are the sums of the plan.
type Totals struct {
	Quantities
	Drainages         int    `json:"drainages"`
	Truncated         int    `json:"truncated"`
	Severe            int    `json:"severe"`
	Eroding           int    `json:"eroding"`
	Watch             int    `json:"watch"`
	Sound             int    `json:"sound"`
	NotJudged         int    `json:"not_judged"`
	Series            int    `json:"series"`
	ChannelM          Num    `json:"channel_m"`
	EligibleM         Num    `json:"eligible_m"`
	TreatedM          Num    `json:"treated_m"`
	TreatedDefinition string `json:"treated_definition"`
	Currency          string `json:"currency"`
	Unbuildable       int    `json:"unbuildable"`
}

// Drainage is one drainage.
type Drainage struct {
	ID            string `json:"id"`
	Order         int    `json:"order"`
	LengthM       Num    `json:"length_m"`
	DropM         Num    `json:"drop_m"`
	Slope         Num    `json:"slope"`
	CatchmentHa   Num    `json:"catchment_ha"`
	Truncated     bool   `json:"truncated"`
	Severity      Num    `json:"severity"`
	SeverityClass string `json:"severity_class"` // empty where it was not judged
	IncisionMeanM Num    `json:"incision_mean_m"`
	IncisionMaxM  Num    `json:"incision_max_m"`
	Headcuts      Num    `json:"headcuts"`
	PeakM3s       Num    `json:"peak_m3s"`
	EligibleM     Num    `json:"eligible_m"`
	TreatedM      Num    `json:"treated_m"`
	Dams          int    `json:"dams"`
	RockT         Num    `json:"rock_t"`
	PondM3        Num    `json:"pond_m3"`
	SedimentM3    Num    `json:"sediment_m3"`
	Cost          Num    `json:"cost"`
	Into          string `json:"into"`
	Series        int    `json:"series"`
	Rank          Num    `json:"rank"`
	SteadyShare   Num    `json:"steady_share"`
	PropertyShare Num    `json:"property_share"`
}

// Part is one part of the severity of a drainage.
type Part struct {
	Drainage string `json:"drainage"`
	Part     string `json:"part"`
	Value    Num    `json:"value"`
	Unit     string `json:"unit"`
	Score    Num    `json:"score"`
	Weight   Num    `json:"weight"`
	Points   Num    `json:"points"`
}

// Headcut is a step in a bed.
type Headcut struct {
	ID          string `json:"id"`
	Drainage    string `json:"drainage"`
	StationM    Num    `json:"station_m"`
	HeightM     Num    `json:"height_m"`
	CatchmentHa Num    `json:"catchment_ha"`
	Cause       string `json:"cause"`
	Place
}

// Place is where something lies: longitude and latitude in degrees, WGS 84, and in the coordinate system of the grid.
type Place struct {
	Lon Num `json:"lon"`
	Lat Num `json:"lat"`
	XM  Num `json:"x_m"`
	YM  Num `json:"y_m"`
}

// Reach is a piece of a drainage with one verdict.
type Reach struct {
	Drainage     string `json:"drainage"`
	FromStationM Num    `json:"from_station_m"`
	ToStationM   Num    `json:"to_station_m"`
	Verdict      string `json:"verdict"`
	Reasons      string `json:"reasons"`
	Notes        string `json:"notes"`
}

// Site is one dam.
type Site struct {
	ID               string `json:"id"`
	Drainage         string `json:"drainage"`
	Series           int    `json:"series"`
	Number           int    `json:"number"`
	StationM         Num    `json:"station_m"`
	BedM             Num    `json:"bed_m"`
	NotchSillM       Num    `json:"notch_sill_m"`
	DamTopM          Num    `json:"dam_top_m"`
	EffectiveHeightM Num    `json:"effective_height_m"`
	Slope            Num    `json:"slope"`
	CatchmentHa      Num    `json:"catchment_ha"`
	BedWidthM        Num    `json:"bed_width_m"`
	BankToBankM      Num    `json:"bank_to_bank_m"`
	BankHeightM      Num    `json:"bank_height_m"`
	CrestLengthM     Num    `json:"crest_length_m"`
	CrestWidthM      Num    `json:"crest_width_m"`
	SpacingDownM     Num    `json:"spacing_down_m"`
	RiseFromBelowM   Num    `json:"rise_from_below_m"`
	SpacingUpM       Num    `json:"spacing_up_m"`
	StormHours       Num    `json:"storm_hours"`
	ReturnPeriodYr   Num    `json:"return_period_yr"`
	PeakM3s          Num    `json:"peak_m3s"`
	NotchWidthM      Num    `json:"notch_width_m"`
	NotchDepthM      Num    `json:"notch_depth_m"`
	StoneD50M        Num    `json:"stone_d50_m"`
	RockM3           Num    `json:"rock_m3"`
	RockT            Num    `json:"rock_t"`
	ApronLengthM     Num    `json:"apron_length_m"`
	KeyBedM          Num    `json:"key_bed_m"`
	KeyBankM         Num    `json:"key_bank_m"`
	PondM3           Num    `json:"pond_m3"`
	SedimentM3       Num    `json:"sediment_m3"`
	FillYearsLow     Num    `json:"fill_years_low"`
	FillYearsHigh    Num    `json:"fill_years_high"`
	PersonDays       Num    `json:"person_days"`
	Cost             Num    `json:"cost"`
	Confidence       string `json:"confidence"`
	Cautions         string `json:"cautions"`
	WedgeEndM        Num    `json:"wedge_end_m"`
	Place
}

// Design is more of what is known of one dam.
type Design struct {
	ID                     string `json:"id"`
	Method                 string `json:"method"`
	LowM3s                 Num    `json:"low_m3s"`
	HighM3s                Num    `json:"high_m3s"`
	TimeOfConcentrationMin Num    `json:"time_of_concentration_min"`
	Buildable              bool   `json:"buildable"`
	LowerHeightM           Num    `json:"lower_height_m"`
	Missing                string `json:"missing"`
	NotchShape             string `json:"notch_shape"`
	NotchSideSlope         Num    `json:"notch_side_slope"`
	HeadM                  Num    `json:"head_m"`
	FreeboardM             Num    `json:"freeboard_m"`
	CapacityM3s            Num    `json:"capacity_m3s"`
	CapacityOverHighest    Num    `json:"capacity_over_highest"`
	StoneMethod            string `json:"stone_method"`
	BodyM3                 Num    `json:"body_m3"`
	KeyM3                  Num    `json:"key_m3"`
	ApronM3                Num    `json:"apron_m3"`
	RockInPlaceT           Num    `json:"rock_in_place_t"`
	Notes                  string `json:"notes"`
}

// Finding is something the user must know or give.
type Finding struct {
	Rule    string `json:"rule"`
	Subject string `json:"subject"`
	Text    string `json:"text"`
	Source  string `json:"source"`
	Lon     Num    `json:"lon"`
	Lat     Num    `json:"lat"`
}

// Depression is a place that holds water back.
type Depression struct {
	ID       string `json:"id"`
	Kind     string `json:"kind"`
	Cause    string `json:"cause"`
	DepthM   Num    `json:"depth_m"`
	VolumeM3 Num    `json:"volume_m3"`
	Drainage string `json:"drainage"`
	Note     string `json:"note"`
	Place
}
