package settings

import "siltstep/cmd/internal/facts"

// Handover is what documents are called and printed on, and what is not to be told when they are shared.
type Handover struct {
	Title   string   // name of the land; empty for the name of the elevation file
	Paper   string   // "a4" or "letter"
	Private []string // layers of facts.Layers, in their order, whose exact places --share leaves out
}

// Funding is how the cost is to be shared.
type Funding struct {
	MatchShare float64 // that others than the federal funder bear, over MatchBase; 0 for not given
	MatchBase  string  // "total" or "federal"; empty for not given
	Federal    float64 // money that the federal funder gives; 0 for not given
}

// mostMatch is the highest match over the base. Source: our own choice, ten times the federal money.
const mostMatch = 10

const theProgramme = "yours to give, from the terms of the programme"

// handoverKeys are what documents are called and what they leave out.
var handoverKeys = []Key{
	key("handover.title", notGiven, "name of the land on maps and documents; none takes the name of the elevation file",
		"yours to give",
		title{at: func(c *Settings) *string { return &c.Handover.Title }}),
	key("handover.paper", "a4", "paper that cards and documents are laid out for",
		ownChoice,
		word{list: []string{"a4", "letter"}, get: func(c Settings) string { return c.Handover.Paper }, set: func(c *Settings, text string) { c.Handover.Paper = text }}),
	key("handover.private", notGiven, "layers whose exact places are left out with --share, and with them whatever they could be worked out from",
		"yours to give",
		several{list: facts.Layers(), at: func(c *Settings) *[]string { return &c.Handover.Private }}),
}

// fundingKeys are how the cost is to be shared.
var fundingKeys = []Key{
	key("funding.match_share", notGiven, "share of the cost that others than the federal funder bear, work in kind included; it needs funding.match_base",
		theProgramme,
		optional{quantity: quantity{measure: share, most: mostMatch, at: func(c *Settings) *float64 { return &c.Funding.MatchShare }}, open: notGiven, also: matchFault}),
	key("funding.match_base", notGiven, "what funding.match_share is a share of: the total cost, or the federal money; the same share of either is not the same sum",
		theProgramme,
		choose(notGiven, []string{"total", "federal"}, func(c *Settings) *string { return &c.Funding.MatchBase }, baseFault)),
	key("funding.federal", notGiven, "money that the federal funder gives, in the currency of prices",
		yourPrices,
		optional{quantity: quantity{measure: number, most: mostPrice, at: func(c *Settings) *float64 { return &c.Funding.Federal }}, open: notGiven}),
}

// matchFault tells where a match is a share of nothing that is named, or leaves the federal funder nothing to bear.
func matchFault(c Settings) string {
	switch {
	case c.Funding.MatchBase == "":
		return "funding.match_base is missing: is it a share of the total cost or of the federal money? total or federal"
	case c.Funding.MatchBase == "total" && c.Funding.MatchShare >= 1:
		return "less than 100 % of the total; the rest is federal"
	}
	return ""
}

// baseFault tells where a base has no share.
func baseFault(c Settings) string {
	if c.Funding.MatchBase != "" && c.Funding.MatchShare == 0 {
		return "it goes with funding.match_share, which is missing"
	}
	return ""
}
