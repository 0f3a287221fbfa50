package settings

import "siltstep/hydro/storm"

// Limits of rain. Source: our own choice, wide enough for any place.
const (
	mostRainMM        = 2_000
	mostIntensityMMH  = 1_000
	mostReturnYr      = 100_000 // as the storm takes it
	leastHoursH       = 0.05
	mostHoursH        = 240 // as the storm takes it
	dayH              = 24
	leastNestedHoursH = 5.0 / 60 // of a nested storm from one depth, as the storm takes it
	mostNestedHoursH  = 1
)

// yourOwn is the source of a key that nothing is put in for.
const yourOwn = "yours to give: no rain and no ground is assumed"

// rainKeys are the storm that dams are designed for.
var rainKeys = []Key{
	key("rain.table", noFile, "table of rain by duration and return period, with its unit in it: an official one for your place; not given, no peak, notch or stone is computed",
		yourOwn,
		file{content: "a CSV file", at: func(c *Settings) *string { return &c.Files.Rain }}),
	key("rain.return_period", notGiven, "how rare the design storm is: the column of the table, read between columns, never beyond them",
		yourOwn+"; 10 yr is common practice for small dams",
		optional{quantity: quantity{measure: years, least: 1, most: mostReturnYr, at: func(c *Settings) *float64 { return &c.Storm.ReturnPeriodYr }}, open: notGiven}),
	key("rain.hours", notGiven, "length of the design storm; a number alone is hours",
		yourOwn+"; 24 is common practice",
		optional{quantity: quantity{measure: hours, least: leastHoursH, most: mostHoursH, at: func(c *Settings) *float64 { return &c.Storm.HoursH }}, open: notGiven, also: hoursFault}),
	key("rain.depth", notGiven, "rain of the whole storm, where there is no table; it needs rain.hours and rain.pattern",
		yourOwn,
		optional{quantity: quantity{measure: rainDepth, most: mostRainMM, at: func(c *Settings) *float64 { return &c.Storm.Rain.DepthMM }}, open: notGiven, also: depthFault}),
	key("rain.intensity", notGiven, "rain over the time of concentration, where there is no table; it serves the rational method, at every dam alike",
		yourOwn,
		optional{quantity: quantity{measure: rate, most: mostIntensityMMH, at: func(c *Settings) *float64 { return &c.Storm.Rain.IntensityMMH }}, open: notGiven, also: plainRainFault}),
	key("rain.curve", notGiven, "curve of rain i = a/(t + b)^c for one return period, i in mm/h and t in minutes, and the longest duration it was fitted to",
		yourOwn,
		rainCurve{}),
	key("rain.pattern", notGiven, "how the rain falls within the storm; none is nested where a table or curve is given: the worst rain of each duration in the middle; I, IA, II and III are the 24-hour types",
		"TR-55 of the Soil Conservation Service 1986 (types, mostly from memory)",
		choose(notGiven, []storm.Pattern{storm.PatternNested, storm.PatternI, storm.PatternIA, storm.PatternII, storm.PatternIII, storm.PatternTriangular, storm.PatternUniform},
			func(c *Settings) *storm.Pattern { return &c.Storm.Pattern }, patternFault)),
}

// plainRainFault tells where one depth or intensity stands beside a table or curve.
func plainRainFault(c Settings) string {
	switch {
	case c.Files.Rain != "":
		return "rain.table is given too; give one or the other"
	case c.Storm.Rain.Curve != nil:
		return "rain.curve is given too; give one or the other"
	}
	return ""
}

func depthFault(c Settings) string {
	if c.Storm.HoursH == 0 {
		return "rain.hours is missing: in how many hours does it fall?"
	}
	return plainRainFault(c)
}

func hoursFault(c Settings) string {
	if curve := c.Storm.Rain.Curve; curve != nil && c.Storm.HoursH*60 > curve.LongestMin {
		return "rain.curve ends at " + minutes.text(curve.LongestMin) + "; give a shorter storm"
	}
	return ""
}

// patternFault tells where a pattern and the length of the storm do not go together.
func patternFault(c Settings) string {
	h := c.Storm.HoursH
	switch c.Storm.Pattern {
	case storm.PatternI, storm.PatternIA, storm.PatternII, storm.PatternIII:
		if h != dayH {
			return "a 24-hour storm; give rain.hours: 24"
		}
	case storm.PatternNested:
		if c.Storm.Rain.DepthMM != 0 && !(h >= leastNestedHoursH && h <= mostNestedHoursH) {
			return "one rain.depth makes a nested storm over 5 min to 1 h only; give a table, or another pattern"
		}
	}
	return ""
}
