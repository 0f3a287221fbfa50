package storm

import (
	"math"
	"testing"

	"pgregory.net/rapid"
)

// ranch is a table of our own: depths in mm over 5 min to 24 h for 2, 10 and 25 years.
func ranch() Table {
	return Table{
		DurationsMin:    []float64{5, 15, 60, 360, 1440},
		ReturnPeriodsYr: []float64{2, 10, 25},
		DepthsMM:        [][]float64{{6, 10, 12}, {12, 19, 23}, {20, 32, 39}, {30, 46, 55}, {42, 63, 75}},
	}
}

// By hand on the logarithms: at 30 min, halfway in ln between 15 and 60 min, the geometric mean of 12 and 20;
// at √20 years that of 6 and 10; below 5 min the line of 5 to 15 min carried on, slope ln 2/ln 3.
func TestTableIsReadInLogarithms(t *testing.T) {
	for _, row := range []struct{ minutes, yr, mm float64 }{
		{5, 2, 6}, {60, 10, 32}, {1440, 25, 75}, {30, 2, math.Sqrt(12 * 20)}, {5, math.Sqrt(20), math.Sqrt(60)},
		{2.5, 2, 6 * math.Pow(.5, math.Log(2)/math.Log(3))},
	} {
		mm, notes, err := ranch().DepthMM(row.minutes, row.yr)
		if err != nil {
			t.Fatal(err)
		}
		check(t, computed, "depth", mm, row.mm, 1e-9)
		if below := row.minutes < 5; below != (len(notes) == 1) {
			t.Errorf("%g min: notes %v", row.minutes, notes)
		}
	}
}

func TestTableIsNotReadBeyondItsEnds(t *testing.T) {
	for _, row := range []struct {
		minutes, yr float64
		words       string
	}{
		{1441, 2, "ends at 1440"}, {2.4, 2, "begins at 5"}, {60, 26, "2 to 25 yr"}, {60, 1, "2 to 25 yr"}, {60, 0, "say which"}, {0, 2, "duration"}, {math.NaN(), 2, "duration"}, {60, math.NaN(), "return period"},
	} {
		mm, _, err := ranch().DepthMM(row.minutes, row.yr)
		refused(t, row.words, err, row.words)
		if !math.IsNaN(mm) {
			t.Errorf("%g mm beside the error", mm)
		}
	}
	one := Table{[]float64{60}, []float64{10}, [][]float64{{30}}}
	if mm, _, err := one.DepthMM(60, 0); err != nil || mm != 30 {
		t.Errorf("a single value reads %g, %v", mm, err)
	}
	_, _, err := one.DepthMM(40, 0)
	refused(t, "a single duration", err, "begins at 60")
}

// Each row changes one value of a good table into a fault.
func TestTableFaults(t *testing.T) {
	for _, row := range []struct {
		name   string
		change func(*Table)
		words  []string
	}{
		{"depth falls with duration", func(x *Table) { x.DepthsMM[2] = []float64{15, 18, 39} }, []string{"falls", "10 yr", "intensities"}},
		{"depth falls with return period", func(x *Table) { x.DepthsMM[1][2] = 15 }, []string{"15 min", "falls"}},
		{"intensity rises", func(x *Table) { x.DepthsMM[1] = []float64{18.5, 31, 37} }, []string{"intensity rises", "depths"}},
		{"durations out of order", func(x *Table) { x.DurationsMin[1] = 5 }, []string{"rising order"}},
		{"periods out of order", func(x *Table) { x.ReturnPeriodsYr[2] = 9 }, []string{"rising order"}},
		{"negative", func(x *Table) { x.DepthsMM[0][0] = -6 }, []string{"5 min, 2 yr"}},
		{"zero", func(x *Table) { x.DepthsMM[0][0] = 0 }, []string{"5 min, 2 yr"}},
		{"not a number", func(x *Table) { x.DepthsMM[0][0] = math.NaN() }, []string{"5 min, 2 yr"}},
		{"endless", func(x *Table) { x.DepthsMM[4][2] = math.Inf(1) }, []string{"1440 min, 25 yr"}},
		{"row too short", func(x *Table) { x.DepthsMM[3] = []float64{30} }, []string{"360 min", "1 values for 3"}},
		{"row missing", func(x *Table) { x.DepthsMM = x.DepthsMM[:4] }, []string{"4 rows"}},
		{"empty", func(x *Table) { *x = Table{} }, []string{"no duration"}},
		{"odd period", func(x *Table) { x.ReturnPeriodsYr[0] = .2 }, []string{"return period"}},
	} {
		table := ranch()
		row.change(&table)
		refused(t, row.name, table.Validate(), row.words...)
	}
	if err := ranch().Validate(); err != nil {
		t.Error(err)
	}
	rounded := ranch()
	rounded.DepthsMM[1] = []float64{18.2, 30.4, 36.5} // 1.4 % over the intensity of 5 min, as rounding makes it
	rounded.DepthsMM[2] = []float64{30, 50, 60}
	rounded.DepthsMM[3], rounded.DepthsMM[4] = rounded.DepthsMM[2], rounded.DepthsMM[2]
	if err := rounded.Validate(); err != nil {
		t.Error(err)
	}
}

// Ratios of short rain to one-hour rain (NOAAAtlas2, memory), as depth and as intensity per mm in an hour; the
// intensities of the fitted curve i = 26.751/(t + 9)^0.775 stand beside them (computed).
func TestHourRatios(t *testing.T) {
	curve := Curve{A: 26.751, B: 9, C: .775, ShortestMin: 5, LongestMin: 60}
	hour, err := HourCurve(30, 60)
	if err != nil {
		t.Fatal(err)
	}
	for _, row := range []struct{ minutes, ratio, fitted, exact float64 }{
		{5, .29, 3.460, 3.48}, {10, .45, 2.731, 2.70}, {15, .57, 2.279, 2.28}, {30, .79, 1.564, 1.58}, {60, 1, 1.005, 1},
	} {
		i, _, err := curve.IntensityMMH(row.minutes)
		if err != nil {
			t.Fatal(err)
		}
		check(t, computed, "fitted intensity", i, row.fitted, .0006)
		check(t, memory, "intensity", i, row.exact, .04)
		i, _, err = hour.IntensityMMH(row.minutes)
		if err != nil {
			t.Fatal(err)
		}
		check(t, memory, "depth of the hour curve", i*row.minutes/60/30, row.ratio, .013)
	}
	i, _, _ := hour.IntensityMMH(60)
	check(t, computed, "one hour comes back", i, 30, 1e-9)
	_, err = HourCurve(30, 90)
	refused(t, "nested storm over 90 min", err, "5 to 60")
}

// The slow twin of the fitted constants: least squares of ln i on ln(t + b), trying b by tenths. The
// least is flat, and a and c move with b.
func TestHourRatiosFit(t *testing.T) {
	minutes, ratio := []float64{5, 10, 15, 30, 60}, []float64{.29, .45, .57, .79, 1}
	best, a, b, c := math.Inf(1), 0.0, 0.0, 0.0
	for tenth := range 300 {
		tryB := float64(tenth) / 10
		var sx, sy, sxx, sxy, n float64
		for i, m := range minutes {
			x, y := math.Log(m+tryB), math.Log(ratio[i]/m*60)
			sx, sy, sxx, sxy, n = sx+x, sy+y, sxx+x*x, sxy+x*y, n+1
		}
		slope := (n*sxy - sx*sy) / (n*sxx - sx*sx)
		level := (sy - slope*sx) / n
		wrong := 0.0
		for i, m := range minutes {
			wrong += math.Pow(math.Log(ratio[i]/m*60)-level-slope*math.Log(m+tryB), 2)
		}
		if wrong < best {
			best, a, b, c = wrong, math.Exp(level), tryB, -slope
		}
	}
	check(t, computed, "b", b, hourRatioB, .2)
	check(t, computed, "c", c, hourRatioC, .005)
	check(t, computed, "a", a, 26.751, .6)
}

func TestCurveRefuses(t *testing.T) {
	good := Curve{A: 1000, B: 10, C: .8, ShortestMin: 5, LongestMin: 120}
	for _, row := range []struct {
		name   string
		change func(*Curve)
		words  string
	}{
		{"a", func(c *Curve) { c.A = 0 }, "a is 0"}, {"b", func(c *Curve) { c.B = -1 }, "b is -1"}, {"c", func(c *Curve) { c.C = 0 }, "c is 0"},
		{"not a number", func(c *Curve) { c.C = math.NaN() }, "c is NaN"}, {"no end", func(c *Curve) { c.LongestMin = 0 }, "longest"},
		{"ends crossed", func(c *Curve) { c.ShortestMin = 200 }, "not below"},
		{"depth would fall beyond b/(c-1) = 50 min", func(c *Curve) { c.C = 1.2 }, "beyond 50 min"},
	} {
		c := good
		row.change(&c)
		refused(t, row.name, c.Validate(), row.words)
	}
	_, _, err := good.IntensityMMH(121)
	refused(t, "beyond the end", err, "ends at 120")
	_, _, err = good.IntensityMMH(2)
	refused(t, "before the start", err, "begins at 5")
	_, notes, err := good.IntensityMMH(3)
	if err != nil || len(notes) != 1 {
		t.Errorf("3 min: %v, %v", notes, err)
	}
}

// Nothing beyond 24 h is drawn; c to 1.5 with the end at b/(c-1).
func TestCurveDepthNeverFalls(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c := Curve{A: rapid.Float64Range(1, 5000).Draw(t, "a"), B: rapid.Float64Range(0, 60).Draw(t, "b"), C: rapid.Float64Range(.1, 1.5).Draw(t, "c"), LongestMin: 1440}
		if c.C > 1 {
			c.LongestMin = min(1440, c.B/(c.C-1))
		}
		if c.LongestMin < 1 {
			t.Skip("no range left")
		}
		a := rapid.Float64Range(.1, c.LongestMin).Draw(t, "minutes")
		b := rapid.Float64Range(a, c.LongestMin).Draw(t, "more minutes")
		ia, _, errA := c.IntensityMMH(a)
		ib, _, errB := c.IntensityMMH(b)
		if errA != nil || errB != nil || ib > ia*(1+1e-12) || ib*b < ia*a*(1-1e-12) {
			t.Fatalf("%+v: %g mm/h over %g min, %g over %g; %v %v", c, ia, a, ib, b, errA, errB)
		}
	})
}

func TestTableNeverFalls(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		minutes := rapid.Float64Range(2.5, 1440).Draw(t, "minutes")
		more := rapid.Float64Range(minutes, 1440).Draw(t, "more minutes")
		yr := rapid.Float64Range(2, 25).Draw(t, "years")
		rarer := rapid.Float64Range(yr, 25).Draw(t, "more years")
		a, _, _ := ranch().DepthMM(minutes, yr)
		b, _, _ := ranch().DepthMM(more, yr)
		c, _, _ := ranch().DepthMM(minutes, rarer)
		if !(a > 0 && b >= a*(1-1e-12) && c >= a*(1-1e-12) && b/more <= a/minutes*(1+1e-12)) {
			t.Fatalf("%g mm, %g mm longer, %g mm rarer", a, b, c)
		}
	})
}
