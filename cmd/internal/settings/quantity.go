package settings

import (
	"errors"

	"siltstep/cmd/internal/units"
)

// measure is a kind of quantity with its unit words.
type measure struct {
	name  string
	parse func(string) (float64, error)
	text  func(float64) string // reads back to the same number
}

var (
	length = measure{"length", units.ParseLength, units.LengthText}
	area   = measure{"area", units.ParseArea, units.AreaText}
	slope  = measure{"slope", units.ParseSlope, units.SlopeText}
	number = measure{"number", units.ParseNumber, units.NumberText}

	rainDepth = measure{"depth of rain", units.ParseRainDepth, units.RainDepthText}
	rate      = measure{"rainfall rate", units.ParseRainfallRate, units.RainfallRateText}
	years     = measure{"years", units.ParseYears, units.YearsText}
	hours     = measure{"hours", units.ParseHours, units.HoursText}
	minutes   = measure{"minutes", units.ParseMinutes, units.MinutesText}
	sideSlope = measure{"side slope", units.ParseSideSlope, units.SideSlopeText}
	yield     = measure{"sediment yield", units.ParseYield, units.YieldText}
	mass      = measure{"weight", units.ParseMass, units.MassText}
	density   = measure{"density", units.ParseDensity, units.DensityText}
)

// read returns the SI value of a text, or what is wrong with it.
func (m measure) read(text string) (float64, string) {
	x, err := m.parse(text)
	var typed *units.Error
	switch {
	case errors.As(err, &typed):
		return 0, typed.Why
	case err != nil:
		return 0, err.Error()
	}
	return x, ""
}

// within tells which limit a value breaks; NaN breaks the lower one.
func (m measure) within(x, least, most float64) string {
	switch {
	case x > most && most == noMost:
		return "a finite number"
	case x > most:
		return "at most " + m.text(most)
	case !(x >= least):
		return "at least " + m.text(least)
	}
	return ""
}

// between names the range.
func (m measure) between(least, most float64) string {
	if most == noMost {
		return "at least " + m.text(least)
	}
	return m.text(least) + " to " + m.text(most)
}

// quantity is a number with a unit in a range of SI values.
type quantity struct {
	measure
	least, most float64
	engineer    bool // an engineer may pass the upper limit
	at          func(*Settings) *float64
}

func (q quantity) kind() string { return q.name }

func (q quantity) allowed() string {
	text := q.between(q.least, q.most)
	if q.engineer {
		text += ", more only with engineer: true"
	}
	return text
}

func (q quantity) read(c *Settings, v value) string {
	text, fault := single(v, q.allowed())
	if fault != "" {
		return fault
	}
	x, fault := q.measure.read(text)
	if fault == "" {
		*q.at(c) = x
	}
	return fault
}

func (q quantity) check(c Settings) string {
	x := *q.at(&c)
	if !q.engineer || !(x > q.most) {
		return q.within(x, q.least, q.most)
	}
	if c.Siting.Engineer {
		return q.within(x, q.least, noMost)
	}
	return q.within(x, q.least, q.most) + " unless engineer: true"
}

func (q quantity) show(c Settings) string { return q.text(*q.at(&c)) }

// span is a range of quantities, the lower first.
type span struct {
	measure
	least, most float64
	at          func(*Settings) (low, high *float64)
}

func (s span) kind() string    { return s.name + " range" }
func (s span) allowed() string { return "two values, lower first: " + s.between(s.least, s.most) }

func (s span) read(c *Settings, v value) string {
	switch {
	case v.wrong != "":
		return v.wrong + "; " + s.allowed()
	case !v.list || len(v.texts) != 2:
		return "a list of " + s.allowed()
	}
	low, fault := s.measure.read(v.texts[0])
	if fault != "" {
		return "first value: " + fault
	}
	high, fault := s.measure.read(v.texts[1])
	if fault != "" {
		return "second value: " + fault
	}
	a, b := s.at(c)
	*a, *b = low, high
	return ""
}

func (s span) check(c Settings) string {
	a, b := s.at(&c)
	if fault := s.within(*a, s.least, s.most); fault != "" {
		return "first value: " + fault
	}
	if fault := s.within(*b, s.least, s.most); fault != "" {
		return "second value: " + fault
	}
	if *a >= *b {
		return "the lower value comes first, and the two differ"
	}
	return ""
}

func (s span) show(c Settings) string {
	a, b := s.at(&c)
	return "[" + s.text(*a) + ", " + s.text(*b) + "]"
}
