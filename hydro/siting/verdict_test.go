package siting

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"

	"github.com/paulmach/orb"
	"pgregory.net/rapid"
	"siltstep/hydro/channel"
)

// roadAcross is a road over the channel line at x.
func roadAcross(x float64) []orb.LineString { return []orb.LineString{{{x, -50}, {x, 50}}} }

// lowFrom is ground whose banks are too low at stations from first to last.
func lowFrom(first, last int) Ground {
	odd := map[int]Place{}
	for i := first; i <= last; i++ {
		odd[i] = low(0.5)
	}
	return groundOf(odd)
}

func TestStretchesWithoutAPlace(t *testing.T) {
	type reach struct {
		fromM, toM float64
		rules      []Rule
	}
	banks := []Rule{RuleBanks}
	tests := []struct {
		name        string
		stepM       float64
		cellM       float64
		first, last int // station numbers with low banks
		want        []reach
	}{
		// From the first to the last station.
		{"9.9 m", 0.1, 1, 200, 299, []reach{{0, 60, nil}}},
		{"10 m", 0.1, 1, 200, 300, []reach{{0, 19.95, nil}, {19.95, 30.05, banks}, {30.05, 60, nil}}},
		{"10.1 m", 0.1, 1, 200, 301, []reach{{0, 19.95, nil}, {19.95, 30.15, banks}, {30.15, 60, nil}}},
		{"19.9 m on cells of 4 m", 0.1, 4, 200, 399, []reach{{0, 60, nil}}},
		{"20.1 m on cells of 4 m", 0.1, 4, 201, 402, []reach{{0, 20.05, nil}, {20.05, 40.25, banks}, {40.25, 60, []Rule{RuleShort}}}},
		{"at the lower end", 1, 1, 0, 9, []reach{{0, 60, nil}}},
		{"at the upper end", 1, 1, 50, 60, []reach{{0, 49.5, nil}, {49.5, 60, banks}}},
		{"all along", 1, 1, 0, 60, []reach{{0, 60, banks}}},
		// 7.5 m are left above: too short.
		{"little is left", 1, 1, 30, 52, []reach{{0, 29.5, nil}, {29.5, 52.5, banks}, {52.5, 60, []Rule{RuleShort}}}},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			v := judgeStations(drawn(60, tt.stepM, ramp(0.06)), tt.cellM, Defaults(), nil, lowFrom(tt.first, tt.last))
			close := func(r Reach, w reach) bool {
				return math.Abs(r.FromM-w.fromM) < 1e-9 && math.Abs(r.ToM-w.toM) < 1e-9 && slices.Equal(rulesOf(r.Reasons), w.rules)
			}
			if !slices.EqualFunc(v.reaches, tt.want, close) {
				t.Fatalf("reaches %+v, want %+v", v.reaches, tt.want)
			}
			for i, stands := range v.stand {
				if stands && i >= tt.first && i <= tt.last {
					t.Errorf("a dam stands at station number %d", i)
				}
			}
		})
	}
}

func TestReachWithoutAPlace(t *testing.T) {
	// Between flat land the only ground left, 8 m, has low banks and, in part, too wide a bed: that counts, not that it is short.
	d, odd := drawn(60, 1, ramp(0.06)), map[int]Place{}
	at(d, 0, 19, func(s *station) { s.Slope = 0.01 })
	at(d, 28, 60, func(s *station) { s.Slope = 0.01 })
	for i := 20; i < 28; i++ {
		p := low(0.5 - 0.01*math.Abs(float64(i-23))) // 0.46 m at 27
		p.BedWidthM = float64(i) / 4                 // over 6 m from 25 on, 6.75 m at 27
		odd[i] = p
	}
	v := judgeStations(d, 1, Defaults(), nil, groundOf(odd))
	if len(v.reaches) != 3 || v.reaches[1].Eligible || !slices.Equal(rulesOf(v.reaches[1].Reasons), []Rule{RuleBedWidth, RuleBanks}) {
		t.Fatalf("reaches %+v", v.reaches)
	}
	wide, banks := v.reaches[1].Reasons[0], v.reaches[1].Reasons[1]
	if wide.Got != 6.75 || wide.Limit != 6 || math.Abs(banks.Got-0.46) > 1e-12 || banks.Limit != 0.8 {
		t.Errorf("reasons %+v and %+v, want the worst of the reach", wide, banks)
	}
	if v.off[23].Rule != "" {
		t.Errorf("a station of a reach that is not eligible is kept off by %+v", v.off[23])
	}
}

func TestEveryReasonIsKept(t *testing.T) {
	// All that may hold at once, on the land and, on another drainage, at places.
	d, cfg := drawn(60, 1, ramp(0.06)), Defaults()
	cfg.Features = Features{
		Exclusions: []orb.Polygon{{box(-10, -10, 70, 10)}}, Buildings: []orb.Geometry{orb.Point{30, 10}},
		Roads: []orb.LineString{{{0, 3}, {60, 3}}}, Streams: []orb.Geometry{orb.LineString{{-10, 4}, {70, 4}}},
	}
	at(d, 20, 40, func(s *station) { s.Slope, s.CatchmentM2, s.FillM = 0.3, 90_000, 0.5 })
	v := judgeStations(d, 6, cfg, func(x, y float64) bool { return x < 20 || x > 40 }, cutBy(d, func(float64) float64 { return 0.1 }))
	land := []Rule{RuleSlope, RuleCatchment, RuleIncision, RuleWater, RuleProperty, RuleCoarse}
	if got := rulesOf(v.reaches[1].Reasons); !slices.Equal(got, land) {
		t.Errorf("of the land: %v, want %v", got, land)
	}
	v = judgeStations(drawn(60, 1, ramp(0.06)), 1, cfg, nil, Ground{})
	near := []Rule{RuleExclusion, RuleBuilding, RuleRoad, RuleLiveStream}
	if got := v.reaches[1]; !slices.Equal(rulesOf(got.Reasons), near) || got.Reasons[1].Got != 10 || got.Reasons[2].Got != 3 || got.Reasons[3].Got != 4 {
		t.Errorf("near by: %+v, want %v", got.Reasons, near)
	}

	bent := along(16, 1, onArc(3))
	bent.ConfluencesM = []float64{8}
	cfg.Features = Features{Exclusions: []orb.Polygon{{box(3.5, -10, 9, 10)}}}
	p := low(0.4)
	p.BedWidthM, p.TopWidthM = 7, 16
	ringed := func(x, y float64) bool { return math.Hypot(x, y) < 3.2 }
	v = judgeStations(bent, 1, cfg, ringed, Ground{PlaceAt: func(int) Place { return p }})
	places := []Rule{RuleBedWidth, RuleTopWidth, RuleBanks, RuleConfluence, RuleBend, RuleProperty, RuleExclusion}
	if got := rulesOf(v.reaches[0].Reasons); len(v.reaches) != 1 || !slices.Equal(got, places) {
		t.Errorf("of places: %v, want %v", got, places)
	}
	for _, r := range v.reaches[0].Reasons {
		if r.Text == "" || strings.HasSuffix(r.Text, ".") || strings.Contains(r.Text, "NaN") || strings.Contains(r.Text, "Inf") {
			t.Errorf("text %q", r.Text)
		}
	}
}

func TestReasonOfTheCommonestCause(t *testing.T) {
	odd := map[int]Place{}
	for i := 20; i <= 32; i++ {
		odd[i] = Place{Why: "the left bank is not seen"}
	}
	odd[20] = Place{Why: "the ground is too rough"}
	v := judgeStations(drawn(60, 1, ramp(0.06)), 1, Defaults(), nil, groundOf(odd))
	if r := v.reaches[1].Reasons[0]; r.Rule != RuleSection || r.Text != "No dam can be sized here: the left bank is not seen" {
		t.Errorf("reason %+v", r)
	}
}

func TestVerdictsAlways(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		d, cfg, ground := anySite(t)
		v := judgeStations(d, 1, cfg, westOf(rapid.Float64Range(0, 300).Draw(t, "line")), ground)
		checkCover(t, d, v)
		for k, r := range v.runs {
			stands := slices.Contains(v.stand[r.first:r.last+1], true)
			if reach := v.reaches[k]; reach.Eligible != stands || reach.Eligible && reach.LengthM() < 10 {
				t.Fatalf("reach %+v: a dam stands somewhere is %t", reach, stands)
			}
			for i := r.first; i <= r.last; i++ {
				if (v.off[i].Rule == "") != (v.stand[i] || !v.reaches[k].Eligible) {
					t.Fatalf("station %d of %+v: a dam stands is %t, kept off by %+v", i, v.reaches[k], v.stand[i], v.off[i])
				}
			}
		}
	})
}

// checkCover sees that every metre, and every station, lies in exactly one reach.
func checkCover(t *rapid.T, d *channel.Drainage, v verdicts) {
	endM, next := 0.0, 0
	for k, r := range v.reaches {
		if r.FromM != endM || r.ToM < r.FromM || v.runs[k].first != next || v.runs[k].last < next || r.Eligible != (len(r.Reasons) == 0) {
			t.Fatalf("reach %+v of stations %+v begins where the last ended at %g, station %d", r, v.runs[k], endM, next)
		}
		endM, next = r.ToM, v.runs[k].last+1
	}
	if endM != d.Profile.LengthM() || next != len(d.Profile.Stations) || len(v.runs) != len(v.reaches) {
		t.Fatalf("reaches end at %g m, station %d", endM, next)
	}
}

// anySite draws a drainage with an uneven line among features, and places good and bad.
func anySite(t *rapid.T) (*channel.Drainage, Config, Ground) {
	d, x, y := drawn(float64(rapid.IntRange(0, 90).Draw(t, "length")), 1, ramp(0.06)), 0.0, 0.0
	d.Into = rapid.IntRange(-1, 0).Draw(t, "into")
	d.ConfluencesM = rapid.SliceOfN(rapid.Float64Range(0, 90), 0, 2).Draw(t, "confluences")
	places := make([]Place, len(d.Profile.Stations))
	turn := 0.0
	for i := range d.Profile.Stations {
		turn += rapid.Float64Range(-0.3, 0.3).Draw(t, "turn")
		x, y = x+math.Cos(turn), y+math.Sin(turn)
		st := &d.Profile.Stations[i]
		st.X, st.Y = x, y
		st.Slope = rapid.SampledFrom([]float64{0.06, 0.06, 0.06, 0.06, 0.06, 0.06, 0.06, 0.06, 0.06, 0.01, 0.3, math.NaN()}).Draw(t, "slope")
		places[i] = rapid.SampledFrom([]Place{good(), good(), good(), low(0.5), {Why: "not seen"}}).Draw(t, "place")
	}
	if rapid.Bool().Draw(t, "calm") {
		evenSlope(d, 0.06)
	}
	cfg := Defaults()
	spot := func(name string) orb.Point { // in quarters of a metre, which stay exact when the map is moved
		return orb.Point{float64(rapid.IntRange(-80, 320).Draw(t, name)) / 4, float64(rapid.IntRange(-200, 200).Draw(t, name)) / 4}
	}
	a, b := spot("exclusion"), spot("road")
	cfg.Features = Features{
		Exclusions: []orb.Polygon{{box(a[0], a[1], a[0]+9, a[1]+9), box(a[0]+2, a[1]+2, a[0]+7, a[1]+7)}},
		Roads:      []orb.LineString{{b, spot("road")}}, Buildings: []orb.Geometry{spot("building")},
	}
	return d, cfg, Ground{PlaceAt: func(i int) Place { return places[i] }}
}

func TestVerdictsOfAMirroredAndShiftedMap(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		d, cfg, ground := anySite(t)
		lineM := rapid.Float64Range(0, 100).Draw(t, "line") + 0.123 // no station of a straight line lies on it
		move := func(p orb.Point) orb.Point { return orb.Point{4096 - p[0], p[1] + 8192} }
		want := judgeStations(d, 1, cfg, westOf(lineM), ground)

		far := *d
		far.Profile.Stations = slices.Clone(d.Profile.Stations)
		for i := range far.Profile.Stations {
			st := &far.Profile.Stations[i]
			p := move(orb.Point{st.X, st.Y})
			st.X, st.Y = p[0], p[1]
		}
		cfg.Features = moved(cfg.Features, move)
		got := judgeStations(&far, 1, cfg, func(x, _ float64) bool { return 4096-x <= lineM }, ground)
		if fmt.Sprint(got.stand) != fmt.Sprint(want.stand) || verdictsOf(got) != verdictsOf(want) {
			t.Fatalf("verdicts\n%s\nwant\n%s", verdictsOf(got), verdictsOf(want))
		}
	})
}

// moved moves every feature that a site was drawn with.
func moved(f Features, move func(orb.Point) orb.Point) Features {
	points := func(all []orb.Point) []orb.Point {
		out := make([]orb.Point, 0, len(all))
		for _, p := range all {
			out = append(out, move(p))
		}
		return out
	}
	var out Features
	for _, p := range f.Exclusions {
		out.Exclusions = append(out.Exclusions, orb.Polygon{points(p[0]), points(p[1])})
	}
	for _, r := range f.Roads {
		out.Roads = append(out.Roads, points(r))
	}
	for _, b := range f.Buildings {
		out.Buildings = append(out.Buildings, move(b.(orb.Point)))
	}
	return out
}

// verdictsOf prints reaches with ends and rules.
func verdictsOf(v verdicts) string {
	var s strings.Builder
	for _, r := range v.reaches {
		fmt.Fprintln(&s, r.FromM, r.ToM, r.Eligible, rulesOf(r.Reasons))
	}
	return s.String()
}
