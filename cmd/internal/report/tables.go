package report

import "siltstep/geojson"

// noSiting says what an empty value means where no dams were sited.
const noSiting = "no sites were looked for"

// noDesigns says what an empty sum of designs means.
const noDesigns = noSiting + ", or no dam could be designed"

// noPlace says what an empty place of a finding means.
const noPlace = "it has no place of its own"

// noBed says what an empty bed of a profile means.
const noBed = "the ground here is not the bed: a blockage was cut through, or water stands here"

// noBanks says what an empty width or height of a bank means.
const noBanks = "no cross-section near here shows bed and banks"

// Tables returns the data dictionary: every table of plan.json and screen.json in the order
// of the file, then the columns of the tables beside it. The caller may change what it gets.
func Tables() []geojson.Layer {
	return []geojson.Layer{
		programTable(), textTable("cautions", "what to heed with every plan"),
		inputTable(), settingTable(), gridTable(), textTable("decisions", "what was decided about the grid"),
		totalTable(), drainageTable(), partTable(), headcutTable(), crossSectionTable(), reachTable(), siteTable(), designTable(), peakTable(), stoneTable(),
		checkTable(), weaknessTable(), loadTable(), gradientTable(), fillingTable(), SeriesTable(), ScenarioTable(), depressionTable(), ChangeTable(), findingTable(), sourceTable(),
		summaryTable(), RankingTable(), ProfileTable(), SectionTable(), DamSectionTable(), EditTable(),
	}
}

func programTable() geojson.Layer {
	return table("program", "what wrote the file", []geojson.Field{
		{Name: "name", Type: geojson.Text, Meaning: "name of the program"},
		{Name: "version", Type: geojson.Text, Meaning: "version of the program"},
		{Name: "format", Type: geojson.Int, Meaning: "version of this file format"},
		{Name: "command", Type: geojson.Text, Meaning: "plan, or screen where no sites were looked for"},
	})
}

func textTable(name, meaning string) geojson.Layer {
	return table(name, meaning, []geojson.Field{{Name: "text", Type: geojson.Text, Meaning: "one or two sentences"}})
}

func inputTable() geojson.Layer {
	return table("inputs", "files that were read", []geojson.Field{
		{Name: "role", Type: geojson.Text, Meaning: "what the file was read for"},
		{Name: "file", Type: geojson.Text, Meaning: "name without folder"},
		{Name: "sha256", Type: geojson.Text, Meaning: "SHA-256 checksum, hex"},
	})
}

func settingTable() geojson.Layer {
	return table("settings", "settings as used, defaults included", []geojson.Field{
		{Name: "key", Type: geojson.Text, Meaning: "name of the setting"},
		{Name: "value", Type: geojson.Text, Meaning: "value with its unit"},
	})
}

func gridTable() geojson.Layer {
	return table("grid", "elevation model as analysed", []geojson.Field{
		{Name: "crs", Type: geojson.Text, Meaning: "coordinate system of x_m and y_m", Null: "unknown"},
		{Name: "cols", Type: geojson.Int, Meaning: "cells from west to east"},
		{Name: "rows", Type: geojson.Int, Meaning: "cells from north to south"},
		{Name: "cell_m", Type: geojson.Real, Unit: "m", Decimals: 3, Meaning: "side of a cell"},
		{Name: "west_m", Type: geojson.Real, Unit: "m", Decimals: 3, Meaning: "x of the west edge"},
		{Name: "north_m", Type: geojson.Real, Unit: "m", Decimals: 3, Meaning: "y of the north edge"},
		{Name: "valid_cells", Type: geojson.Int, Meaning: "cells that hold data"},
		{Name: "lowest_m", Type: geojson.Real, Unit: "m", Decimals: 3, Meaning: "lowest elevation", Null: "no cell holds data"},
		{Name: "highest_m", Type: geojson.Real, Unit: "m", Decimals: 3, Meaning: "highest elevation", Null: "no cell holds data"},
		{Name: "noise_m", Type: geojson.Real, Unit: "m", Decimals: 4, Meaning: "standard deviation of the error of a cell, which its neighbours do not share", Null: "too few cells to tell"},
	})
}

func totalTable() geojson.Layer {
	return table("totals", "sums of the plan", []geojson.Field{
		{Name: "drainages", Type: geojson.Int, Meaning: "number of drainages"},
		{Name: "truncated", Type: geojson.Int, Meaning: "drainages into whose catchment water enters over the edge of the data"},
		{Name: "severe", Type: geojson.Int, Meaning: "drainages of the class severe"},
		{Name: "eroding", Type: geojson.Int, Meaning: "drainages of the class eroding"},
		{Name: "watch", Type: geojson.Int, Meaning: "drainages of the class watch"},
		{Name: "sound", Type: geojson.Int, Meaning: "drainages of the class sound"},
		{Name: "not_judged", Type: geojson.Int, Meaning: "drainages of whose erosion nothing could be told"},
		{Name: "dams", Type: geojson.Int, Meaning: "number of check dams", Null: noSiting},
		{Name: "series", Type: geojson.Int, Meaning: "number of series", Null: noSiting},
		{Name: "channel_m", Type: geojson.Real, Unit: "m", Decimals: 2, Meaning: "length of all drainages along their channel lines"},
		{Name: "eligible_m", Type: geojson.Real, Unit: "m", Decimals: 2, Meaning: "length of all eligible reaches", Null: noSiting},
		{Name: "treated_m", Type: geojson.Real, Unit: "m", Decimals: 2, Meaning: geojson.TreatedMeaning, Null: noSiting},
		{Name: "treated_definition", Type: geojson.Text, Meaning: "definition of treated_m"},
		{Name: "rock_m3", Type: geojson.Real, Unit: "m³", Decimals: 2, Meaning: "rock of all dams in place, of those of which it is known", Null: noDesigns},
		{Name: "rock_t", Type: geojson.Real, Unit: "t", Decimals: 2, Meaning: "rock to order by weight, waste included, for the same dams", Null: noDesigns},
		{Name: "pond_m3", Type: geojson.Real, Unit: "m³", Decimals: 2, Meaning: "water held up to the sills of the same dams", Null: noDesigns},
		{Name: "sediment_m3", Type: geojson.Real, Unit: "m³", Decimals: 2, Meaning: "silt held by the same dams when full", Null: noDesigns},
		{Name: "sediment_low_m3", Type: geojson.Real, Unit: "m³", Decimals: 2, Meaning: "the same at the least, dams whose ground was not measured as they are", Null: noSpread},
		{Name: "sediment_high_m3", Type: geojson.Real, Unit: "m³", Decimals: 2, Meaning: "the same at the most", Null: noSpread},
		{Name: "person_days", Type: geojson.Real, Unit: "d", Decimals: 2, Meaning: "hand labour to build them", Null: "no prices.days_per_m3 was given; or " + noDesigns},
		{Name: "cost", Type: geojson.Real, Unit: "currency of the price list", Decimals: 2, Meaning: "cost of them", Null: "prices.rock, prices.day and prices.days_per_m3 are not all given; or " + noDesigns},
		{Name: "currency", Type: geojson.Text, Meaning: "money that prices are in", Null: "not given"},
		{Name: "undesigned", Type: geojson.Int, Meaning: "dams without a cross-section that shows bed and banks: they are in none of these sums", Null: noSiting},
		{Name: "unbuildable", Type: geojson.Int, Meaning: "dams that must not be built as designed; they are in the sums", Null: noSiting},
	})
}

func drainageTable() geojson.Layer {
	return table("drainages", geojson.DrainagesLayer().Meaning, append(geojson.DrainagesLayer().Fields,
		geojson.Field{Name: "truncated_cells", Type: geojson.Int, Meaning: "border cells over which water enters the catchment"},
		geojson.Field{Name: "into", Type: geojson.Text, Meaning: "drainage it joins", Null: "it joins none in the data"},
		seriesField(), rankField(), steadyField(), incisedShareField(), knownShareField(), resolvedShareField(), disagreeField(), propertyField()))
}

func seriesField() geojson.Field {
	return geojson.Field{Name: "series", Type: geojson.Int, Meaning: "number of series", Null: noSiting}
}

func reachTable() geojson.Layer {
	return table("reaches", geojson.ReachesLayer().Meaning, append(geojson.ReachesLayer().Fields,
		geojson.Field{Name: "notes", Type: geojson.Text, Meaning: "how laying out the series went, sentences joined by \"; \"; \"\" where there is nothing"}))
}

func siteTable() geojson.Layer {
	return table("sites", geojson.SitesLayer().Meaning, append(append(geojson.SitesLayer().Fields, positionFields()...),
		geojson.Field{Name: "wedge_end_m", Type: geojson.Real, Unit: "m", Decimals: 2, Meaning: "station of the upper end of the sediment wedge"}))
}

func positionFields() []geojson.Field {
	return []geojson.Field{
		{Name: "lon", Type: geojson.Real, Unit: "°", Decimals: geojson.DegreeDecimals, Meaning: "WGS 84 longitude"},
		{Name: "lat", Type: geojson.Real, Unit: "°", Decimals: geojson.DegreeDecimals, Meaning: "WGS 84 latitude"},
		{Name: "x_m", Type: geojson.Real, Unit: "m", Decimals: 2, Meaning: "easting in the coordinate system of the grid"},
		{Name: "y_m", Type: geojson.Real, Unit: "m", Decimals: 2, Meaning: "northing in the coordinate system of the grid"},
	}
}

func findingTable() geojson.Layer {
	return table("findings", "answers that are usable but doubtful, and what must be known or given", []geojson.Field{
		{Name: "rule", Type: geojson.Text, Meaning: "kind of finding"},
		{Name: "subject", Type: geojson.Text, Meaning: "drainage or dam", Null: "the whole plan"},
		{Name: "text", Type: geojson.Text, Meaning: "what, where, and what to do"},
		{Name: "source", Type: geojson.Text, Meaning: "key of a source", Null: "our own judgement"},
		{Name: "lon", Type: geojson.Real, Unit: "°", Decimals: geojson.DegreeDecimals, Meaning: "WGS 84 longitude", Null: noPlace},
		{Name: "lat", Type: geojson.Real, Unit: "°", Decimals: geojson.DegreeDecimals, Meaning: "WGS 84 latitude", Null: noPlace},
	})
}

func depressionTable() geojson.Layer {
	return table("depressions", geojson.DepressionsLayer().Meaning, append(geojson.DepressionsLayer().Fields, positionFields()...))
}

func sourceTable() geojson.Layer {
	return table("sources", "publications", []geojson.Field{
		{Name: "key", Type: geojson.Text, Meaning: "key that findings use"},
		{Name: "text", Type: geojson.Text, Meaning: "author, year, title"},
	})
}

func summaryTable() geojson.Layer {
	return table("summary.csv", "one row a drainage, then one row \"all\"; catchments nest, so they have no sum", append(withQuantities(geojson.DrainagesLayer().Fields),
		seriesField(),
		geojson.Field{Name: "unbuildable", Type: geojson.Int, Meaning: "dams that must not be built as designed; they are in the sums", Null: noSiting},
		geojson.Field{Name: "treated_definition", Type: geojson.Text, Meaning: "definition of treated_m", Null: "as in the row \"all\""}))
}

// ProfileTable describes the columns of a profile table.
func ProfileTable() geojson.Layer {
	fields := []geojson.Field{{Name: "station_m", Type: geojson.Real, Unit: "m", Decimals: 2, Meaning: "distance along the channel line from its lower end"}}
	fields = append(fields, positionFields()...)
	return table("profiles", "one row a station from the lower end upstream, and one at each dam axis", append(fields, []geojson.Field{
		{Name: "ground_m", Type: geojson.Real, Unit: "m", Decimals: 3, Meaning: "elevation of the ground as in the elevation model, lowest of 3 cells across the flow"},
		{Name: "bed_m", Type: geojson.Real, Unit: "m", Decimals: 3, Meaning: "elevation of the bed, smoothed so that it never rises downstream", Null: noBed},
		{Name: "slope", Type: geojson.Real, Unit: "1", Decimals: 4, Meaning: "bed slope, rise over run", Null: "the profile is too short to tell; or " + noBed},
		{Name: "catchment_ha", Type: geojson.Real, Unit: "ha", Decimals: 4, Meaning: "land that drains through the station"},
		{Name: "incision_m", Type: geojson.Real, Unit: "m", Decimals: 2, Meaning: "depth of the bed below the land beside it: below the lower bank top of the cross-sections, or where they are not resolved below the land within erosion.window, the form of the valley taken out", Null: "it cannot be told, or erosion was not judged"},
		{Name: "bed_width_m", Type: geojson.Real, Unit: "m", Decimals: 2, Meaning: "width of the bed between the toes of the banks", Null: noBanks},
		{Name: "bank_to_bank_m", Type: geojson.Real, Unit: "m", Decimals: 2, Meaning: "width between the tops of the banks, at the level of the lower one", Null: noBanks},
		{Name: "bank_left_m", Type: geojson.Real, Unit: "m", Decimals: 2, Meaning: "height of the left bank above the bed, looking downstream", Null: noBanks},
		{Name: "bank_right_m", Type: geojson.Real, Unit: "m", Decimals: 2, Meaning: "height of the right bank above the bed, looking downstream", Null: noBanks},
		{Name: "dam_id", Type: geojson.Text, Meaning: "check dam whose axis is here", Null: "no dam"},
		{Name: "notch_sill_m", Type: geojson.Real, Unit: "m", Decimals: 3, Meaning: "elevation of the notch sill of that dam", Null: "no dam"},
		{Name: "deposit_m", Type: geojson.Real, Unit: "m", Decimals: 3, Meaning: "elevation of the surface of the sediment wedge once full", Null: "no wedge here"},
	}...))
}

func table(name, meaning string, fields []geojson.Field) geojson.Layer {
	return geojson.Layer{Name: name, Meaning: meaning, Fields: fields}
}
