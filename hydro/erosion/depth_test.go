package erosion

import (
	"math"
	"slices"
	"testing"

	"siltstep/hydro/channel"

	"pgregory.net/rapid"
)

// untold is a value that is not known.
var untold = math.NaN()

// metreByMetre returns a drainage with a station every metre, slope 0.05, catchment 1 ha.
func metreByMetre(n int) *channel.Drainage {
	d := &channel.Drainage{ID: "D01"}
	for i := range n {
		d.Profile.Stations = append(d.Profile.Stations, channel.Station{StationM: float64(i), Slope: 0.05, CatchmentM2: 10_000})
	}
	return d
}

// cut returns a resolved section: bed 1 m, banks of slope 1.
func cut(stationM, depthM float64) channel.Section {
	bank := channel.Bank{HeightM: depthM, Slope: 1}
	return channel.Section{
		StationM: stationM, BedWidthM: 1, TopWidthM: 1 + 2*depthM, DepthM: depthM, Left: bank, Right: bank,
		Fit:      channel.Trapezoid{BedWidthM: 1, SideSlope: 1, DepthM: depthM},
		Resolved: true,
	}
}

// dim returns a section that is not resolved.
func dim(stationM float64) channel.Section {
	b := channel.Bank{HeightM: untold, Slope: untold}
	return channel.Section{StationM: stationM, BedWidthM: untold, TopWidthM: untold, DepthM: untold, Left: b, Right: b}
}

// level returns n times the same value.
func level(n int, v float64) []float64 {
	out := make([]float64, n)
	for i := range out {
		out[i] = v
	}
	return out
}

// near reports whether two values are the same but for rounding; NaN is the same as NaN.
func near(a, b float64) bool { return math.Abs(a-b) <= 1e-9 || math.IsNaN(a) && math.IsNaN(b) }

func TestMeasureAlong(t *testing.T) {
	tests := []struct {
		name     string
		sections []channel.Section
		at       int // station, m
		want     float64
	}{
		{"on a section", []channel.Section{cut(10, 1), cut(15, 2)}, 15, 2},
		{"between two", []channel.Section{cut(10, 1), cut(15, 2)}, 12, 1.4}, // 1 + 2/5
		{"one spacing below", []channel.Section{cut(10, 1), cut(15, 2)}, 5, 1},
		{"farther below", []channel.Section{cut(10, 1), cut(15, 2)}, 4, untold},
		{"one spacing above", []channel.Section{cut(10, 1), cut(15, 2)}, 20, 2},
		{"farther above", []channel.Section{cut(10, 1), cut(15, 2)}, 21, untold},
		{"over two not resolved", []channel.Section{cut(10, 1), dim(15), dim(20), cut(25, 2.5)}, 20, 2}, // 1 + 1.5·10/15
		{"over three: unknown", []channel.Section{cut(10, 1), dim(15), dim(20), dim(25), cut(30, 2)}, 20, untold},
		{"over three: held for a spacing", []channel.Section{cut(10, 1), dim(15), dim(20), dim(25), cut(30, 2)}, 26, 2},
		{"lone section", []channel.Section{cut(10, 1)}, 15, 1},
		{"lone section, farther", []channel.Section{cut(10, 1)}, 16, untold},
		{"none resolved", []channel.Section{dim(10), dim(15)}, 10, untold},
		{"none", nil, 10, untold},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			d := Measure(metreByMetre(41), tt.sections, level(41, untold), Defaults())
			if got := d.SectionM[tt.at]; !near(got, tt.want) {
				t.Errorf("depth at %d m: got %g, want %g", tt.at, got, tt.want)
			}
			if got, want := d.BankToBankM[tt.at], 1+2*tt.want; !near(got, want) {
				t.Errorf("bank to bank at %d m: got %g, want %g", tt.at, got, want)
			}
			if got := d.IncisionM[tt.at]; !near(got, tt.want) { // no top-hat here
				t.Errorf("incision at %d m: got %g, want %g", tt.at, got, tt.want)
			}
		})
	}
}

func TestTrackNearest(t *testing.T) {
	track := track{stationM: []float64{0, 4, 10}, value: []float64{1, 2, 3}}
	for m, want := range map[float64]int{-5: 0, 0: 0, 2: 0, 2.1: 1, 4: 1, 7: 1, 8: 2, 10: 2, 99: 2} { // of two the lower
		if got := track.nearest(m); got != want {
			t.Errorf("nearest to %g m: got %d, want %d", m, got, want)
		}
	}
	if got := track.at(99); !math.IsNaN(got) {
		t.Errorf("far off: got %g, want NaN", got)
	}
}

func TestMeasureNoBed(t *testing.T) {
	d := metreByMetre(21)
	for i := 5; i < 8; i++ {
		d.Profile.Stations[i].NoBed = true
	}
	got := Measure(d, []channel.Section{cut(0, 1), cut(10, 1), cut(20, 1)}, level(21, 2), Defaults())
	for name, v := range map[string][]float64{
		"section": got.SectionM, "top-hat": got.TopHatM, "incision": got.IncisionM, "bed": got.BedWidthM,
		"bank to bank": got.BankToBankM, "left": got.BankLeftM, "right": got.BankRightM, "slope": got.BankSlope,
	} {
		for i := range v {
			if s := d.Profile.Stations[i]; math.IsNaN(v[i]) != s.NoBed {
				t.Errorf("%s at %g m: %g with NoBed %t", name, s.StationM, v[i], s.NoBed)
			}
		}
	}
	if want := 17.0 / 20; !near(got.KnownShare, want) { // stations 5 to 7 stand for 4.5 to 7.5 m of 20
		t.Errorf("known share %g, want %g", got.KnownShare, want)
	}
}

func TestMeasureBankSlope(t *testing.T) {
	both, one, none := cut(0, 1), cut(0, 1), cut(0, 1)
	both.Left.Slope, both.Right.Slope = 1, 2
	one.Left.Slope = untold
	none.Left.Slope, none.Right.Slope = untold, untold
	narrow := both // its left bank is half a cell wide, a cell being two steps
	narrow.StepM = 0.5
	narrow.Left.ToeM, narrow.Left.TopM = -1, -1.5
	narrow.Right.ToeM, narrow.Right.TopM = 1, 2
	for _, tt := range []struct {
		section channel.Section
		want    float64
	}{{both, 1.5}, {one, 1}, {none, untold}, {narrow, 2}} {
		if got := Measure(metreByMetre(1), []channel.Section{tt.section}, []float64{0}, Defaults()).BankSlope[0]; !near(got, tt.want) {
			t.Errorf("got %g, want %g", got, tt.want)
		}
	}
}

func TestMeasureSummary(t *testing.T) {
	tests := []struct {
		name                                      string
		depth                                     []float64 // by the top-hat, stations 1 m apart
		mean, most, incised, known, agree, shares float64
	}{
		// Lengths ½, 1, 1, ½: mean (0.1·½ + 0.2 + 0.5 + 0.8·½)/3 = 1.15/3; 0.5 and 0.8 count, 1.5 m of 3. The mean over
		// 2.5 m to either side is greatest at the upper end, where the lowest station drops out: 1.1/2.5.
		{"four", []float64{0.1, 0.2, 0.5, 0.8}, 1.15 / 3, 1.1 / 2.5, 0.5, 1, untold, untold},
		{"half unknown", []float64{untold, untold, 1, 1}, 1, 1, 1, 0.5, untold, untold},
		{"all unknown", []float64{untold, untold}, untold, untold, untold, 0, untold, untold},
		{"one station", []float64{0.7}, 0.7, 0.7, 1, 1, untold, untold},
		{"none", nil, untold, untold, untold, 0, untold, untold},
		{"at the limit", []float64{0.3, 0.3}, 0.3, 0.3, 1, 1, untold, untold},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			d := Measure(metreByMetre(len(tt.depth)), nil, tt.depth, Defaults())
			got := []float64{d.MeanM, d.MaxM, d.IncisedShare, d.KnownShare, d.DisagreeM, d.ResolvedShare}
			want := []float64{tt.mean, tt.most, tt.incised, tt.known, tt.agree, tt.shares}
			if !slices.EqualFunc(got, want, near) {
				t.Errorf("mean, most, incised, known, apart, resolved: got %g, want %g", got, want)
			}
		})
	}
}

// One wild station of 9 m among depths of 1 m counts a fifth: (9 + 4)/5.
func TestMeasureMaxIsRobust(t *testing.T) {
	top := level(41, 1)
	top[20] = 9
	if got := Measure(metreByMetre(41), nil, top, Defaults()).MaxM; !near(got, 2.6) {
		t.Errorf("got %g m, want 2.6", got)
	}
}

func TestMeasureBothMeasures(t *testing.T) {
	// Resolved to 20 m, 1 m deep; the top-hat reads 1.2 all along and 0.9 above 40 m.
	sections := []channel.Section{cut(0, 1), cut(5, 1), cut(10, 1), cut(15, 1), cut(20, 1), dim(25), dim(30), dim(35), dim(40), dim(45)}
	top := level(51, 1.2)
	for i := 40; i < len(top); i++ {
		top[i] = 0.9
	}
	d := Measure(metreByMetre(51), sections, top, Defaults())
	if !near(d.DisagreeM, 0.2) || !near(d.ResolvedShare, 0.5) || !near(d.KnownShare, 1) {
		t.Errorf("apart %g m, resolved %g, known %g; want 0.2, 0.5, 1", d.DisagreeM, d.ResolvedShare, d.KnownShare)
	}
	for at, want := range map[int]float64{10: 1, 25: 1, 30: 1, 45: 0.7} { // 1.2 and 0.9 less the 0.2 by which it reads high
		if got := d.IncisionM[at]; !near(got, want) {
			t.Errorf("at %d m: got %g, want %g", at, got, want)
		}
	}
	if !near(d.TopHatM[45], 0.9) {
		t.Errorf("top-hat at 45 m: %g, want it as read", d.TopHatM[45])
	}
}

// A top-hat that reads low is not raised.
func TestMeasureLowTopHat(t *testing.T) {
	sections := []channel.Section{cut(0, 1), cut(5, 1), cut(10, 1), dim(15), dim(20), dim(25), dim(30)}
	d := Measure(metreByMetre(31), sections, level(31, 0.6), Defaults())
	if got := d.IncisionM[30]; !near(got, 0.6) {
		t.Errorf("got %g m, want 0.6", got)
	}
}

func TestMeasureMisfit(t *testing.T) {
	defer func() {
		if recover() == nil {
			t.Error("two values for three stations: want a panic")
		}
	}()
	Measure(metreByMetre(3), nil, []float64{1, 2}, Defaults())
}

// Whatever is known and not: shares stay in 0 … 1, the mean lies between least and most, nothing is negative.
func TestMeasureBounds(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(0, 60).Draw(t, "stations")
		d := metreByMetre(n)
		value := rapid.OneOf(rapid.Just(untold), rapid.Float64Range(0, 5))
		top := rapid.SliceOfN(value, n, n).Draw(t, "top-hat")
		for i := range d.Profile.Stations {
			if s := &d.Profile.Stations[i]; rapid.IntRange(0, 5).Draw(t, "bed") == 0 {
				s.NoBed = true
			}
		}
		var sections []channel.Section
		for at := 0.0; at < float64(n); at += 5 {
			s := dim(at)
			if rapid.Bool().Draw(t, "resolved") {
				s = cut(at, rapid.Float64Range(0, 4).Draw(t, "depth"))
			}
			sections = append(sections, s)
		}
		got := Measure(d, sections, top, Defaults())
		least, most, known := math.Inf(1), 0.0, false
		for i, v := range got.IncisionM {
			if math.IsNaN(v) {
				continue
			}
			known = true
			if v < 0 || d.Profile.Stations[i].NoBed {
				t.Fatalf("station %d: %g m", i, v)
			}
			least, most = min(least, v), max(most, v)
		}
		if known == math.IsNaN(got.MeanM) || known == math.IsNaN(got.MaxM) || known == (got.KnownShare == 0) {
			t.Fatalf("known %t: %+v", known, got)
		}
		const slack = 1e-9
		if known && (got.MeanM < least-slack || got.MaxM > most+slack) {
			t.Fatalf("mean %g, most %g of %g to %g", got.MeanM, got.MaxM, least, most)
		}
		for _, share := range []float64{got.KnownShare, got.IncisedShare, got.ResolvedShare} {
			if share < 0 || share > 1+slack {
				t.Fatalf("share %g", share)
			}
		}
	})
}
