package settings

import (
	"siltstep/hydro/checkdam"
	"siltstep/hydro/siting"
)

// mostDamCostT is the most that a dam may cost beside its rock, in tonnes of rock. Source: our own choice.
const mostDamCostT = 1000

// damKeys are what dams are and what a series of them is to reach.
var damKeys = []Key{
	key("dams.kind", string(checkdam.LooseRock), "what the dams are built of; each kind has its own heights, faces and notch",
		ownChoice,
		word{list: kinds(),
			get: func(c Settings) string { return string(c.Siting.Kind) },
			set: func(c *Settings, text string) { c.Siting.Kind = checkdam.Kind(text) }}),
	key("dams.objective", string(siting.LeastRock), "what is sought among the layouts that cover the most eligible channel: the least rock, with dams.fixed_cost for each dam; "+
		"the fewest dams, and of those the least rock; or the most silt held a tonne of rock, dams.fixed_cost counted in",
		ownChoice,
		word{list: objectives(),
			get: func(c Settings) string { return string(c.Siting.Objective) },
			set: func(c *Settings, text string) { c.Siting.Objective = siting.Objective(text) }}),
	key("dams.fixed_cost", "1 t", "what a dam costs beside its rock (the way there, digging, keys), as a weight of rock; more makes fewer and higher dams",
		ownChoice,
		quantity{measure: mass, most: mostDamCostT, at: func(c *Settings) *float64 { return &c.Siting.DamCostT }}),
	key("dams.height", "0.6 m", "greatest effective height, notch sill above the bed; 0.3 m to 0.6 m is usual for loose rock, above 0.6 m is cautioned, and without dams.engineer no dam is higher than its kind allows: "+
		"one-rock 0.3 m, brush 0.5 m",
		"Credit Valley Conservation swale guide (0.6 m); Jepson 1939, Farmers' Bulletin 1813 (low dams rather than high); 0.9 m from about 3 ft in handbooks (from memory)",
		quantity{measure: length, least: siting.LeastHeightM, most: siting.RefusedHeightM, engineer: true, at: func(c *Settings) *float64 { return &c.Siting.HeightM }}),
	key("dams.min_height", "0.3 m", "least effective height; those from it to dams.height are tried 0.05 m apart, and at dams.height or above all dams have one height",
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
	key("dams.spacing_rule", "toe-to-crest", "how near dams stand: the toe of each no higher than the silt line from the sill of the one below; the only rule in this version",
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
}

// kinds lists the words for what dams are built of.
func kinds() (words []string) {
	for _, l := range checkdam.Kinds() {
		words = append(words, string(l.Kind))
	}
	return words
}

// objectives lists the words for what is sought.
func objectives() (words []string) {
	for _, o := range siting.Objectives() {
		words = append(words, string(o))
	}
	return words
}
