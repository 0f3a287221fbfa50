package storm

import (
	"errors"
	"fmt"
	"math"
	"slices"
)

// Request is what is known of a catchment and its storm. A zero means not given; nothing is put in
// its place but where a field says so.
type Request struct {
	CatchmentM2       float64 // m², over 0
	RunoffCoefficient float64 // 0 to 1, for return periods to 10 years; for the rational method
	CurveNumber       float64 // over 0 to 100, average wetness, of the whole catchment; or give Patches
	Patches           []Patch // curve numbers of parts of the catchment
	Wetness           Wetness // antecedent condition; empty is average
	Ratio             Ratio   // initial abstraction; empty is Ratio20

	Rain           Rain
	ReturnPeriodYr float64 // years; required with a table of several columns
	HoursH         float64 // duration of the storm, h; required with a depth; to 240
	Pattern        Pattern // how the rain falls; empty is nested where a table or curve is given

	TimeOfConcentrationS float64   // s; goes before Path, and that before FlowLengthM
	Path                 []Segment // longest flow path from the divide down
	FlowLengthM          float64   // length of the longest flow path, m
	FlowSlope            float64   // its mean slope, rise over run; 0 counts as almost level

	PondShare  float64 // ponds and swamps spread through the catchment, share of its area
	PeakFactor float64 // of the unit hydrograph, 100 to 600; 0 is 484
	Shape      Shape   // of the unit hydrograph; empty is curvilinear
	Method     Method  // the method to choose; empty is the highest peak of the valid ones
}

// Validate returns every fault of the request, joined. A value that is missing is no fault, unless
// another makes no sense without it.
func (q Request) Validate() error {
	return errors.Join(
		within("catchment", q.CatchmentM2, 1, 1e9, "m²"),
		given("runoff coefficient", q.RunoffCoefficient, 0, 1, ""),
		q.validateGround(),
		q.Rain.Validate(),
		q.validateStorm(),
		q.validatePath(),
		within("share of ponds and swamps", q.PondShare, 0, 1, "of the catchment"),
		given("peak factor", q.PeakFactor, LeastPeakFactor, MostPeakFactor, ""),
		oneOf("shape of the unit hydrograph", q.Shape, []Shape{"", ShapeCurvilinear, ShapeTriangular}),
		oneOf("method", q.Method, append([]Method{""}, methods...)),
	)
}

func (q Request) validateGround() error {
	faults := []error{
		oneOf("antecedent condition", q.Wetness, []Wetness{"", WetnessDry, WetnessAverage, WetnessWet}),
		oneOf("abstraction ratio", q.Ratio, []Ratio{"", Ratio20, Ratio05}),
	}
	if q.CurveNumber != 0 {
		faults = append(faults, curveNumberFault(q.CurveNumber))
	}
	if q.CurveNumber != 0 && len(q.Patches) > 0 {
		faults = append(faults, errors.New("curve numbers were given for the whole catchment and for patches of it; give one or the other"))
	}
	for i, p := range q.Patches {
		if err := errors.Join(above("area", p.AreaM2, "m²"), curveNumberFault(p.CurveNumber)); err != nil {
			faults = append(faults, fmt.Errorf("patch %d of the catchment: %w", i+1, err))
		}
	}
	return errors.Join(faults...)
}

func (q Request) validateStorm() error {
	faults := []error{
		given("return period", q.ReturnPeriodYr, 1, 100_000, "yr"),
		given("storm duration", q.HoursH, 1.0/60, 240, "h"),
		oneOf("rain pattern", q.Pattern, append([]Pattern{""}, patterns...)),
	}
	switch r := q.Rain; {
	case r.DepthMM != 0 && q.HoursH == 0:
		faults = append(faults, errors.New("a rain depth was given without its duration; give the hours it falls in"))
	case q.Pattern.day() && (r.Table != nil || r.Curve != nil || r.DepthMM != 0) && q.HoursH != dayH:
		faults = append(faults, fmt.Errorf("storm type %s is a 24-hour storm and %g hours were given; give 24 and the 24-hour depth, or another pattern", q.Pattern, q.HoursH))
	case q.Pattern == PatternNested && r.DepthMM != 0 && (q.HoursH < 5.0/60 || q.HoursH > 1):
		faults = append(faults, fmt.Errorf("one depth makes a nested storm over 5 min to 1 h only, and %g h were given; give a table, or another pattern", q.HoursH))
	case r.Measured != nil && (q.Pattern != "" || q.HoursH != 0):
		faults = append(faults, errors.New("a measured storm has its own duration and pattern; leave hours and pattern out"))
	case r.Table != nil && r.Table.Validate() == nil:
		_, err := r.Table.column(q.ReturnPeriodYr)
		faults = append(faults, err)
	}
	return errors.Join(faults...)
}

func (q Request) validatePath() error {
	faults := []error{
		given("time of concentration", q.TimeOfConcentrationS, 1, 1e6, "s"),
		given("flow length", q.FlowLengthM, 1, 1e5, "m"),
		within("flow slope", q.FlowSlope, 0, 1, "rise over run"),
	}
	if q.FlowLengthM == 0 && q.FlowSlope != 0 {
		faults = append(faults, errors.New("a flow slope was given without a flow length; give both"))
	}
	if len(q.Path) > 0 {
		_, _, err := PathTravelS(q.Path)
		faults = append(faults, err)
	}
	return errors.Join(faults...)
}

func oneOf[T ~string](what string, got T, allowed []T) error {
	if slices.Contains(allowed, got) {
		return nil
	}
	return fmt.Errorf("%s %q is not known; give one of %q", what, got, slices.DeleteFunc(slices.Clone(allowed), func(a T) bool { return a == "" }))
}

// returnPeriodYr returns the return period of the storm in years: that of a table with a single column
// where none was given; 0 where it is not known.
func (q Request) returnPeriodYr() float64 {
	if t := q.Rain.Table; q.ReturnPeriodYr == 0 && t != nil && len(t.ReturnPeriodsYr) == 1 {
		return t.ReturnPeriodsYr[0]
	}
	return q.ReturnPeriodYr
}

// land returns the ground of the request; ok is false where no curve number was given.
func (q Request) land() (g land, ok bool, err error) {
	patches := q.Patches
	if q.CurveNumber != 0 {
		patches = []Patch{{q.CatchmentM2, q.CurveNumber}}
	}
	if len(patches) == 0 {
		return land{}, false, nil
	}
	g, err = newLand(patches, q.Wetness, q.Ratio)
	return g, err == nil, err
}

// concentration returns the time of concentration in s, NaN where nothing was given for it, and
// what to heed: the floor, slopes that were clamped, two estimates that differ widely.
func (q Request) concentration() (float64, []Note, error) {
	var notes []Note
	kirpich := math.NaN()
	length, slope := q.FlowLengthM, q.FlowSlope
	path := math.NaN()
	if len(q.Path) > 0 {
		t, heed, err := PathTravelS(q.Path)
		if err != nil {
			return math.NaN(), nil, err
		}
		path = t
		if q.TimeOfConcentrationS == 0 {
			notes = append(notes, heed...)
		}
		if length == 0 {
			length, slope = pathRun(q.Path)
		}
	}
	if length >= 1 {
		t, err := KirpichS(length, slope)
		if err != nil {
			return math.NaN(), nil, err
		}
		kirpich = t
	}
	tc := kirpich
	switch {
	case q.TimeOfConcentrationS > 0:
		tc = q.TimeOfConcentrationS
	case !math.IsNaN(path):
		tc = path
	case !math.IsNaN(kirpich):
		notes = append(notes, kirpichNotes(slope)...)
	}
	for _, other := range []struct {
		name string
		s    float64
	}{{"the flow path", path}, {"the Kirpich formula", kirpich}} {
		if ratio := max(tc/other.s, other.s/tc); ratio > MostRatio {
			notes = append(notes, Note{Rule: RuleConcentration, Got: ratio, Limit: MostRatio,
				Text: fmt.Sprintf("Time of concentration %.3g min is used, and %s gives %.3g min: the peak depends on it, so check lengths, slopes and roughness.", tc/minuteS, other.name, other.s/minuteS)})
		}
	}
	if tc < LeastConcentrationS {
		notes = append(notes, floorNote(tc))
		tc = LeastConcentrationS
	}
	return tc, notes, nil
}

func kirpichNotes(slope float64) []Note {
	notes := []Note{{Rule: RuleConcentration, Got: math.NaN(), Limit: math.NaN(), Source: "Kirpich1940",
		Text: "Time of concentration is by the Kirpich formula, from seven small farm catchments: elsewhere it may be off by half or more. Describe the flow path in segments if you can."}}
	if slope < 0.003 {
		notes = append(notes, Note{Rule: RuleSlope, Got: slope, Limit: 0.003, Source: "Cleveland2012",
			Text: fmt.Sprintf("The flow slope of %.2g %% is nearly level; up to 0.05 %% was added so that the time stays finite. Measure the fall.", slope*100)})
	}
	return notes
}

// pathRun returns the length of a path in m and its mean slope.
func pathRun(path []Segment) (lengthM, slope float64) {
	fall := 0.0
	for _, s := range path {
		l, grade := s.run()
		lengthM, fall = lengthM+l, fall+l*grade
	}
	if lengthM == 0 {
		return 0, 0
	}
	return lengthM, fall / lengthM
}
