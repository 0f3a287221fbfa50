package settings

import (
	"math"
	"slices"
	"strings"

	"siltstep/hydro"
	"siltstep/hydro/erosion"
	"siltstep/hydro/flow"
)

// Key is one setting.
type Key struct {
	Name    string // section and key, dams.height
	Kind    string // "word", "length", "area range", "number", "file", "list", "true or false" …
	Default string // as it is written in a file
	Allowed string // range or words
	Meaning string
	Source  string // where the default or the range comes from

	rule rule
}

// Section returns the part of the name before the point.
func (k Key) Section() string { section, _, _ := strings.Cut(k.Name, "."); return section }

// Keys returns every setting, in the order of a settings file.
func Keys() []Key { return slices.Clone(table) }

const (
	ownChoice  = "our own choice"
	judgement  = "this project's judgement; no published weighting was found"
	gullyDepth = "Wilkinson and others 2015 and the gully guide of New South Wales (a gully is cut more than 0.3 m)"
	noMost     = math.MaxFloat64 // no upper limit
)

// table is every key, in the order of a settings file.
var table = slices.Concat(landKeys, rainKeys, runoffKeys, damKeys, clearanceKeys, bodyKeys, rockKeys, priceKeys, effectKeys, handoverKeys, fundingKeys)

// landKeys are the keys of water, channels and erosion.
var landKeys = []Key{
	key("flow.edge", "open", "whether water may come in over the edge of the data: open marks such drainages as truncated, closed declares that nothing flows in",
		ownChoice,
		word{list: []string{"open", "closed"}, get: edgeWord, set: setEdge}),
	key("flow.cut_length", "30 m", "longest cut through a blockage in open ground; 0 m makes none there, which leaves a plain fill",
		ownChoice,
		quantity{measure: length, most: flow.MostCutLengthM, at: func(c *Settings) *float64 { return &c.Flow.CutLengthM }}),
	key("flow.cut_depth", "1 m", "deepest cut through a blockage in open ground",
		ownChoice,
		quantity{measure: length, most: flow.MostCutDepthM, at: func(c *Settings) *float64 { return &c.Flow.CutDepthM }}),
	key("flow.road_cut_length", "60 m", "longest cut within reach of a line of flow.roads; 0 m makes none there",
		ownChoice,
		quantity{measure: length, most: flow.MostCutLengthM, at: func(c *Settings) *float64 { return &c.Flow.RoadCutLengthM }}),
	key("flow.road_cut_depth", "6 m", "deepest cut within reach of a line of flow.roads",
		ownChoice,
		quantity{measure: length, most: flow.MostCutDepthM, at: func(c *Settings) *float64 { return &c.Flow.RoadCutDepthM }}),
	key("flow.road_reach", "30 m", "how far from a line of flow.roads its limits of cuts hold, and what holds water back is taken for a road fill",
		ownChoice,
		quantity{measure: length, most: flow.MostRoadReachM, at: func(c *Settings) *float64 { return &c.Flow.RoadReachM }}),
	key("flow.roads", noFile, "centre lines of roads; fills within reach of one are cut by the road limits, as if each had a culvert",
		ownChoice,
		file{content: "lines" + anyLayer, at: func(c *Settings) *string { return &c.Files.Roads }}),
	key("flow.culverts", noFile, "known culverts: a point on the fill, or a line of at most 60 m from inlet to outlet; they are cut first",
		ownChoice,
		file{content: "points or lines" + anyLayer, at: func(c *Settings) *string { return &c.Files.Culverts }}),
	key("flow.stock_ponds", noFile, "existing water, never cut and left without dams: with the attribute ends_flow true a playa, where flow ends; else a pond with a spillway, which water passes through",
		ownChoice,
		file{content: "polygons" + anyLayer, at: func(c *Settings) *string { return &c.Files.StockPonds }}),
	key("channels.start_area", "0.25 ha", "catchment at which a channel begins; 50 cells count as the least",
		ownChoice,
		quantity{measure: area, most: noMost, at: func(c *Settings) *float64 { return &c.Channels.StartAreaM2 }}),
	key("channels.min_length", "30 m", "shorter channels without a tributary are dropped; 0 m keeps all",
		ownChoice,
		quantity{measure: length, most: noMost, at: func(c *Settings) *float64 { return &c.Channels.MinLengthM }}),
	key("channels.section_spacing", "5 m", "distance between cross-sections along a channel; two cells count as the least, 0 m takes no sections",
		ownChoice,
		quantity{measure: length, most: noMost, at: func(c *Settings) *float64 { return &c.Sections.SpacingM }}),
	key("channels.section_reach", "20 m", "how far a cross-section goes to either side of the channel line",
		ownChoice,
		quantity{measure: length, least: hydro.LeastSectionReachM, most: hydro.MostSectionReachM, at: func(c *Settings) *float64 { return &c.Sections.ReachM }}),
	key("erosion.window", "15 m", "side of the square over which the land beside a channel is told; 1.5 times the widest gully or more",
		ownChoice,
		quantity{measure: length, least: erosion.LeastWindowM, most: erosion.MostWindowM, at: func(c *Settings) *float64 { return &c.Erosion.WindowM }}),
	key("erosion.headcut", "0.3 m", "least height of a step in the bed that is a headcut",
		ownChoice,
		quantity{measure: length, least: erosion.LeastDepthM, most: erosion.MostDepthM, at: func(c *Settings) *float64 { return &c.Erosion.HeadcutM }}),
	key("erosion.incised_depth", "0.3 m", "depth below the land beside it from which a length of channel counts as incised",
		gullyDepth,
		quantity{measure: length, least: erosion.LeastDepthM, most: erosion.MostDepthM, at: func(c *Settings) *float64 { return &c.Erosion.IncisedM }}),
	key("erosion.bed_material", noMaterial, "what channel beds are made of, for the shear they bear; none leaves shear out of the severity",
		"Fortier and Scobey 1926; Fischenich 2001 (both from memory)",
		word{list: bedMaterials(), get: bedMaterial, set: setBedMaterial}),
	key("erosion.roughness", "0.04", "Manning's n of the channels, for the shear of a storm",
		"Chow 1959, natural streams (second-hand); at most 0.3, Yochum and others 2014",
		quantity{measure: number, least: erosion.LeastRoughness, most: erosion.MostRoughness, at: func(c *Settings) *float64 { return &c.Erosion.Roughness }}),
	limits("severity.incision", "[0.3 m, 2 m]", "mean depth of the bed below the land beside it", length, noMost,
		func(c *Settings) *erosion.Scale { return &c.Erosion.Incision }),
	weight("severity.incision_weight", "30", "incision", func(c *Settings) *erosion.Scale { return &c.Erosion.Incision }),
	limits("severity.headcuts", "[0, 1]", "height of headcuts in m per 100 m of channel", number, noMost,
		func(c *Settings) *erosion.Scale { return &c.Erosion.Headcuts }),
	weight("severity.headcuts_weight", "25", "headcuts", func(c *Settings) *erosion.Scale { return &c.Erosion.Headcuts }),
	limits("severity.shear", "[1, 4]", "shear of the storm over what the bed material bears", number, noMost,
		func(c *Settings) *erosion.Scale { return &c.Erosion.Shear }),
	weight("severity.shear_weight", "20", "shear", func(c *Settings) *erosion.Scale { return &c.Erosion.Shear }),
	limits("severity.bank_slope", "[50 %, 200 %]", "mean slope of the banks along what is incised", slope, noMost,
		func(c *Settings) *erosion.Scale { return &c.Erosion.BankSlope }),
	weight("severity.bank_slope_weight", "15", "bank slope", func(c *Settings) *erosion.Scale { return &c.Erosion.BankSlope }),
	limits("severity.incised_length", "[0, 1]", "share of the length that is incised", number, 1,
		func(c *Settings) *erosion.Scale { return &c.Erosion.IncisedLength }),
	weight("severity.incised_length_weight", "10", "incised length", func(c *Settings) *erosion.Scale { return &c.Erosion.IncisedLength }),
}

func key(name, preset, meaning, source string, r rule) Key {
	return Key{Name: name, Kind: r.kind(), Default: preset, Allowed: r.allowed(), Meaning: meaning, Source: source, rule: r}
}

func edgeWord(c Settings) string {
	switch c.Flow.Edge {
	case flow.EdgeOpen:
		return "open"
	case flow.EdgeClosed:
		return "closed"
	}
	return ""
}

func setEdge(c *Settings, text string) {
	c.Flow.Edge = flow.EdgeOpen
	if text == "closed" {
		c.Flow.Edge = flow.EdgeClosed
	}
}
