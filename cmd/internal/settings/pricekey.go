package settings

import "siltstep/hydro"

// Limits of prices and hauls. Source: our own choice.
const (
	mostPrice   = 1e9
	mostDays    = 100 // person-days a m³
	mostLoadT   = 100
	mostBarrowT = 1
)

// yourPrices is the source of a key that nothing is put in for.
const yourPrices = "yours to give: no price is assumed"

// priceKeys are what rock and work cost, and how much rock is moved at once.
var priceKeys = []Key{
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
	key("prices.load", notGiven, "rock that the truck or cart brings at once; without it no loads are told",
		"yours to give: no truck is assumed",
		optional{quantity: quantity{measure: mass, most: mostLoadT, at: func(c *Settings) *float64 { return &c.Works.Prices.LoadT }}, open: notGiven}),
	key("prices.barrow", notGiven, "rock that a wheelbarrow carries; without it no wheelbarrows are told",
		"yours to give; 0.1 t on firm ground is common practice",
		optional{quantity: quantity{measure: mass, most: mostBarrowT, at: func(c *Settings) *float64 { return &c.Works.Prices.BarrowT }}, open: notGiven}),
}

// effectKeys are how far the work reaches beyond the dams.
var effectKeys = []Key{
	key("effect.margin", "3 m", "ground around a dam that the work on it disturbs",
		ownChoice,
		quantity{measure: length, most: hydro.MostEffectM, at: func(c *Settings) *float64 { return &c.Effect.MarginM }}),
	key("effect.access_width", "3 m", "width of the strip from a dam straight to the nearest line of flow.roads; 0 m leaves it out",
		ownChoice,
		quantity{measure: length, most: hydro.MostEffectM, at: func(c *Settings) *float64 { return &c.Effect.AccessM }}),
	key("effect.stockpile", "5 m", "side of the square for rock where the strip meets the road; 0 m leaves it out",
		ownChoice,
		quantity{measure: length, most: hydro.MostEffectM, at: func(c *Settings) *float64 { return &c.Effect.StockpileM }}),
}
