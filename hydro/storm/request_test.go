package storm

import (
	"math"
	"testing"
)

// Each row spoils one value of a good request; the words must be in the error.
func TestRequestFaults(t *testing.T) {
	nan := math.NaN()
	for _, row := range []struct {
		words  string
		change func(*Request)
	}{
		{"catchment is 0", func(q *Request) { q.CatchmentM2 = 0 }},
		{"catchment is NaN", func(q *Request) { q.CatchmentM2 = nan }},
		{"catchment is -5", func(q *Request) { q.CatchmentM2 = -5 }},
		{"runoff coefficient is 35", func(q *Request) { q.RunoffCoefficient = 35 }},
		{"runoff coefficient is NaN", func(q *Request) { q.RunoffCoefficient = nan }},
		{"curve number is 101", func(q *Request) { q.CurveNumber = 101 }},
		{"curve number is -1", func(q *Request) { q.CurveNumber = -1 }},
		{"curve number is NaN", func(q *Request) { q.CurveNumber = nan }},
		{"one or the other", func(q *Request) { q.Patches = []Patch{{1, 70}} }},
		{"patch 1", func(q *Request) { q.CurveNumber, q.Patches = 0, []Patch{{1, 170}} }},
		{"antecedent condition \"damp\"", func(q *Request) { q.Wetness = "damp" }},
		{"abstraction ratio \"0.3\"", func(q *Request) { q.Ratio = "0.3" }},
		{"rain depth is -1", func(q *Request) { q.Rain.DepthMM = -1 }},
		{"rain depth is NaN", func(q *Request) { q.Rain.DepthMM = nan }},
		{"rain intensity is +Inf", func(q *Request) { q.Rain.IntensityMMH = math.Inf(1) }},
		{"more than one way", func(q *Request) { q.Rain.Curve = &Curve{A: 1000, C: .8, LongestMin: 1440} }},
		{"rain curve: a", func(q *Request) { q.Rain = Rain{Curve: &Curve{}} }},
		{"no duration or no return period", func(q *Request) { q.Rain = Rain{Table: &Table{}} }},
		{"say which one", func(q *Request) { x := ranch(); q.Rain = Rain{Table: &x} }},
		{"2 to 25 yr", func(q *Request) { x := ranch(); q.Rain, q.ReturnPeriodYr = Rain{Table: &x}, 100 }},
		{"own duration", func(q *Request) { q.Rain = Rain{Measured: &Hyetograph{300, []float64{1}}} }},
		{"storm: step", func(q *Request) { q.Rain, q.HoursH, q.Pattern = Rain{Measured: &Hyetograph{}}, 0, "" }},
		{"return period is 0.5", func(q *Request) { q.ReturnPeriodYr = .5 }},
		{"without its duration", func(q *Request) { q.HoursH = 0 }},
		{"storm duration is 500", func(q *Request) { q.HoursH = 500 }},
		{"24-hour storm and 6 hours", func(q *Request) { q.HoursH = 6 }},
		{"over 5 min to 1 h", func(q *Request) { q.Pattern = PatternNested }},
		{"rain pattern \"IV\"", func(q *Request) { q.Pattern = "IV" }},
		{"time of concentration is -60", func(q *Request) { q.TimeOfConcentrationS = -60 }},
		{"time of concentration is NaN", func(q *Request) { q.TimeOfConcentrationS = nan }},
		{"flow slope is 5", func(q *Request) { q.FlowLengthM, q.FlowSlope = 400, 5 }},
		{"flow slope is NaN", func(q *Request) { q.FlowLengthM, q.FlowSlope = 400, nan }},
		{"without a flow length", func(q *Request) { q.FlowSlope = .05 }},
		{"segment 1", func(q *Request) { q.Path = []Segment{Pool{}} }},
		{"ponds and swamps is 1.5", func(q *Request) { q.PondShare = 1.5 }},
		{"peak factor is 700", func(q *Request) { q.PeakFactor = 700 }},
		{"shape of the unit hydrograph \"square\"", func(q *Request) { q.Shape = "square" }},
		{"method \"guess\"", func(q *Request) { q.Method = "guess" }},
	} {
		q := rangeland()
		row.change(&q)
		_, err := Peaks(q)
		refused(t, row.words, err, row.words)
	}
	// Every fault is told at once.
	_, err := Peaks(Request{CatchmentM2: -1, CurveNumber: 200, PondShare: 2})
	refused(t, "three faults", err, "catchment", "curve number", "ponds")
}
