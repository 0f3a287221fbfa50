package hydro

import (
	"siltstep/hydro/checkdam"
	"siltstep/hydro/storm"
)

// Storm is the storm that dams are designed for and the ground it falls on. The zero value gives none: then
// every peak, notch and stone stays empty.
type Storm struct {
	Rain              storm.Rain
	ReturnPeriodYr    float64       // column of a rain table, years; 0 where none is needed
	HoursH            float64       // length of the storm, h; 0: not given
	Pattern           storm.Pattern // how the rain falls; empty: nested
	RunoffCoefficient float64       // for the rational method; 0: not given
	CurveNumber       float64       // for the other methods; 0: not given
	Wetness           storm.Wetness // of the ground before the storm; empty: average
	Ratio             storm.Ratio   // initial abstraction; empty: 0.2
	Method            storm.Method  // to design for; empty: the highest valid peak
	Notes             []storm.Note  // what is to be said of a curve number that was looked up
}

// Works is how dams are built, beyond what siting decides. Zero values leave a choice to the kind.
type Works struct {
	CrestWidthM  float64 // along the flow, m
	FaceUp       float64 // horizontal run a metre of height; NaN: usual for the kind
	FaceDown     float64 // the same
	Notch        checkdam.NotchRequest
	StoneGravity float64        // weight of stone over that of water
	Voids, Waste float64        // shares
	Yield        checkdam.Yield // yearly silt, m³/ha
	Prices       Prices
}

// Prices are the user's own. Zero values are not given, and what needs them stays empty.
type Prices struct {
	Currency     string
	RockPerTonne float64 // delivered to the site
	PerDay       float64 // of one person's work
	DaysPerM3    float64 // person-days to place a cubic metre of rock
	LoadT        float64 // rock that a truck or cart brings at once, t
	BarrowT      float64 // rock that a wheelbarrow carries, t
}

// Design is the storm at one dam and what it asks of the dam.
//
// The peak is that of the catchment of the dam's cell, declared inflows within, by the velocity along the flow path:
// unpaved ground under shallow flow from the divide to where the first channel begins, below it a channel with the
// roughness of Config.Erosion and a hydraulic radius of 0.3 m. Each has its mean slope on the original ground, and its
// length without the zigzag of single cells. Sheet flow is left out, and what is declared to flow in over the edge adds
// area and no length: all of that makes times short and peaks high. Peaks are interpolated between times of concentration
// 4.7 % apart.
//
// Dam has the site's height, slope and section; its pond and sediment are measured on the ground behind it, see Measured, or where that cannot be
// those of a prism of the section at the dam; what the upstream half of the dam itself takes is taken off. Without a peak its rock, and so work and cost, is that up to the sill.
type Design struct {
	PeakM3s         float64 // m³/s; NaN where it is not known
	LowM3s, HighM3s float64 // lowest and highest of the valid methods, m³/s
	Method          storm.Method
	Methods         []storm.MethodPeak
	Notes           []storm.Note      // what is to be heeded of the peak
	ConcentrationS  float64           // time of concentration, after its floor, s
	Measured        checkdam.Measured // what the ground behind it holds
	Dam             *checkdam.Design  // nil where no cross-section is resolved at the dam
	LowerM          float64           // greatest lower effective height at which a dam that cannot be built as designed can be, m; NaN where there is none, or no need
	Why             string            // what is missing, in a plain sentence; empty where all is there
	PersonDays      float64           // NaN where not known
	Cost            float64           // in Prices.Currency; NaN where not known

	noPeak string // why the storm gives no peak; empty where it does
}
