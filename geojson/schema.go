package geojson

// Type is the type of a property.
type Type string

const (
	Real Type = "real" // float64; written with at least one decimal, so that a column reads back as real
	Int  Type = "int"
	Text Type = "text"
	Bool Type = "bool"
)

// Field describes one property of a layer, or one column of a table.
type Field struct {
	Name     string
	Type     Type
	Unit     string // "m", "ha", "1" for a ratio; empty for text and flags
	Decimals int    // digits after the point of a Real; zero counts as one
	Meaning  string
	Null     string // what an empty value says; empty where the field always has a value
}

// Layer describes one layer.
type Layer struct {
	Name     string
	Geometry string // GeoJSON geometry types that occur
	Meaning  string
	Fields   []Field // in the order written
}

// Schema returns the description of every layer. The caller may change what it gets.
func Schema() []Layer {
	return []Layer{SitesLayer(), DrainagesLayer(), ReachesLayer(), CatchmentsLayer(), HeadcutsLayer(), DepressionsLayer(), FootprintsLayer(), EffectsLayer(), LimitsLayer()}
}

// What an empty value says where a later step of the work fills it in.
const (
	needsStorm     = "no rain or no ground was given, or water enters the catchment over the edge of the data"
	needsPeak      = "the peak is not known, or no cross-section near the dam shows bed and banks"
	needsStone     = "no stone method is in its range; or " + needsPeak
	needsSection   = "no cross-section near the dam shows bed and banks"
	needsYield     = "no sediment.yield was given; or " + needsSection
	needsDays      = "no prices.days_per_m3 was given; or " + needsSection
	needsDams      = "no sites were looked for, or no cross-section near any of its dams shows bed and banks"
	needsErosion   = "erosion was not judged, or nothing of it could be told"
	needsBanks     = "no cross-section near the axis shows bed and banks"
	needsPrice     = "prices.rock, prices.day and prices.days_per_m3 are not all given; or " + needsSection
	needsHeight    = "the profile is too short to tell"
	lowestOfSeries = "the dam is the lowest of its series"
)

// SitesLayer describes the check dams, one point each.
func SitesLayer() Layer {
	return Layer{"sites", "Point", "one check dam, at its axis on the channel line", append([]Field{
		{"id", Text, "", 0, "drainage and number, D07-03; numbers rise from the bottom, until field edits keep those of earlier dams", ""},
		{"drainage", Text, "", 0, "drainage the dam stands in", ""},
		{"series", Int, "", 0, "run of dams toe to crest within the drainage, from the bottom", ""},
		{"number", Int, "", 0, "number of the dam within the drainage, as in its id", ""},
		{"station_m", Real, "m", 2, "distance along the channel line from the lower end of the drainage to the dam axis", ""},
		{"bed_m", Real, "m", 3, "elevation of the original bed at the axis", ""},
		{"notch_sill_m", Real, "m", 3, "elevation of the notch sill", ""},
		{"dam_top_m", Real, "m", 3, "elevation of the top of the wings: sill and notch depth", needsPeak},
		{"effective_height_m", Real, "m", 3, "notch sill above the original bed", ""},
		{"slope", Real, "1", 4, "bed slope at the axis, rise over run", needsHeight},
		{"catchment_ha", Real, "ha", 4, "land that drains to the dam", ""},
		{"bed_width_m", Real, "m", 2, "width of the bed at the axis, between the toes of the banks", needsBanks},
		{"bank_to_bank_m", Real, "m", 2, "width between the tops of the banks, at the level of the lower one", needsBanks},
		{"bank_height_m", Real, "m", 2, "height of the lower bank above the bed", needsBanks},
		{"crest_length_m", Real, "m", 2, "length of the dam crest across the channel", needsSection},
		{"crest_width_m", Real, "m", 2, "thickness of the dam crest along the flow", needsSection},
		{"spacing_down_m", Real, "m", 2, "distance to the next dam below in the series, axis to axis", lowestOfSeries},
		{"rise_from_below_m", Real, "m", 3, "rise of the bed from the next dam below in the series", lowestOfSeries},
		{"spacing_up_m", Real, "m", 2, "distance to the next dam above in the series, axis to axis", "the dam is the highest of its series"},
		{"storm_hours", Real, "h", 2, "length of the design storm", needsStorm},
		{"return_period_yr", Real, "yr", 1, "return period of the design storm", needsStorm},
		{"peak_m3s", Real, "m³/s", 4, "peak flow of the design storm at the dam", needsStorm},
		{"notch_width_m", Real, "m", 2, "width of the notch at its sill", needsPeak},
		{"notch_depth_m", Real, "m", 2, "depth of the notch below the top of the wings", needsPeak},
		{"stone_d50_m", Real, "m", 3, "median stone size: half of the stones are larger", needsStone},
		{"rock_m3", Real, "m³", 2, "rock in place: body, keys and apron; without a peak the body ends at the sill", needsSection},
		{"rock_t", Real, "t", 2, "rock to order by weight, waste included", needsSection},
		{"apron_length_m", Real, "m", 2, "length of the apron below the dam", needsSection},
		{"key_bed_m", Real, "m", 2, "depth of the key below the bed", needsSection},
		{"key_bank_m", Real, "m", 2, "depth of the key into each bank", needsSection},
		{"pond_m3", Real, "m³", 2, "water held up to the sill and below the toe of the next dam, less what the dam itself takes up; measured on the ground behind it, or where that is not resolved as the prism of the cross-section at the dam", needsSection},
		{"sediment_m3", Real, "m³", 2, "silt held when full, likewise, up to the next dam", needsSection},
		{"fill_years_low", Real, "yr", 1, "years until full at the soonest, over the yields given and trap shares of 20 % to 80 %, the dams above in the drainage taking their part first", needsYield},
		{"fill_years_high", Real, "yr", 1, "years until full at the latest, likewise", needsYield},
		{"person_days", Real, "d", 2, "hand labour to build the dam", needsDays},
		{"cost", Real, "currency of the price list", 2, "cost of the dam", needsPrice},
		{"confidence", Text, "", 0, "how far the elevation model can be trusted here", "confidence was not judged"},
		{"cautions", Text, "", 0, "what to heed at this dam, also why it cannot be built as designed, sentences joined by \"; \"; \"\" where there is nothing", ""},
	}, haulFields()...)}
}

// DrainagesLayer describes the drainages, one line each, running downstream.
func DrainagesLayer() Layer {
	return Layer{"drainages", "LineString", "one drainage from its channel head down to its confluence or to where flow ends", []Field{
		{"id", Text, "", 0, "D01, D02 … by catchment, largest first", ""},
		{"order", Int, "", 0, "Strahler order at the lower end", ""},
		{"length_m", Real, "m", 2, "length along the channel line, horizontal", ""},
		{"drop_m", Real, "m", 3, "fall of the bed from the upper to the lower end", ""},
		{"slope", Real, "1", 4, "drop over length", "the drainage has no length"},
		{"catchment_ha", Real, "ha", 4, "all land that drains to the last cell, tributaries included, so catchments nest", ""},
		{"truncated", Bool, "", 0, "water enters the catchment over the edge of the data: areas and flows read \"at least\"", ""},
		{"severity", Real, "1", 1, "severity of erosion, 0 to 100, by the parts in ranking.csv; this project's judgement", needsErosion},
		{"severity_class", Text, "", 0, "sound (severity below 20), watch (to 40, or below 20 with one worn piece of 30 m or more), eroding (to 60) or severe", needsErosion},
		{"incision_mean_m", Real, "m", 2, "mean depth of the bed below the land beside it, by length", "the depth is known nowhere, or erosion was not judged"},
		{"incision_max_m", Real, "m", 2, "greatest depth of the bed below the land beside it, as a mean over 5 m", "the depth is known nowhere, or erosion was not judged"},
		{"headcuts", Int, "", 0, "number of headcuts; steps at roads and stock ponds are not counted", "erosion was not judged"},
		{"peak_m3s", Real, "m³/s", 4, "peak flow of the design storm at the lower end", needsStorm},
		{"eligible_m", Real, "m", 2, "length of eligible reaches along the channel line", "no sites were looked for"},
		{"treated_m", Real, "m", 2, TreatedMeaning, "no sites were looked for"},
		{"dams", Int, "", 0, "number of check dams", "no sites were looked for"},
		{"rock_t", Real, "t", 2, "rock to order for all dams by weight, of those of which it is known", needsDams},
		{"pond_m3", Real, "m³", 2, "water held by all dams", needsDams},
		{"sediment_m3", Real, "m³", 2, "silt held by all dams when full", needsDams},
		{"cost", Real, "currency of the price list", 2, "cost of all dams", needsPrice},
	}}
}

// TreatedMeaning is the definition of treated channel length, the same wherever it is shown.
const TreatedMeaning = "treated channel length: along the channel line, horizontal, from the lowest dam of a series to the upper end of the " +
	"sediment wedge of the highest, without gaps between one wedge and the next toe; counted once where series meet"

// ReachesLayer describes the reaches, one line each, running downstream.
func ReachesLayer() Layer {
	return Layer{"reaches", "LineString", "a piece of a drainage with one verdict", []Field{
		{"drainage", Text, "", 0, "drainage the reach belongs to", ""},
		{"from_station_m", Real, "m", 2, "station of the lower end", ""},
		{"to_station_m", Real, "m", 2, "station of the upper end", ""},
		{"verdict", Text, "", 0, "eligible, or not eligible", ""},
		{"reasons", Text, "", 0, "every reason why the reach is not eligible, sentences joined by \"; \"; \"\" where it is", ""},
	}}
}

// CatchmentsLayer describes the catchments, one polygon a drainage.
func CatchmentsLayer() Layer {
	return Layer{"catchments", "Polygon, MultiPolygon", "the land that drains to the last cell of a drainage; catchments nest", []Field{
		{"id", Text, "", 0, "drainage the catchment belongs to", ""},
		{"catchment_ha", Real, "ha", 4, "land by count of cells; the outline may differ by half a cell a ring", ""},
		{"truncated", Bool, "", 0, "water enters over the edge of the data: the area reads \"at least\"", ""},
	}}
}

// HeadcutsLayer describes the steps in the beds, one point each.
func HeadcutsLayer() Layer {
	return Layer{"headcuts", "Point", "a step in the bed of a drainage, at its lip", []Field{
		{"id", Text, "", 0, "H01, H02 … drainage by drainage, each from its lower end", ""},
		{"drainage", Text, "", 0, "drainage the step lies in", ""},
		{"station_m", Real, "m", 2, "distance along the channel line from the lower end of the drainage to the lip", ""},
		{"height_m", Real, "m", 2, "height of the step, the grade of the bed around it left out", ""},
		{"catchment_ha", Real, "ha", 4, "land that drains over the lip", ""},
		{"cause", Text, "", 0, "headcut where nothing beside it would explain the step; road at a road, its fill or a cut through it; stock pond at a stock pond or what holds it", ""},
	}}
}

// DepressionsLayer describes the places that hold water back, one point each.
func DepressionsLayer() Layer {
	return Layer{"depressions", "Point", "a place that holds water back in the elevation model, at its deepest, and what was done with it; cuts first, then filled, then kept, each by volume", []Field{
		{"id", Text, "", 0, "C01 … of cuts, F01 … of filled, K01 … of kept places, by volume, largest first", ""},
		{"kind", Text, "", 0, "cut: what holds the water was cut through; filled: to the level where it spills; kept: declared water, left as it is", ""},
		{"cause", Text, "", 0, "likely cause: culvert or playa (declared), road fill, stock pond (declared, or large, deep and away from a road), noise (of the survey), unknown", ""},
		{"depth_m", Real, "m", 3, "deepest cut below the ground, or deepest water above it", ""},
		{"length_m", Real, "m", 2, "length of the cut along its path", "nothing was cut"},
		{"area_m2", Real, "m²", 1, "cells lowered, or under water", ""},
		{"volume_m3", Real, "m³", 3, "ground cut away, or water held; 0 where the water stands level in the data already", ""},
		{"drainage", Text, "", 0, "drainage whose channel runs through it", "no channel does"},
		{"note", Text, "", 0, "what else there is to say, also why no cut was made; \"\" where there is nothing", ""},
	}}
}

// FootprintsLayer describes the ground that dams stand on, one polygon a dam.
func FootprintsLayer() Layer {
	return Layer{"footprints", "Polygon", "the ground that a check dam stands on, seen from above: its body with the keys in the banks, and the apron; no smaller than the dam, and true to about a cell; " +
		"dams without a design are left out", []Field{
		{"id", Text, "", 0, "check dam", ""},
		{"drainage", Text, "", 0, "drainage the dam stands in", ""},
		{"series", Int, "", 0, "run of dams within the drainage, from the bottom", ""},
		{"footprint_m2", Real, "m²", 2, "area of the polygon on the map of the grid", ""},
		{"fill_m3", Real, "m³", 2, "rock in place: body, keys and apron", ""},
		{"pond_m2", Real, "m²", 2, "water surface behind the dam at the notch sill", "the pond was not measured"},
	}}
}

// EffectsLayer describes the ground that the work disturbs, one polygon a piece.
func EffectsLayer() Layer {
	return Layer{"effects", "Polygon", "ground that the work on a check dam disturbs; pieces may lie over each other, so their sum is the most it can be; the way to the road is a straight line " +
		"whatever lies between: walk it and move it; dams without a design are left out", []Field{
		{"dam", Text, "", 0, "check dam", ""},
		{"drainage", Text, "", 0, "drainage the dam stands in", ""},
		{"part", Text, "", 0, "works: the dam with effect.margin around it; access: a strip effect.access_width wide from there to the nearest road; stockpile: a square at the road for rock", ""},
		{"area_m2", Real, "m²", 2, "area of the polygon on the map of the grid", ""},
	}}
}

// LimitsLayer describes what was declared of the land, each shape as it was given.
func LimitsLayer() Layer {
	return Layer{"limits", "Point, LineString, Polygon, MultiPolygon", "what was declared to limit or carry structures", []Field{
		{"kind", Text, "", 0, "property, exclusion, building, road, live stream or base level", ""},
	}}
}
