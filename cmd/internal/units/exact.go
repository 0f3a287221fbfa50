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
