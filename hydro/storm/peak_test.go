package storm

import (
	"math"
	"slices"
	"strings"
	"testing"
)

// rangeland is 5 ha of range with all that the three methods need.
func rangeland() Request {
	return Request{
		CatchmentM2: 50_000, RunoffCoefficient: .35, CurveNumber: 75,
		Rain: Rain{DepthMM: 6 * inchMM}, HoursH: 24, Pattern: PatternII, TimeOfConcentrationS: 1.53 * hourS,
	}
}

// peak returns the peak of one method.
func (r Result) peak(m Method) float64 {
	p, _ := r.MethodPeakOf(m)
	return p.PeakM3s
}

// By hand, 6 in on curve number 75 and 1.53 h: runoff 3.282 in (example 2-2 of SCS1986, memory); Ia/P 0.6667/6 =
// 0.1111; qu 271.7 - 0.0556 × (271.7 - 222.0) = 268.9; × 4.3044e-4 × 0.05 km² × 83.36 mm = 0.4825 m³/s.
func TestPeaksOfTheHandbook(t *testing.T) {
	r := must[Result](t)(Peaks(rangeland()))
	check(t, memory, "runoff, in", r.RunoffMM/inchMM, 3.28, .006)
	check(t, computed, "graphical", r.peak(MethodGraphical), .4825, .0003)
	// Two methods of one handbook, made for each other: 10 % is our own measure.
	check(t, computed, "unit hydrograph beside it", r.peak(MethodUnitHydrograph), .4825, .05)
	if r.Chosen == "" || r.PeakM3s != r.HighM3s || r.HighM3s != max(r.peak(MethodRational), r.peak(MethodGraphical), r.peak(MethodUnitHydrograph)) || r.LowM3s > r.PeakM3s {
		t.Errorf("chosen %s %g of %g to %g", r.Chosen, r.PeakM3s, r.LowM3s, r.HighM3s)
	}
	last := r.Findings[len(r.Findings)-1]
	if last.Rule != RuleSpread || !strings.Contains(last.Text, "3 methods") || last.Source != "Genereux2003" {
		t.Errorf("spread: %+v", last)
	}
	if !slices.ContainsFunc(r.Findings, func(n Note) bool { return n.Recalled && n.Source == "SCS1986" && strings.Contains(n.Text, "verify") }) {
		t.Error("nobody says that the storm type is from memory")
	}
}

// C 0.35, 75 mm/h, 5 ha: 0.3646 m³/s by hand. The others say what they need, and one method is one method.
func TestPeakOfAnIntensity(t *testing.T) {
	r := must[Result](t)(Peaks(Request{CatchmentM2: 50_000, RunoffCoefficient: .35, Rain: Rain{IntensityMMH: 75}}))
	check(t, computed, "rational", r.PeakM3s, .3646, .00006)
	for m, words := range map[Method]string{MethodGraphical: "curve number", MethodUnitHydrograph: "curve number"} {
		p, _ := r.MethodPeakOf(m)
		if !math.IsNaN(p.PeakM3s) || p.Valid || !strings.Contains(p.Note, words) {
			t.Errorf("%+v", p)
		}
	}
	last := r.Findings[len(r.Findings)-1].Text
	if r.Chosen != MethodRational || !math.IsNaN(r.RunoffMM) || !strings.Contains(last, "0.18 to 0.73") {
		t.Errorf("%s: %s", r.Chosen, last)
	}
}

// Without rain, ground or path nothing is computed, nothing is assumed, and each method says what it needs.
func TestNothingIsInvented(t *testing.T) {
	r := must[Result](t)(Peaks(Request{CatchmentM2: 50_000}))
	for _, v := range []float64{r.RainMM, r.RunoffMM, r.RunoffDryMM, r.RunoffWetMM, r.TimeOfConcentrationS, r.PeakM3s, r.LowM3s, r.HighM3s} {
		if !math.IsNaN(v) {
			t.Errorf("%g came from nowhere", v)
		}
	}
	if r.Chosen != "" || !slices.Contains(rules(r.Findings), RuleRain) || !slices.Contains(rules(r.Findings), RuleSpread) {
		t.Errorf("chosen %q, findings %v", r.Chosen, r.Findings)
	}
	for _, row := range []struct {
		name   string
		change func(*Request)
		lacks  map[Method]string
	}{
		{"no coefficient", func(q *Request) { q.RunoffCoefficient = 0 }, map[Method]string{MethodRational: "runoff coefficient"}},
		{"no curve number", func(q *Request) { q.CurveNumber = 0 }, map[Method]string{MethodGraphical: "curve number", MethodUnitHydrograph: "curve number"}},
		{"no time", func(q *Request) { q.TimeOfConcentrationS = 0 }, map[Method]string{MethodRational: "time of concentration", MethodGraphical: "time of concentration", MethodUnitHydrograph: "time of concentration"}},
		{"no pattern", func(q *Request) { q.Pattern = "" }, map[Method]string{MethodRational: "intensity", MethodGraphical: "storm type", MethodUnitHydrograph: "how the depth falls"}},
		{"not 24 h", func(q *Request) { q.Pattern, q.HoursH = PatternUniform, 6 }, map[Method]string{MethodGraphical: "24-hour"}},
		{"a day of time", func(q *Request) { q.TimeOfConcentrationS = 11 * hourS }, map[Method]string{MethodGraphical: "at most 10 h"}},
		{"table without hours", func(q *Request) {
			x := ranch()
			q.Rain, q.HoursH, q.Pattern, q.ReturnPeriodYr = Rain{Table: &x}, 0, "", 10
		}, map[Method]string{MethodGraphical: "24-hour", MethodUnitHydrograph: "duration of the storm"}},
	} {
		q := rangeland()
		row.change(&q)
		r := must[Result](t)(Peaks(q))
		for _, p := range r.Methods {
			words, lacks := row.lacks[p.Method]
			if lacks != math.IsNaN(p.PeakM3s) || lacks && (p.Valid || !strings.Contains(p.Note, words)) {
				t.Errorf("%s: %+v", row.name, p)
			}
		}
	}
}

// A table gives the rational method its intensity at the time of concentration: by hand 15 min, 10 yr: 19 mm are 76 mm/h, C
// 0.35 on 5 ha 0.3694 m³/s; at 25 yr C is raised by 1.1 and 23 mm are 92 mm/h: 0.4919.
func TestPeaksOfATable(t *testing.T) {
	table := ranch()
	q := Request{CatchmentM2: 50_000, RunoffCoefficient: .35, CurveNumber: 80, Rain: Rain{Table: &table}, ReturnPeriodYr: 10, HoursH: 24, TimeOfConcentrationS: 900}
	r := must[Result](t)(Peaks(q))
	check(t, computed, "10 yr", r.peak(MethodRational), .35*76/3.6e6*50_000, 1e-9)
	check(t, computed, "rain", r.RainMM, 63, 1e-9)
	if p, _ := r.MethodPeakOf(MethodUnitHydrograph); !p.Valid || p.Recalled || !(p.PeakM3s > 0) {
		t.Errorf("%+v", p)
	}
	q.ReturnPeriodYr = 25
	p, _ := must[Result](t)(Peaks(q)).MethodPeakOf(MethodRational)
	check(t, computed, "25 yr", p.PeakM3s, .385*92/3.6e6*50_000, 1e-9)
	if !p.Recalled || !strings.Contains(p.Note, "raised by 1.1") {
		t.Errorf("%+v", p)
	}
	rare := Table{[]float64{15, 1440}, []float64{100}, [][]float64{{30}, {100}}}
	lone := Request{CatchmentM2: 50_000, RunoffCoefficient: .35, Rain: Rain{Table: &rare}, TimeOfConcentrationS: 900}
	check(t, computed, "the only column, 100 yr", must[Result](t)(Peaks(lone)).peak(MethodRational), .35*1.25*120/3.6e6*50_000, 1e-9)
	q.RunoffCoefficient = .95
	check(t, computed, "coefficient at most 1", must[Result](t)(Peaks(q)).peak(MethodRational), 92/3.6e6*50_000, 1e-9)
	q.HoursH = 48
	_, err := Peaks(q)
	refused(t, "a storm longer than the table", err, "table ends at 1440")
}

// By hand, i = 1000/(t + 10)^0.8 at 15 min is 76.15 mm/h, and 10 h hold 1000/610^0.8 × 10 = 59.13 mm.
func TestPeaksOfACurve(t *testing.T) {
	q := Request{CatchmentM2: 50_000, RunoffCoefficient: .35, CurveNumber: 80, Rain: Rain{Curve: &Curve{A: 1000, B: 10, C: .8, LongestMin: 600}}, HoursH: 10, TimeOfConcentrationS: 900}
	r := must[Result](t)(Peaks(q))
	check(t, computed, "rational", r.peak(MethodRational), .35*76.15/3.6e6*50_000, 1e-4)
	check(t, computed, "rain", r.RainMM, 59.13, .01)
	if p, _ := r.MethodPeakOf(MethodUnitHydrograph); !p.Valid || p.Recalled || !(p.PeakM3s > 0) || r.Storm.StepS > 120 {
		t.Errorf("%+v in steps of %g s", p, r.Storm.StepS)
	}
	q.TimeOfConcentrationS = 11 * hourS
	if p, _ := must[Result](t)(Peaks(q)).MethodPeakOf(MethodRational); !math.IsNaN(p.PeakM3s) || !strings.Contains(p.Note, "curve ends at 600") {
		t.Errorf("%+v", p)
	}
	if _, err := (Result{}).MethodPeakOf("guess"); err == nil {
		t.Error("a method that is none has a peak")
	}
}

// The table begins at 60 min, the time is 10 min: no intensity is read and the storm is too coarse.
func TestCoarseRainIsSaid(t *testing.T) {
	table := Table{[]float64{60, 1440}, []float64{10}, [][]float64{{32}, {63}}}
	r := must[Result](t)(Peaks(Request{CatchmentM2: 50_000, RunoffCoefficient: .35, CurveNumber: 80, Rain: Rain{Table: &table}, HoursH: 24, TimeOfConcentrationS: 600}))
	rational, _ := r.MethodPeakOf(MethodRational)
	unit, _ := r.MethodPeakOf(MethodUnitHydrograph)
	if !math.IsNaN(rational.PeakM3s) || !strings.Contains(rational.Note, "begins at 60") || unit.Valid || !strings.Contains(unit.Note, "too low") || r.Chosen != "" {
		t.Errorf("%+v %+v", rational, unit)
	}
	q := Request{CatchmentM2: 50_000, RunoffCoefficient: .35, CurveNumber: 80, Rain: Rain{Measured: &Hyetograph{900, []float64{2, 9, 4, 1}}}, TimeOfConcentrationS: 900}
	r = must[Result](t)(Peaks(q))
	check(t, computed, "measured storm: 9 mm in 15 min", r.peak(MethodRational), .35*36/3.6e6*50_000, 1e-9)
	q.TimeOfConcentrationS = 600
	r = must[Result](t)(Peaks(q))
	if unit, _ := r.MethodPeakOf(MethodUnitHydrograph); unit.Valid || !math.IsNaN(r.peak(MethodRational)) {
		t.Errorf("rain by 15 min and a time of 10: %+v", r.Methods)
	}
}

// The graphical and unit hydrograph methods take 0.02 h as 0.1 h, and it is said once.
func TestShortTimesAreRaised(t *testing.T) {
	q := rangeland()
	q.TimeOfConcentrationS = 72
	short := must[Result](t)(Peaks(q))
	q.TimeOfConcentrationS = 360
	floor := must[Result](t)(Peaks(q))
	for _, m := range methods {
		if short.peak(m) != floor.peak(m) {
			t.Errorf("%s: %g at 72 s, %g at 360 s", m, short.peak(m), floor.peak(m))
		}
	}
	if got := rules(short.Findings); short.TimeOfConcentrationS != 360 || !slices.Contains(got, RuleConcentration) || slices.Contains(rules(floor.Findings), RuleConcentration) {
		t.Errorf("%g s, %v", short.TimeOfConcentrationS, got)
	}
}

// A rational peak carries no volume. The hydrograph is that of the unit hydrograph, holds the runoff, and is not stretched
// to the method chosen.
func TestTheHydrographHoldsTheRunoff(t *testing.T) {
	q := rangeland()
	q.RunoffCoefficient, q.Method = .95, MethodRational
	r := must[Result](t)(Peaks(q))
	if r.Chosen != MethodRational || r.PeakM3s <= r.Hydrograph.PeakM3s()*1.05 {
		t.Fatalf("the case does not show it: %s %g beside %g", r.Chosen, r.PeakM3s, r.Hydrograph.PeakM3s())
	}
	volume := r.RunoffMM / 1000 * q.CatchmentM2
	check(t, computed, "volume", r.Hydrograph.VolumeM3(), volume, 1e-9*volume)
	if r.Hydrograph.PeakM3s() != r.peak(MethodUnitHydrograph) {
		t.Error("the hydrograph is not that of the unit hydrograph")
	}
}

func TestTheMethodNamedIsChosen(t *testing.T) {
	q := rangeland()
	for _, m := range methods {
		q.Method = m
		r := must[Result](t)(Peaks(q))
		if r.Chosen != m || r.PeakM3s != r.peak(m) || !(r.LowM3s < r.HighM3s) {
			t.Errorf("%s: %s %g", m, r.Chosen, r.PeakM3s)
		}
	}
	q.CatchmentM2, q.Method = 300*hectareM2, MethodRational
	r := must[Result](t)(Peaks(q))
	if r.Chosen != MethodRational || !slices.Contains(rules(r.Findings), RuleMethod) {
		t.Errorf("a method outside its range is not noted: %v", r.Findings)
	}
	q.RunoffCoefficient = 0
	_, err := Peaks(q)
	refused(t, "named without its inputs", err, "rational method was asked for", "runoff coefficient")
}

func TestLargeCatchmentsAreNoted(t *testing.T) {
	for m2, want := range map[float64]bool{MostCatchmentM2: false, MostCatchmentM2 * 1.01: true} {
		r := must[Result](t)(Peaks(Request{CatchmentM2: m2}))
		if got := slices.ContainsFunc(r.Findings, func(n Note) bool { return strings.Contains(n.Text, "An engineer should find this peak") }); got != want {
			t.Errorf("%g m²: noted is %v", m2, got)
		}
	}
}

// Limits of validity, each tried on both sides.
func TestRangesOfMethods(t *testing.T) {
	for _, row := range []struct {
		name   string
		method Method
		change func(*Request)
		valid  bool
		words  string
	}{
		{"80 ha", MethodRational, func(q *Request) { q.CatchmentM2 = 80e4 }, true, ""},
		{"81 ha", MethodRational, func(q *Request) { q.CatchmentM2 = 81e4 }, true, "large for it"},
		{"261 ha", MethodRational, func(q *Request) { q.CatchmentM2 = 261e4 }, false, "too large"},
		{"curve number 41", MethodGraphical, func(q *Request) { q.CurveNumber = 41 }, true, ""},
		{"curve number 39", MethodGraphical, func(q *Request) { q.CurveNumber = 39 }, false, "below 40"},
		{"curve number 39 in the hydrograph", MethodUnitHydrograph, func(q *Request) { q.CurveNumber = 39 }, false, "below 40"},
		{"ponds 5 %", MethodGraphical, func(q *Request) { q.PondShare = .05 }, true, "0.72"},
		{"ponds 6 %", MethodGraphical, func(q *Request) { q.PondShare = .06 }, false, "route"},
		{"ratio 0.05", MethodGraphical, func(q *Request) { q.Ratio = Ratio05 }, true, "0.2 S"},
		{"even day of rain", MethodRational, func(q *Request) { q.Pattern = PatternUniform }, false, "too low"},
		{"even day of rain in the hydrograph", MethodUnitHydrograph, func(q *Request) { q.Pattern = PatternUniform }, true, "bursts"},
		{"even hour", MethodRational, func(q *Request) { q.Pattern, q.HoursH = PatternTriangular, 1.6 }, true, ""},
		{"one-hour depth", MethodUnitHydrograph, func(q *Request) { q.Pattern, q.HoursH = PatternNested, 1 }, true, "handbook value recalled, verify"},
		{"type III", MethodGraphical, func(q *Request) { q.Pattern = PatternIII }, true, "handbook value recalled, verify"},
		{"type II", MethodUnitHydrograph, func(q *Request) {}, true, "handbook value recalled, verify"},
		{"type I by quarter hours, 6 min", MethodUnitHydrograph, func(q *Request) { q.Pattern, q.TimeOfConcentrationS = PatternI, 360 }, false, "too low"},
	} {
		q := rangeland()
		row.change(&q)
		p, err := must[Result](t)(Peaks(q)).MethodPeakOf(row.method)
		if err != nil || p.Valid != row.valid || !strings.Contains(p.Note, row.words) || math.IsNaN(p.PeakM3s) {
			t.Errorf("%s: %+v", row.name, p)
		}
	}
	// The pond factor multiplies: 0.87 at 1 %.
	q := rangeland()
	q.PondShare = .01
	check(t, memory, "1 % of ponds", must[Result](t)(Peaks(q)).peak(MethodGraphical), .4825*.87, .0003)
}

// The path goes before length and slope; a path twice as slow as Kirpich is noted; level ground ends.
func TestConcentrationOfARequest(t *testing.T) {
	path := []Segment{SheetFlow{30, .05, .13, 50}, ShallowFlow{150, .05, "unpaved"}, ChannelFlow{220, .04, .045, .2}}
	want, _, err := PathTravelS(path)
	if err != nil {
		t.Fatal(err)
	}
	q := Request{CatchmentM2: 5e4, Path: path, FlowLengthM: 400, FlowSlope: .05}
	check(t, computed, "path", must[Result](t)(Peaks(q)).TimeOfConcentrationS, want, 1e-9)
	// Length and mean slope of the path itself: 400 m that fall 1.5 + 7.5 + 8.8 m.
	length, slope := pathRun(path)
	check(t, computed, "length of the path", length, 400, 1e-9)
	check(t, computed, "mean slope of the path", slope, 17.8/400, 1e-12)
	slow := Request{CatchmentM2: 5e4, Path: append([]Segment{SheetFlow{30, .001, .8, 20}}, path...)}
	if r := must[Result](t)(Peaks(slow)); !slices.ContainsFunc(r.Findings, func(n Note) bool { return strings.Contains(n.Text, "Kirpich formula gives") && n.Got > 2 }) {
		t.Errorf("a path far slower than Kirpich is not noted: %v", r.Findings)
	}
	q.Path = nil
	kirpich, _ := KirpichS(400, .05)
	r := must[Result](t)(Peaks(q))
	check(t, computed, "Kirpich", r.TimeOfConcentrationS, kirpich, 1e-9)
	if !slices.ContainsFunc(r.Findings, func(n Note) bool { return n.Source == "Kirpich1940" }) {
		t.Error("Kirpich is not said")
	}
	q.TimeOfConcentrationS = 3600
	r = must[Result](t)(Peaks(q))
	if i := slices.Index(rules(r.Findings), RuleConcentration); r.TimeOfConcentrationS != 3600 || i < 0 || !strings.Contains(r.Findings[i].Text, "Kirpich") {
		t.Errorf("an hour beside %g s by Kirpich: %v", kirpich, r.Findings)
	}
	q = Request{CatchmentM2: 5e4, FlowLengthM: 400}
	r = must[Result](t)(Peaks(q))
	if !(r.TimeOfConcentrationS > 0 && r.TimeOfConcentrationS < 1e5) || !slices.Contains(rules(r.Findings), RuleSlope) {
		t.Errorf("level ground: %g s, %v", r.TimeOfConcentrationS, r.Findings)
	}
}

// Rain by the second over a day and ten hours of concentration: steps are merged, runoff and peak stay (2 % are allowed for the
// longer steps), and it takes no minutes.
func TestFineRainOnASlowCatchment(t *testing.T) {
	d := must[Distribution](t)(DayStorm(PatternII))
	seconds, minutes := must[Hyetograph](t)(d.Storm(150, 1)), must[Hyetograph](t)(d.Storm(150, 360))
	q := Request{CatchmentM2: 5e6, CurveNumber: 75, TimeOfConcentrationS: 36_000, Rain: Rain{Measured: &seconds}}
	fine := must[Result](t)(Peaks(q))
	q.Rain.Measured = &minutes
	coarse := must[Result](t)(Peaks(q))
	volume := fine.RunoffMM / 1000 * q.CatchmentM2
	check(t, computed, "volume", fine.Hydrograph.VolumeM3(), volume, 1e-9*volume)
	check(t, computed, "peak", fine.peak(MethodUnitHydrograph), coarse.peak(MethodUnitHydrograph), .02*coarse.peak(MethodUnitHydrograph))
}

// A composite of patches sheds what they shed, not what their mean curve number would. (In the burst itself the patch of 98 sheds
// all and that of 52 little, so the unit hydrograph may peak lower than that of the mean.)
func TestPeaksOfPatches(t *testing.T) {
	q := rangeland()
	q.CurveNumber, q.Patches = 0, []Patch{{25_000, 98}, {25_000, 52}}
	mixed := must[Result](t)(Peaks(q))
	q.CurveNumber, q.Patches = 75, nil
	mean := must[Result](t)(Peaks(q))
	check(t, computed, "runoff", mixed.RunoffMM, (Loss{CurveNumber: 98}.RunoffMM(152.4)+Loss{CurveNumber: 52}.RunoffMM(152.4))/2, 1e-9)
	if m := MethodGraphical; !(mixed.peak(m) > mean.peak(m)*1.02) {
		t.Errorf("%s: %g beside %g of the mean curve number", m, mixed.peak(m), mean.peak(m))
	}
	volume := mixed.RunoffMM / 1000 * 50_000
	check(t, computed, "volume", mixed.Hydrograph.VolumeM3(), volume, 1e-9*volume)
}

func TestWetnessInPeaks(t *testing.T) {
	q := rangeland()
	average := must[Result](t)(Peaks(q))
	q.Wetness = WetnessWet
	wet := must[Result](t)(Peaks(q))
	q.Wetness = WetnessDry
	dry := must[Result](t)(Peaks(q))
	if wet.RunoffMM != average.RunoffWetMM || dry.RunoffMM != average.RunoffDryMM || !(dry.PeakM3s <= average.PeakM3s && average.PeakM3s < wet.PeakM3s) {
		t.Errorf("dry %g, average %g, wet %g mm", dry.RunoffMM, average.RunoffMM, wet.RunoffMM)
	}
}
