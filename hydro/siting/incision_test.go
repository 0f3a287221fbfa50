package siting

import (
	"math"
	"slices"
	"strings"
	"testing"

	"siltstep/hydro/channel"
)

// cutBy returns ground whose incision is told by station.
func cutBy(d *channel.Drainage, incisionM func(s float64) float64) Ground {
	var g Ground
	for _, s := range d.Profile.Stations {
		g.IncisionM = append(g.IncisionM, incisionM(s.StationM))
	}
	return g
}

// between is inner from fromM to toM, and outer elsewhere.
func between(fromM, toM, inner, outer float64) func(float64) float64 {
	return func(s float64) float64 {
		if s >= fromM && s <= toM {
			return inner
		}
		return outer
	}
}

func TestIncisionOfReaches(t *testing.T) {
	nan := math.NaN()
	type reach struct {
		fromM, toM float64
		rules      []Rule
	}
	shallow := []Rule{RuleIncision}
	tests := []struct {
		name      string
		cellM     float64
		incisionM func(s float64) float64
		change    func(d *channel.Drainage, cfg *Config)
		want      []reach
	}{
		{"deep all along", 1, between(0, 60, 0.5, 0), nil, []reach{{0, 60, nil}}},
		{"just deep enough", 1, between(0, 60, 0.3, 0), nil, []reach{{0, 60, nil}}},
		{"shallow all along", 1, between(0, 60, 0.29, 0), nil, []reach{{0, 60, shallow}}},
		{"not known", 1, between(0, 60, nan, 0), nil, []reach{{0, 60, shallow}}},
		// The window is 10 m, 11 stations: one station of 0 among 0.33 gives 10·0.33/11 = 0.3; two give 0.27.
		{"one odd station", 1, between(30, 30, 0, 0.331), nil, []reach{{0, 60, nil}}},
		{"two odd stations", 1, between(30, 31, 0, 0.331), nil, []reach{{0, 25.5, nil}, {25.5, 35.5, shallow}, {35.5, 60, nil}}},
		// Unknown stations leave the rest of the window to tell: only at 30 is it 25 to 35, all unknown.
		{"unknown in between", 1, between(25, 35, nan, 0.5), nil, []reach{{0, 29.5, nil}, {29.5, 30.5, shallow}, {30.5, 60, nil}}},
		// Incised by 0.66 m to 20: the window of station s holds 26 − s of 11 stations that are: 0.3 m at 21 (5/11·0.66).
		{"ends where the cut ends", 1, between(0, 20, 0.66, 0), nil, []reach{{0, 21.5, nil}, {21.5, 60, shallow}}},
		// 5 cells of 4 m: the window of 20 m holds 21 stations and the shortest reach is 20 m. Two odd stations leave 19/21·0.331 = 0.2995 m,
		// one leaves 0.315.
		{"cells of 4 m", 4, between(30, 30, 0, 0.331), nil, []reach{{0, 60, nil}}},
		{"rule off", 1, between(0, 60, 0, 0), func(_ *channel.Drainage, cfg *Config) { cfg.MinIncisionM = 0 }, []reach{{0, 60, nil}}},
		{"rule off, not known", 1, between(0, 60, nan, 0), func(_ *channel.Drainage, cfg *Config) { cfg.MinIncisionM = 0 }, []reach{{0, 60, nil}}},
		// A culvert cut from 28 to 32 has no bed: it is no reason of its own there, and no window reaches over it.
		{"beside a cut", 1, between(0, 30, 0.5, 0), func(d *channel.Drainage, _ *Config) {
			at(d, 28, 32, func(s *station) { s.Cut, s.NoBed, s.Slope = true, true, nan })
		}, []reach{{0, 27.5, nil}, {27.5, 32.5, []Rule{RuleCut}}, {32.5, 60, shallow}}},
		{"beside the slope", 1, between(0, 60, 0.1, 0), func(d *channel.Drainage, _ *Config) {
			at(d, 40, 60, func(s *station) { s.Slope = 0.01 })
		}, []reach{{0, 39.5, shallow}, {39.5, 60, []Rule{RuleSlope, RuleIncision}}}},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			d, cfg := drawn(60, 1, ramp(0.06)), Defaults()
			if tt.change != nil {
				tt.change(d, &cfg)
			}
			v := judgeStations(d, tt.cellM, cfg, nil, cutBy(d, tt.incisionM))
			var got []reach
			for _, r := range v.reaches {
				got = append(got, reach{r.FromM, r.ToM, rulesOf(r.Reasons)})
			}
			same := func(a, b reach) bool {
				return a.fromM == b.fromM && a.toM == b.toM && slices.Equal(a.rules, b.rules)
			}
			if !slices.EqualFunc(got, tt.want, same) {
				t.Errorf("reaches %v, want %v", got, tt.want)
			}
		})
	}
}

func TestReasonOfIncision(t *testing.T) {
	d := drawn(60, 1, ramp(0.06))
	// 0.2 m at the lower end, rising by 1 mm a metre: the first window, 0 to 10 m, has a mean of 0.205 m.
	r := judgeStations(d, 1, Defaults(), nil, cutBy(d, func(s float64) float64 { return 0.2 + s/1000 })).reaches[0].Reasons[0]
	if r.Rule != RuleIncision || math.Abs(r.Got-0.205) > 1e-9 || r.Limit != 0.3 ||
		!strings.Contains(r.Text, "cut only 0.20 m into the land") && !strings.Contains(r.Text, "cut only 0.21 m into the land") {
		t.Errorf("reason %+v", r)
	}
	r = judgeStations(d, 1, Defaults(), nil, cutBy(d, func(float64) float64 { return math.NaN() })).reaches[0].Reasons[0]
	if r.Rule != RuleIncision || !math.IsNaN(r.Got) || r.Limit != 0.3 || !strings.Contains(r.Text, "cannot be told") {
		t.Errorf("reason %+v", r)
	}
}

func TestGroundOfAnotherDrainagePanics(t *testing.T) {
	defer func() {
		if recover() == nil {
			t.Error("incision of another number of stations is let through")
		}
	}()
	judgeStations(drawn(60, 1, ramp(0.06)), 1, Defaults(), nil, Ground{IncisionM: make([]float64, 3)})
}
