package facts

// Series is a run of dams that is built as a whole.
type Series struct {
	ID           string `json:"id"`
	Drainage     string `json:"drainage"`
	Number       int    `json:"number"`
	DamIDs       string `json:"dam_ids"`
	FromStationM Num    `json:"from_station_m"`
	ToStationM   Num    `json:"to_station_m"`
	TreatedM     Num    `json:"treated_m"`
	Quantities
	Built      int    `json:"built"`
	Loads      Num    `json:"loads"`
	Severity   Num    `json:"severity"`
	WeightedM  Num    `json:"weighted_m"`
	BuildOrder int    `json:"build_order"`
	Year       Num    `json:"year"`
	LeftOut    bool   `json:"left_out"`
	Before     string `json:"before"`
}

// Scenario is one way to treat the property, beside others.
type Scenario struct {
	Name       string `json:"name"`
	Series     int    `json:"series"`
	EligibleM  Num    `json:"eligible_m"`
	TreatedM   Num    `json:"treated_m"`
	UncoveredM Num    `json:"uncovered_m"`
	Quantities
	Note string `json:"note"`
}

// Load is the soil that a drainage has lost, and what its dams may keep.
type Load struct {
	Drainage     string `json:"drainage"`
	VoidedM      Num    `json:"voided_m"`
	UnresolvedM  Num    `json:"unresolved_m"`
	VoidM3       Num    `json:"void_m3"`
	VoidLowM3    Num    `json:"void_low_m3"`
	VoidHighM3   Num    `json:"void_high_m3"`
	MassT        Num    `json:"mass_t"`
	MassLowT     Num    `json:"mass_low_t"`
	MassHighT    Num    `json:"mass_high_t"`
	YearT        Num    `json:"year_t"`
	TreatedM     Num    `json:"treated_m"`
	AvoidedYearT Num    `json:"avoided_year_t"`
	Method       string `json:"method"`
}

// Gradient is the slope of a treated channel before and after.
type Gradient struct {
	ID     string `json:"id"`
	Length Num    `json:"length_m"`
	DropM  Num    `json:"drop_m"`
	FallsM Num    `json:"falls_m"`
	Before Num    `json:"gradient_before"`
	After  Num    `json:"gradient_after"`
}

// Filling is how full the dams of a series or drainage are some years after they are built.
type Filling struct {
	ID     string `json:"id"`
	Years  Num    `json:"years"`
	RoomM3 Num    `json:"room_m3"`
	Low    Num    `json:"filled_low"`
	Likely Num    `json:"filled"`
	High   Num    `json:"filled_high"`
}

// Check is something to look at on the ground before a dam is built.
type Check struct {
	ID     string `json:"id"`
	Number int    `json:"number"`
	Text   string `json:"text"`
}

// Weakness is something that may make a dam fail.
type Weakness struct {
	ID     string `json:"id"`
	Mode   string `json:"mode"`
	Margin Num    `json:"margin"`
	Text   string `json:"text"`
}

// Change is what the field asked for and what came of it.
type Change struct {
	ID   string `json:"id"`
	Kind string `json:"change"`
	Text string `json:"text"`
	Note string `json:"note"`
}
