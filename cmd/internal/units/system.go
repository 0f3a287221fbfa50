package units

import "strconv"

// System is the set of units that people read. It never changes data files.
type System uint8

const (
	// Metric shows m, ha, m³, m³/s, t, mm. The default.
	Metric System = iota
	// US shows ft, ac, yd³, cfs, US tons of 2,000 lb, in.
	US
)

// ParseSystem returns the system named "metric" or "us". Any other text is an error of type *Error.
func ParseSystem(text string) (System, error) {
	switch text {
	case "metric":
		return Metric, nil
	case "us":
		return US, nil
	}
	return Metric, &Error{Text: text, Why: "metric or us"}
}

// String returns the name that ParseSystem takes.
func (s System) String() string {
	switch s {
	case Metric:
		return "metric"
	case US:
		return "us"
	}
	return "System(" + strconv.Itoa(int(s)) + ")"
}

// Scale turns an SI value into the unit that people read.
type Scale struct {
	Unit string  // label for an axis or column, such as "ft"
	One  float64 // SI value of one unit, more than 0
}

// Value returns an SI value in the unit of the scale. NaN stays NaN.
func (c Scale) Value(si float64) float64 { return si / c.One }

// Text returns an SI value with a fixed number of decimals and its unit, "2.0 ft"; NotKnown
// for NaN and infinity. It panics on negative decimals.
func (c Scale) Text(si float64, decimals int) string {
	if decimals < 0 {
		panic("units: decimals below zero")
	}
	x := c.Value(si)
	if !finite(x) {
		return NotKnown
	}
	text := strconv.FormatFloat(x, 'f', decimals, 64)
	if back, _ := strconv.ParseFloat(text, 64); back == 0 {
		text = strconv.FormatFloat(0, 'f', decimals, 64) // no "-0.0"
	}
	return text + " " + c.Unit
}

// NotKnown stands where a value was not computed.
const NotKnown = "–"

// pick returns the scale of the system.
func (s System) pick(metric, us Scale) Scale {
	if s == US {
		return us
	}
	return metric
}
