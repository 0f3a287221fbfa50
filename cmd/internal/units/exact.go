package units

import (
	"math"
	"strconv"
)

// LengthText returns a length in metres as a text that ParseLength reads back to the same
// number. It panics on NaN, infinity or a negative length, which no text can stand for.
func LengthText(m float64) string { return exact(lengthUnits, m, "m", "m") }

// AreaText returns an area in square metres as a text, in hectares where ParseArea reads
// that back to the same number, else in m2. It panics as LengthText does.
func AreaText(m2 float64) string { return exact(areaUnits, m2, "ha", "m2") }

// SlopeText returns a slope, rise over run, as a text, in % where ParseSlope reads that back
// to the same number, else in m/m. It panics as LengthText does.
func SlopeText(riseOverRun float64) string { return exact(slopeUnits, riseOverRun, "%", "m/m") }

// NumberText returns a number as a text that ParseNumber reads back to the same number. It
// panics as LengthText does.
func NumberText(x float64) string { return exact(plainNumber, x, "", "") }

// RainfallRateText returns a rainfall rate in millimetres an hour as a text that ParseRainfallRate reads back to the
// same number. It panics as LengthText does.
func RainfallRateText(mmh float64) string { return exact(rainfallUnits, mmh, "mm/h", "mm/h") }

// RainDepthText returns a depth of rain in millimetres as a text that ParseRainDepth reads back to the same number. It
// panics as LengthText does.
func RainDepthText(mm float64) string { return exact(rainUnits, mm, "mm", "mm") }

// YieldText returns a yearly sediment yield in cubic metres a hectare as a text that ParseYield reads back to the same
// number. It panics as LengthText does.
func YieldText(m3ha float64) string { return exact(yieldUnits, m3ha, "m3/ha", "m3/ha") }

// MassText returns a weight in tonnes as a text that ParseMass reads back to the same number. It panics as LengthText does.
func MassText(t float64) string { return exact(massUnits, t, "t", "t") }

// DensityText returns a density in tonnes a cubic metre as a text that ParseDensity reads back to the same number. It panics as
// LengthText does.
func DensityText(tPerM3 float64) string { return exact(densityUnits, tPerM3, "t/m3", "t/m3") }

// YearsText returns a time in years, more than 0, as a text that ParseYears reads back to the same number. It panics as
// LengthText does.
func YearsText(yr float64) string { return exact(yearUnits, yr, "yr", "yr") }

// HoursText returns a time in hours, more than 0, as a text that ParseHours reads back to the same number. It panics as
// LengthText does.
func HoursText(h float64) string { return exact(hourUnits, h, "h", "h") }

// MinutesText returns a time in minutes, more than 0, as a text that ParseMinutes reads back to the same number. It
// panics as LengthText does.
func MinutesText(minutes float64) string { return exact(minuteUnits, minutes, "min", "min") }

// SideSlopeText returns a side slope, horizontal over vertical, as a text that ParseSideSlope reads back to the same
// number. It panics as LengthText does.
func SideSlopeText(horizontalOverVertical float64) string {
	return NumberText(horizontalOverVertical) + ":1"
}

// exact writes an SI value in the unit of choice if that reads back to the same number, with
// as few digits as will do, else in the SI unit.
func exact(d dimension, si float64, choice, plain string) string {
	if !finite(si) || si < 0 {
		panic("units: no text for " + d.article + " " + d.name + " of " + strconv.FormatFloat(si, 'g', -1, 64))
	}
	u, _ := d.find(choice)
	for digits := 1; digits <= 17; digits++ {
		text := withUnit(si*u.den/u.num, digits, choice)
		if back, err := d.read(text); err == nil && back == si {
			return text
		}
	}
	return withUnit(si, -1, plain)
}

// withUnit writes a number with the given significant digits, -1 for as many as it takes,
// without an exponent where that is short.
func withUnit(x float64, digits int, word string) string {
	if digits > 0 {
		x, _ = strconv.ParseFloat(strconv.FormatFloat(x, 'e', digits-1, 64), 64)
	}
	form := byte('f')
	if x != 0 && (x < 1e-6 || x >= 1e15) {
		form = 'e'
	}
	text := strconv.FormatFloat(math.Abs(x), form, -1, 64)
	if word == "" {
		return text
	}
	return text + " " + word
}

func finite(x float64) bool { return !math.IsNaN(x) && !math.IsInf(x, 0) }
