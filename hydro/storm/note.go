package storm

import (
	"errors"
	"fmt"
	"math"
)

// Evidence says how well a value from a publication is known.
type Evidence string

// The grades of evidence, best first.
const (
	EvidenceRead      Evidence = "read"      // seen in the source, or in an excerpt of it
	EvidenceSecondary Evidence = "secondary" // seen in a copy, a lecture or a re-telling
	EvidenceRecalled  Evidence = "recalled"  // from memory: check the print before relying on it
	EvidenceOwn       Evidence = "own"       // our own choice or arithmetic
)

// Rule names what a Note is about.
type Rule string

// The rules of notes.
const (
	RuleRain          Rule = "rain"                  // rainfall used outside its best range, or not given
	RuleConcentration Rule = "time-of-concentration" // floor, clamp or disagreement of the time of concentration
	RuleSlope         Rule = "slope"                 // a slope too flat for the formula
	RuleCurveNumber   Rule = "curve-number"          // a curve number or runoff where the method is weak
	RuleFrequency     Rule = "frequency-factor"      // the runoff coefficient was raised for a rare storm
	RuleMethod        Rule = "method"                // a method outside its range, or chosen against it
	RuleSpread        Rule = "spread"                // how far the peak can be trusted
	RulePond          Rule = "pond-and-swamp"        // storage in the catchment
	RuleContained     Rule = "not-contained"         // the section does not hold the flow
	RuleFroude        Rule = "froude"                // faster than natural steep channels sustain
	RuleHandbook      Rule = "handbook-value"        // a table value and how well it is known
)

// Note is something to heed beside an answer.
type Note struct {
	Rule     Rule
	Got      float64 // the value at hand; NaN where there is none
	Limit    float64 // what it was held against; NaN where there is none
	Text     string  // what, and what to do
	Source   string  // key of hydro.Source; empty where it is our own judgement
	Recalled bool    // rests on a handbook value recalled from memory: verify it
}

// recalledText ends a note that rests on a recalled value.
const recalledText = "handbook value recalled, verify"

// within reports a value outside lo to hi, or one that is not a number.
func within(what string, got, lo, hi float64, unit string) error {
	switch {
	case got >= lo && got <= hi:
		return nil
	case hi == math.MaxFloat64:
		return fmt.Errorf("%s is %g%s; give %g or more, and finite", what, got, spaced(unit), lo)
	}
	return fmt.Errorf("%s is %g%s; give %g to %g", what, got, spaced(unit), lo, hi)
}

// above reports a value that is not over zero, or not a finite number.
func above(what string, got float64, unit string) error {
	if got > 0 && got <= math.MaxFloat64 {
		return nil
	}
	return fmt.Errorf("%s is %g%s; give more than 0, and finite", what, got, spaced(unit))
}

// given is within for a value that may be left out as zero.
func given(what string, got, lo, hi float64, unit string) error {
	if got == 0 {
		return nil
	}
	return within(what, got, lo, hi, unit)
}

func spaced(unit string) string {
	if unit == "" {
		return ""
	}
	return " " + unit
}

// finite turns an overflow into an error.
func finite(what string, got float64, faults ...error) (float64, error) {
	if err := errors.Join(faults...); err != nil {
		return math.NaN(), err
	}
	if math.IsNaN(got) || math.IsInf(got, 0) {
		return math.NaN(), fmt.Errorf("%s cannot be computed: the values given are too far apart; check their units", what)
	}
	return got, nil
}
