package siting

// Ground is what the rest of a plan tells siting of one drainage. Lists have one value a station of its profile.
// Functions are called from one goroutine.
type Ground struct {
	IncisionM []float64 // depth of the bed below the land beside it, m; NaN where it cannot be told; nil where it was not judged, and Config.MinIncisionM does not hold

	// PlaceAt tells of a place for a dam at a station, by its position in the profile; it is asked only where the land
	// itself allows a dam. nil: banks are not judged, and a dam costs the same at every place.
	PlaceAt func(station int) Place

	// WaterM returns how far water that stands at a level reaches to the left and right of the channel line at a
	// station in metres along it, both 0 and up, m. nil: water is taken to stay on the line.
	WaterM func(stationM, levelM float64) (leftM, rightM float64)

	// SiltM3 returns what a dam with its axis at a station holds when full, below the deposit line from its sill, as far as another station,
	// m³; asked only for MostSedimentPerTonne, which needs it.
	SiltM3 func(axisM, sillM, toM float64) float64
}

// Place is what is known of a place for a dam.
type Place struct {
	BedWidthM, TopWidthM, BankM float64 // of its cross-section, m; NaN where it cannot be told
	Offers                      []Offer // one for each of Config.Heights, the lowest first; none where Why is set
	Why                         string  // why no dam can be sized there, a clause; empty where one can
}

// Offer is a dam of one height at a place.
type Offer struct {
	HeightM     float64 // effective height, m
	RockT       float64 // rock to order, t
	CrestWidthM float64 // of its crest along the flow, m; zero: that of Config.Body
	Fault       *Reason // why such a dam cannot be built; nil where it can
}
