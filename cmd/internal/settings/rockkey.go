package settings

import "siltstep/hydro"

// Limits of stone and silt: those of checkdam. Source: our own choice.
const (
	leastGravity  = 1.5
	mostGravity   = 4
	leastVoids    = 0.1
	mostVoids     = 0.6
	mostWaste     = 1
	leastYield    = 0.001 // m³/ha
	mostYieldM3Ha = 1_000
)

// rockKeys are the stone that dams are built of, the silt that they hold, and the gullies that they stand in.
var rockKeys = []Key{
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
	key("sediment.density", "1.3 t/m3", "dry weight of the silt that dams hold, for tonnes of it",
		"our own choice within 1.1 to 1.6",
		quantity{measure: density, least: hydro.LeastSedimentTPerM3, most: hydro.MostSedimentTPerM3, at: func(c *Settings) *float64 { return &c.Gully.SedimentTPerM3 }}),
	key("gully.formation_years", notGiven, "years over which the gullies formed, from old photographs, maps or people who know the land; without it no yearly load is told",
		"yours to give: no age is assumed",
		optional{quantity: quantity{measure: years, most: hydro.MostFormationYears, at: func(c *Settings) *float64 { return &c.Gully.FormationYears }}, open: notGiven}),
	key("gully.bank_density", "1.4 t/m3", "dry weight of the soil of banks and bed, for tonnes of what the gullies lost",
		"our own choice within 1.2 to 1.7",
		quantity{measure: density, least: hydro.LeastBankTPerM3, most: hydro.MostBankTPerM3, at: func(c *Settings) *float64 { return &c.Gully.BankTPerM3 }}),
}
