package units

import "strings"

var (
	lengthUnits = dimension{name: "length", article: "a", example: "0.6 m", units: []unit{
		{"mm", 1, 1000}, {"cm", 1, 100}, {"m", 1, 1}, {"km", 1000, 1},
		{"in", 254, 10000}, {"ft", 3048, 10000}, {"yd", 9144, 10000}, {"mi", 1609344, 1000},
		{"us-ft", 1200, 3937},
	}}
	areaUnits = dimension{name: "area", article: "an", example: "0.25 ha", units: []unit{
		{"m2", 1, 1}, {"m²", 1, 1}, {"ha", 10000, 1}, {"km2", 1e6, 1}, {"km²", 1e6, 1},
		{"ft2", 9290304, 1e8}, {"ft²", 9290304, 1e8}, {"ac", 40468564224, 1e7},
	}}
	slopeUnits = dimension{name: "slope", article: "a", example: "8 %", units: []unit{
		{"%", 1, 100}, {"m/m", 1, 1}, {"ft/ft", 1, 1},
	}}
	rainfallUnits = dimension{name: "rainfall rate", article: "a", example: "25 mm/h", units: []unit{
		{"mm/h", 1, 1}, {"in/h", 254, 10},
	}}
	flowUnits = dimension{name: "flow", article: "a", example: "0.9 m3/s", units: []unit{
		{"m3/s", 1, 1}, {"m³/s", 1, 1}, {"l/s", 1, 1000}, {"cfs", 28316846592, 1e12}, {"ft3/s", 28316846592, 1e12},
	}}
	velocityUnits = dimension{name: "velocity", article: "a", example: "2 m/s", units: []unit{
		{"m/s", 1, 1}, {"ft/s", 3048, 10000},
	}}
	yieldUnits = dimension{name: "sediment yield", article: "a", example: "1.5 m3/ha", units: []unit{
		{"m3/ha", 1, 1}, {"m³/ha", 1, 1}, {"yd3/ac", 764554857984, 404685642240},
	}}
	massUnits = dimension{name: "weight", article: "a", example: "1 t", units: []unit{
		{"t", 1, 1}, {"kg", 1, 1000}, {"lb", 45359237, 1e11}, {"us-ton", 90718474, 1e8},
	}}
	densityUnits = dimension{name: "density", article: "a", example: "1.4 t/m3", units: []unit{
		{"t/m3", 1, 1}, {"t/m³", 1, 1}, {"kg/m3", 1, 1000}, {"kg/m³", 1, 1000}, {"lb/ft3", 453592370, 28316846592},
	}}
	yearUnits   = dimension{name: "number of years", article: "a", example: "10 yr", units: []unit{{"yr", 1, 1}}, bare: true}
	rainUnits   = dimension{name: "depth of rain", article: "a", example: "60 mm", units: []unit{{"mm", 1, 1}, {"cm", 10, 1}, {"in", 254, 10}}}
	minuteUnits = dimension{name: "duration", article: "a", example: "120 min", units: []unit{{"min", 1, 1}, {"h", 60, 1}}}
	hourUnits   = dimension{name: "number of hours", article: "a", example: "24", units: []unit{{"h", 1, 1}, {"min", 1, 60}}, bare: true}
	plainNumber = dimension{name: "plain number", article: "a", example: "0.5", bare: true}
)

// ParseLength returns a length in metres from a text such as "0.6 m" or "2 ft", at least 0.
// Units: mm, cm, m, km, in, ft, yd, mi, us-ft. Errors are of type *Error: no unit, a unit of
// something else, negative, not a finite decimal number.
func ParseLength(text string) (m float64, err error) { return lengthUnits.read(text) }

// ParseArea returns an area in square metres from a text such as "0.25 ha" or "10 ac", at
// least 0. Units: m2, ha, km2, ft2, ac, the square also as ². Errors as for ParseLength.
func ParseArea(text string) (m2 float64, err error) { return areaUnits.read(text) }

// ParseSlope returns a slope as rise over run from a text such as "8 %", at least 0. Units:
// %, m/m, ft/ft. A bare number is an error, since 8 and 0.08 could both be meant. Errors as
// for ParseLength.
func ParseSlope(text string) (riseOverRun float64, err error) { return slopeUnits.read(text) }

// ParseRainfallRate returns a rainfall rate in millimetres an hour from a text such as
// "25 mm/h" or "1 in/h", at least 0. Errors as for ParseLength.
func ParseRainfallRate(text string) (mmh float64, err error) { return rainfallUnits.read(text) }

// ParseRainDepth returns a depth of rain in millimetres from a text such as "60 mm" or "2.4 in", at least 0. Errors as for
// ParseLength.
func ParseRainDepth(text string) (mm float64, err error) { return rainUnits.read(text) }

// ParseFlow returns a flow in cubic metres a second from a text such as "0.9 m3/s" or "30 cfs", at least 0. Units: m3/s, l/s,
// cfs, ft3/s. Errors as for ParseLength.
func ParseFlow(text string) (m3s float64, err error) { return flowUnits.read(text) }

// ParseVelocity returns a velocity in metres a second from a text such as "2 m/s" or "6 ft/s", at least 0. Errors as for ParseLength.
func ParseVelocity(text string) (ms float64, err error) { return velocityUnits.read(text) }

// ParseYield returns a yearly sediment yield in cubic metres a hectare from a text such as "1.5 m3/ha" or "0.8 yd3/ac", at least 0.
// Errors as for ParseLength.
func ParseYield(text string) (m3ha float64, err error) { return yieldUnits.read(text) }

// ParseMass returns a weight in tonnes from a text such as "1 t", "80 kg" or "12 us-ton", at least 0. Units: t, kg, lb, us-ton of
// 2,000 lb; a bare ton is an error, since there are several. Errors as for ParseLength.
func ParseMass(text string) (t float64, err error) { return massUnits.read(text) }

// ParseDensity returns a density in tonnes a cubic metre from a text such as "1.4 t/m3" or "85 lb/ft3", at least 0. Units: t/m3,
// kg/m3, lb/ft3. Errors as for ParseLength.
func ParseDensity(text string) (tPerM3 float64, err error) { return densityUnits.read(text) }

// ParseYears returns a time in years from a text such as "10 yr", or "10" alone, more than 0. Errors as for
// ParseLength.
func ParseYears(text string) (yr float64, err error) { return yearUnits.readPositive(text) }

// ParseHours returns a time in hours from a text such as "24", "24 h" or "30 min", more
// than 0. A bare number is hours. Errors as for ParseLength.
func ParseHours(text string) (h float64, err error) { return hourUnits.readPositive(text) }

// ParseMinutes returns a time in minutes from a text such as "120 min" or "2 h", more than 0. Errors as for ParseLength.
func ParseMinutes(text string) (minutes float64, err error) { return minuteUnits.readPositive(text) }

// ParseNumber returns a number without a unit, at least 0. Errors as for ParseLength.
func ParseNumber(text string) (float64, error) { return plainNumber.read(text) }

// ParseSideSlope returns a side slope as horizontal over vertical from a text such as
// "1.5:1", at least 0; "0:1" is upright. Errors are of type *Error: no colon, a part that is
// not a plain number, a vertical part of 0, a result too large.
func ParseSideSlope(text string) (horizontalOverVertical float64, err error) {
	fault := &Error{Text: text, Why: "a side slope is horizontal : vertical, such as 1.5:1"}
	across, up, ok := strings.Cut(text, ":")
	if !ok {
		return 0, fault
	}
	h, errH := ParseNumber(across)
	v, errV := ParseNumber(up)
	if errH != nil || errV != nil || v == 0 || !finite(h/v) {
		return 0, fault
	}
	return h / v, nil
}

// readPositive is read for a dimension in which nothing makes no sense.
func (d dimension) readPositive(text string) (float64, error) {
	x, err := d.read(text)
	if err == nil && x == 0 {
		return 0, &Error{Text: text, Why: d.article + " " + d.name + " is more than 0"}
	}
	return x, err
}
