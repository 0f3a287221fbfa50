package storm

import (
	"fmt"
	"math"
)

// Steps of design storms. Source: our own choice.
const (
	nestedStepMin = 2.0   // minutes; the finest block of a nested storm from a curve
	dayStepS      = 180.0 // s; of 24-hour storm types, whose rows are whole numbers of it at their peaks
	leastSteps    = 24    // of even and triangular storms
)

// A design is the storm of a request.
type design struct {
	depthMM  float64    // rain of the whole storm, mm; NaN where not known
	storm    Hyetograph // how it falls; empty where not known
	knownS   float64    // the storm is known in steps of this and no finer, s; 0 is as fine as wanted
	recalled bool       // its shape is from memory
	missing  string     // what must be given before there is a storm
	notes    []Note
}

// noRain says that no rainfall was given.
func noRain() Note {
	return Note{Rule: RuleRain, Got: math.NaN(), Limit: math.NaN(),
		Text: "No rainfall was given and none is assumed: give a rain table and return period, a curve, a depth with its hours, an intensity, or a measured storm."}
}

// design returns the storm of the request. Its step divides what is known of the rain.
func (q Request) design(concentrationS float64) (design, error) {
	d := design{depthMM: math.NaN()}
	switch r := q.Rain; {
	case r.Measured != nil:
		d.storm, d.knownS, d.depthMM = *r.Measured, r.Measured.StepS, r.Measured.TotalMM()
		return d, nil
	case r.Table == nil && r.Curve == nil && r.DepthMM == 0:
		d.missing = "a rain depth and its duration in hours"
		return d, nil
	case q.HoursH == 0:
		d.missing = "the duration of the storm in hours"
		return d, nil
	}
	depth, stepMin, err := q.depths()
	if err != nil {
		return d, err
	}
	if d.depthMM, err = depth(q.HoursH * 60); err != nil {
		return d, err
	}
	pattern := q.Pattern
	if pattern == "" && q.Rain.DepthMM == 0 {
		pattern = PatternNested
	}
	switch {
	case pattern == "":
		d.missing = fmt.Sprintf("how the depth falls within its duration, one of %v", patterns)
	case pattern.day():
		err = d.day(pattern)
	case pattern == PatternNested:
		n := max(1, math.Floor(q.HoursH*60/stepMin*(1+1e-9)))
		d.storm, err = Nested(depth, q.HoursH, q.HoursH*hourS/n)
		d.knownS = d.storm.StepS
		if q.Rain.DepthMM != 0 {
			d.recalled = true
			d.notes = append(d.notes, Note{Rule: RuleRain, Got: math.NaN(), Limit: math.NaN(), Source: "NOAAAtlas2", Recalled: true,
				Text: fmt.Sprintf("One depth was made a nested storm by ratios of short rain to one-hour rain of the western United States (%s). A table of local rain is better.", recalledText)})
		}
	case math.IsNaN(concentrationS):
		d.missing = needsConcentration
	default:
		n := max(leastSteps, math.Ceil(q.HoursH*hourS/(stepShare*concentrationS)))
		lay := Uniform
		if pattern == PatternTriangular {
			lay = Triangular
		}
		d.storm, err = lay(d.depthMM, q.HoursH, q.HoursH*hourS/n)
	}
	return d, err
}

func (d *design) day(p Pattern) error {
	types, err := DayStorm(p)
	if err != nil {
		return err
	}
	d.storm, err = types.Storm(d.depthMM, dayStepS)
	d.knownS, d.recalled = types.steepestStepS(), true
	d.notes = append(d.notes, Note{Rule: RuleRain, Got: math.NaN(), Limit: math.NaN(), Source: "SCS1986", Recalled: true,
		Text: fmt.Sprintf("Type %s storms are averages over wide regions (%s). A table of local rain and a nested storm fit the place better.", p, recalledText)})
	return err
}

// depths returns the depth of rain by duration in minutes, and the shortest step to ask it for.
func (q Request) depths() (depth func(minutes float64) (float64, error), stepMin float64, err error) {
	switch r := q.Rain; {
	case r.Table != nil:
		t := *r.Table
		return func(minutes float64) (float64, error) {
			mm, _, err := t.DepthMM(minutes, q.ReturnPeriodYr)
			return mm, err
		}, t.DurationsMin[0], nil
	case r.Curve != nil:
		return curveDepth(*r.Curve), max(r.Curve.ShortestMin, nestedStepMin), nil
	case q.Pattern == PatternNested:
		c, err := HourCurve(r.DepthMM, q.HoursH*60)
		return curveDepth(c), c.ShortestMin, err
	}
	return func(float64) (float64, error) { return q.Rain.DepthMM, nil }, nestedStepMin, nil
}

func curveDepth(c Curve) func(float64) (float64, error) {
	return func(minutes float64) (float64, error) {
		i, _, err := c.IntensityMMH(minutes)
		return i * minutes / 60, err
	}
}

// intensity returns the mean intensity in mm/h over the time of concentration, or what is missing for it.
func (q Request) intensity(d design, concentrationS float64) (mmh float64, notes []Note, missing string) {
	minutes := concentrationS / minuteS
	fail := func(err error) (float64, []Note, string) { return math.NaN(), nil, err.Error() }
	switch r := q.Rain; {
	case r.IntensityMMH > 0:
		return r.IntensityMMH, []Note{{Rule: RuleRain, Got: r.IntensityMMH, Limit: math.NaN(),
			Text: "The intensity given is taken to be that over the time of concentration."}}, ""
	case r.given() == 0:
		return math.NaN(), nil, "a rain intensity over the time of concentration, or a rain table or curve"
	case math.IsNaN(concentrationS):
		return math.NaN(), nil, needsConcentration
	case r.Table != nil:
		mm, notes, err := r.Table.DepthMM(minutes, q.ReturnPeriodYr)
		if err != nil {
			return fail(err)
		}
		return mm / minutes * 60, notes, ""
	case r.Curve != nil:
		i, notes, err := r.Curve.IntensityMMH(minutes)
		if err != nil {
			return fail(err)
		}
		return i, notes, ""
	case len(d.storm.DepthMM) == 0:
		return math.NaN(), nil, "a rain intensity over the time of concentration, or " + d.missing
	case d.knownS > concentrationS*(1+1e-9):
		return math.NaN(), nil, fmt.Sprintf("rain in steps no longer than the time of concentration, %.3g min", minutes)
	}
	return d.storm.MaxMM(concentrationS) / minutes * 60, []Note{{Rule: RuleRain, Got: math.NaN(), Limit: math.NaN(), Recalled: d.recalled,
		Text: "The intensity is that of the heaviest part of the storm as long as the time of concentration."}}, ""
}
