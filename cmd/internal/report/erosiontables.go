package report

import "siltstep/geojson"

// What an empty value of the erosion of a drainage means.
const (
	noJudgement = "too little of its depth is known"
	noDepth     = "the depth is known nowhere"
)

func share(name, meaning, null string) geojson.Field {
	return geojson.Field{Name: name, Type: geojson.Real, Unit: "1", Decimals: 3, Meaning: meaning, Null: null}
}

func rankField() geojson.Field {
	return geojson.Field{Name: "rank", Type: geojson.Int, Meaning: "place by severity, 1 is the worst", Null: noJudgement}
}

func steadyField() geojson.Field {
	return share("steady_share", "share of draws of weights and heights in which the drainage is among the first ten", noJudgement)
}

func incisedShareField() geojson.Field {
	return share("incised_share", "share of the known length that is as deep as erosion.incised_depth or deeper", noDepth)
}

func knownShareField() geojson.Field {
	return share("known_share", "share of the length for which the depth is known", "erosion was not judged")
}

func resolvedShareField() geojson.Field {
	return share("resolved_share", "share of the cross-sections whose banks can be told from these cells", "no cross-section was taken")
}

func disagreeField() geojson.Field {
	return geojson.Field{Name: "disagree_m", Type: geojson.Real, Unit: "m", Decimals: 3,
		Meaning: "median difference, without sign, of the two measures of depth: below the banks of the cross-sections, and below the land within erosion.window", Null: "the two measures never meet"}
}

func propertyField() geojson.Field {
	return share("property_share", "share of the length inside the property", "no property was given")
}

// partTable describes the parts of every severity.
func partTable() geojson.Layer {
	return table("severity_parts", "what the severity of each drainage is made of; the points of a drainage add up to its severity", []geojson.Field{
		{Name: "drainage", Type: geojson.Text, Meaning: "drainage"},
		{Name: "part", Type: geojson.Text, Meaning: "incision (mean depth), headcuts (their height by length; those at roads and stock ponds left out), shear (over what the bed material bears), bank-slope (height over width) or incised-length (share)"},
		{Name: "value", Type: geojson.Real, Unit: "as in the field unit", Decimals: 4, Meaning: "as measured", Null: "it could not be judged: the part drops out and the rest is rescaled"},
		{Name: "unit", Type: geojson.Text, Meaning: "unit of value; 1 for a ratio"},
		{Name: "score", Type: geojson.Real, Unit: "1", Decimals: 1, Meaning: "0 to 100 between the limits of the settings", Null: "it could not be judged"},
		{Name: "weight", Type: geojson.Real, Unit: "1", Decimals: 1, Meaning: "as set, before rescaling"},
		{Name: "points", Type: geojson.Real, Unit: "1", Decimals: 2, Meaning: "what the part adds to the severity", Null: "it could not be judged, or too little of the depth is known"},
	})
}

// headcutTable describes the steps in the beds.
func headcutTable() geojson.Layer {
	return table("headcuts", geojson.HeadcutsLayer().Meaning, append(geojson.HeadcutsLayer().Fields, positionFields()...))
}

// crossSectionTable describes what was read off each cross-section.
func crossSectionTable() geojson.Layer {
	const unresolved = "the section is not resolved"
	real := func(name, unit string, decimals int, meaning, null string) geojson.Field {
		return geojson.Field{Name: name, Type: geojson.Real, Unit: unit, Decimals: decimals, Meaning: meaning, Null: null}
	}
	fields := []geojson.Field{
		{Name: "drainage", Type: geojson.Text, Meaning: "drainage"},
		real("station_m", "m", 2, "where it crosses the channel line", ""),
	}
	return table("sections", "one cross-section of the ground, at right angles to the channel line; position is that of the lowest place", append(append(fields, positionFields()...),
		real("bearing_deg", "°", 1, "grid bearing from its left to its right end, looking downstream", ""),
		geojson.Field{Name: "resolved", Type: geojson.Bool, Meaning: "banks and widths can be told from these cells"},
		geojson.Field{Name: "why", Type: geojson.Text, Meaning: "why it is not resolved", Null: "it is resolved"},
		real("bed_m", "m", 3, "elevation of the bed between the toes of the banks", unresolved),
		real("bed_width_m", "m", 2, "width between the toes of the banks", unresolved),
		real("top_width_m", "m", 2, "width between the tops of the banks, at the level of the lower one", unresolved),
		real("depth_m", "m", 2, "from the bed to the lower bank top; 0 where there are no banks", unresolved),
		real("area_m2", "m²", 2, "between the bed and the level of the lower bank top", unresolved),
		real("bank_left_m", "m", 2, "height of the left bank above the bed", unresolved),
		real("bank_left_slope", "1", 3, "its height over its width", unresolved),
		real("bank_right_m", "m", 2, "height of the right bank above the bed", unresolved),
		real("bank_right_slope", "1", 3, "its height over its width", unresolved),
		real("fit_bed_width_m", "m", 2, "bed width of the trapezoid nearest to the section; 0 makes it a V", unresolved),
		real("fit_side_slope", "1", 3, "horizontal run of its sides a metre of height", unresolved),
		real("fit_depth_m", "m", 2, "its depth", unresolved),
		real("fit_residual_m", "m", 3, "root mean square of its difference from the section, in height", unresolved),
	))
}

// SectionTable describes the columns of a table of cross-sections.
func SectionTable() geojson.Layer {
	return table("sections/*.csv", "the samples of every cross-section of a drainage, from its lower end upstream, each section from left to right", []geojson.Field{
		{Name: "station_m", Type: geojson.Real, Unit: "m", Decimals: 2, Meaning: "where the section crosses the channel line, along it from its lower end"},
		{Name: "offset_m", Type: geojson.Real, Unit: "m", Decimals: 2, Meaning: "distance from the lowest place of the section, left negative, looking downstream"},
		{Name: "ground_m", Type: geojson.Real, Unit: "m", Decimals: 3, Meaning: "elevation of the ground as in the elevation model, bilinear", Null: "there is no data"},
	})
}

// RankingTable describes the columns of ranking.csv.
func RankingTable() geojson.Layer {
	fields := []geojson.Field{
		rankField(),
		{Name: "id", Type: geojson.Text, Meaning: "drainage"},
		{Name: "severity", Type: geojson.Real, Unit: "1", Decimals: 1, Meaning: "severity of erosion, 0 to 100; this project's judgement", Null: noJudgement},
		{Name: "severity_class", Type: geojson.Text, Meaning: "sound, watch, eroding or severe", Null: noJudgement},
		steadyField(),
	}
	for _, p := range rankedParts {
		fields = append(fields, p.value,
			geojson.Field{Name: p.stem + "_score", Type: geojson.Real, Unit: "1", Decimals: 1, Meaning: "0 to 100 between the limits of the settings", Null: p.value.Null},
			geojson.Field{Name: p.stem + "_weight", Type: geojson.Real, Unit: "1", Decimals: 1, Meaning: "as set, before rescaling", Null: "erosion was not judged"})
	}
	return table("ranking.csv", "one row a drainage, the worst first; those of which nothing could be told stand at the end", append(fields,
		geojson.Field{Name: "incision_max_m", Type: geojson.Real, Unit: "m", Decimals: 2, Meaning: "greatest depth of the bed below the land beside it, as a mean over 5 m", Null: noDepth},
		geojson.Field{Name: "headcuts", Type: geojson.Int, Meaning: "number of headcuts; steps at roads and stock ponds are not counted", Null: "erosion was not judged"},
		knownShareField(), resolvedShareField(), disagreeField(),
		geojson.Field{Name: "length_m", Type: geojson.Real, Unit: "m", Decimals: 2, Meaning: "length along the channel line, horizontal"},
		geojson.Field{Name: "catchment_ha", Type: geojson.Real, Unit: "ha", Decimals: 4, Meaning: "all land that drains to the last cell"},
		geojson.Field{Name: "truncated", Type: geojson.Bool, Meaning: "water enters the catchment over the edge of the data: the area reads \"at least\""},
		propertyField()))
}
