package settings

import (
	"siltstep/hydro/checkdam"
	"siltstep/hydro/siting"
)

// Limits of works: those of checkdam, and of faces of loose rock, which lies no steeper than about 1.25:1. Source: our own choice.
const (
	leastFace     = 1.0
	mostFace      = 10
	leastCrestM   = 0.2
	mostCrestM    = 5
	leastNotchM   = 0.2
	mostNotchM    = 20
	leastSide     = 0.1
	mostSide      = 5
	mostFreeM     = 1
	leastGravity  = 1.5
	mostGravity   = 4
	leastVoids    = 0.1
	mostVoids     = 0.6
	mostWaste     = 1
	leastYield    = 0.001 // m³/ha
	mostYieldM3Ha = 1_000
)

// damKeys are how dams stand and are built.
var damKeys = []Key{
	key("dams.kind", "loose-rock", "what the dams are built of; the only kind in this version",
		ownChoice,
		word{list: []string{string(checkdam.LooseRock)},
			get: func(c Settings) string { return string(c.Siting.Kind) },
			set: func(c *Settings, text string) { c.Siting.Kind = checkdam.Kind(text) }}),
	key("dams.height", "0.6 m", "effective height, notch sill above the bed; 0.3 m to 0.6 m is usual for loose rock, above 0.6 m is cautioned",
		"Credit Valley Conservation swale guide (0.6 m); Jepson 1939, Farmers' Bulletin 1813 (low dams rather than high); 0.9 m from about 3 ft in handbooks (from memory)",
		quantity{measure: length, least: siting.LeastHeightM, most: siting.RefusedHeightM, engineer: true, at: func(c *Settings) *float64 { return &c.Siting.HeightM }}),
	key("dams.min_height", "0.3 m", "how low a dam may be made so that its pond stays inside the property; at dams.height or above none is lowered",
		ownChoice,
		quantity{measure: length, least: siting.LeastHeightM, most: siting.RefusedHeightM, at: func(c *Settings) *float64 { return &c.Siting.MinHeightM }}),
	key("dams.slope", "[2 %, 20 %]", "bed slope at which a dam may stand; 2 % to 8 % is best",
		ownChoice,
		span{measure: slope, most: 1, at: func(c *Settings) (low, high *float64) { return &c.Siting.SlopeMin, &c.Siting.SlopeMax }}),
	key("dams.catchment", "[0.25 ha, 4 ha]", "catchment at a dam; below 2 ha is best, above 4 ha is for an engineer",
		"EPA menu of practices, check dams (2 ac to 10 ac, and 10 ac is 4.05 ha); the least is our own choice",
		span{measure: area, most: noMost, at: func(c *Settings) (low, high *float64) {
			return &c.Siting.CatchmentMinM2, &c.Siting.CatchmentMaxM2
		}}),
	key("dams.min_incision", "0.3 m", "least depth of the bed below the land beside it at which a dam may stand, as a mean over 10 m or 5 cells; 0 m asks for none",
		gullyDepth,
		quantity{measure: length, most: noMost, at: func(c *Settings) *float64 { return &c.Siting.MinIncisionM }}),
	key("dams.spacing_rule", "toe-to-crest", "where the next dam upstream stands: where the bed reaches the sill of the one below; the only rule in this version",
		"EPA menu of practices, check dams",
		word{list: []string{"toe-to-crest"},
			get: func(Settings) string { return "toe-to-crest" },
			set: func(*Settings, string) {}}),
	key("dams.deposit_ratio", "0", "slope of the sediment behind a dam over the slope of the bed; 0 is level and the safe choice",
		"Leopold 1992 and Nichols et al. 2016 measured 0.5 to 0.66; 0.7 from Heede and Mufich 1973 (from memory); the default is our own choice",
		quantity{measure: number, most: siting.MaxDepositRatio, at: func(c *Settings) *float64 { return &c.Siting.DepositRatio }}),
	key("dams.engineer", "false", "true states that an engineer designs the dams, and lets heights above 0.9 m through",
		ownChoice,
		flag{at: func(c *Settings) *bool { return &c.Siting.Engineer }}),
	key("dams.crest_width", asUsual, "thickness of the crest along the flow; usual is 0.5 m, or two stones where they are thicker",
		ownChoice,
		optional{quantity: quantity{measure: length, least: leastCrestM, most: mostCrestM, at: func(c *Settings) *float64 { return &c.Works.CrestWidthM }}, open: asUsual}),
	key("dams.face_up", "1.5:1", "upstream face, horizontal : vertical",
		ownChoice,
		quantity{measure: sideSlope, least: leastFace, most: mostFace, at: func(c *Settings) *float64 { return &c.Works.FaceUp }}),
	key("dams.face_down", "3:1", "downstream face, horizontal : vertical; a steeper one needs larger stone, and may leave the range that the stone method was tested in",
		"the range that Robinson, Rice and Kadavy 1998 tested (2.5:1 and flatter); 3:1 within it is our own choice",
		quantity{measure: sideSlope, least: leastFace, most: mostFace, at: func(c *Settings) *float64 { return &c.Works.FaceDown }}),
	key("dams.notch_shape", string(checkdam.Trapezoidal), "form of the notch, seen along the flow",
		"Geyik 1986, caption of figure 9",
		choose(string(checkdam.Trapezoidal), []checkdam.Shape{checkdam.Rectangular, checkdam.Parabolic}, func(c *Settings) *checkdam.Shape { return &c.Works.Notch.Shape }, nil)),
	key("dams.notch_width", asUsual, "width of the notch at its sill; usual is that of the bed, narrower where the banks ask for it",
		ownChoice,
		optional{quantity: quantity{measure: length, least: leastNotchM, most: mostNotchM, at: func(c *Settings) *float64 { return &c.Works.Notch.WidthM }}, open: asUsual}),
	key("dams.notch_side", asUsual, "sides of a trapezoidal notch, horizontal : vertical; usual is 1:1",
		ownChoice,
		optional{quantity: quantity{measure: sideSlope, least: leastSide, most: mostSide, at: func(c *Settings) *float64 { return &c.Works.Notch.SideSlope }}, open: asUsual, also: notchSideFault}),
	key("dams.freeboard", "0.1 m", "least height of the wings above the water of the design storm",
		ownChoice,
		quantity{measure: length, least: 0.05, most: mostFreeM, at: func(c *Settings) *float64 { return &c.Works.Notch.FreeboardM }}),
	key("stone.gravity", "2.65", "weight of the stone over that of water; limestone and granite are near 2.6 to 2.7, sandstone and lava may be much lighter",
		"common practice",
		quantity{measure: number, least: leastGravity, most: mostGravity, at: func(c *Settings) *float64 { return &c.Works.StoneGravity }}),
	key("stone.voids", "0.35", "share of placed rock that is air",
		"our own choice within a trade figure of 0.3 to 0.4",
		quantity{measure: number, least: leastVoids, most: mostVoids, at: func(c *Settings) *float64 { return &c.Works.Voids }}),
	key("stone.waste", "0.15", "share of rock to order beyond that in place",
		"our own choice; a trade figure is 0.3",
		quantity{measure: number, least: 0.01, most: mostWaste, at: func(c *Settings) *float64 { return &c.Works.Waste }}),
	key("sediment.yield", notGiven, "silt that leaves a hectare of catchment in a year, low and high, for the years until a dam is full",
		"yours to give: no yield is assumed",
		optionalSpan{span{measure: yield, least: leastYield, most: mostYieldM3Ha, at: func(c *Settings) (low, high *float64) {
			return &c.Works.Yield.LowM3PerHa, &c.Works.Yield.HighM3PerHa
		}}}),
	key("prices.currency", notGiven, "name of the money that prices are in, for the texts",
		yourPrices,
		name{at: func(c *Settings) *string { return &c.Works.Prices.Currency }}),
	key("prices.rock", notGiven, "price of a tonne of rock, delivered to the site",
		yourPrices,
		optional{quantity: quantity{measure: number, most: mostPrice, at: func(c *Settings) *float64 { return &c.Works.Prices.RockPerTonne }}, open: notGiven}),
	key("prices.day", notGiven, "price of one person's day of work",
		yourPrices,
		optional{quantity: quantity{measure: number, most: mostPrice, at: func(c *Settings) *float64 { return &c.Works.Prices.PerDay }}, open: notGiven}),
	key("prices.days_per_m3", notGiven, "days of one person's work to place a cubic metre of rock; without it no days are told",
		yourPrices,
		optional{quantity: quantity{measure: number, most: mostDays, at: func(c *Settings) *float64 { return &c.Works.Prices.DaysPerM3 }}, open: notGiven}),
}

const (
	yourPrices = "yours to give: no price is assumed"
	mostPrice  = 1e9
	mostDays   = 100 // person-days a m³; our own choice
)

// notchSideFault tells where a notch has no sides to slope.
func notchSideFault(c Settings) string {
	if s := c.Works.Notch.Shape; s != "" && s != checkdam.Trapezoidal {
		return "a " + string(s) + " notch has none; leave it out"
	}
	return ""
}
