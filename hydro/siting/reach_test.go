package siting

import (
	"math"
	"slices"
	"strings"
	"testing"

	"siltstep/hydro/channel"
)

type station = channel.Station

func TestReachesAndReasons(t *testing.T) {
	type reach struct {
		fromM, toM float64
		rules      []Rule
	}
	tests := []struct {
		name   string
		cellM  float64
		change func(d *channel.Drainage, cfg *Config)
		inside Area
		want   []reach
	}{
		{"all eligible", 1, func(*channel.Drainage, *Config) {}, nil, []reach{{0, 40, nil}}},
		{"joins another", 1, func(d *channel.Drainage, _ *Config) { d.Into = 0 }, nil,
			[]reach{{0, 0.5, []Rule{RuleConfluence}}, {0.5, 40, nil}}},
		{"steep middle", 1, func(d *channel.Drainage, _ *Config) {
			at(d, 20, 25, func(s *station) { s.Slope = 0.25 })
		}, nil, []reach{{0, 19.5, nil}, {19.5, 25.5, []Rule{RuleSlope}}, {25.5, 40, nil}}},
		{"flat beside steep: two reaches", 1, func(d *channel.Drainage, _ *Config) {
			at(d, 20, 25, func(s *station) { s.Slope = 0.25 })
			at(d, 26, 40, func(s *station) { s.Slope = 0.01 })
		}, nil, []reach{{0, 19.5, nil}, {19.5, 25.5, []Rule{RuleSlope}}, {25.5, 40, []Rule{RuleSlope}}}},
		{"slope unknown", 1, func(d *channel.Drainage, _ *Config) {
			at(d, 30, 40, func(s *station) { s.Slope = math.NaN() })
		}, nil, []reach{{0, 29.5, nil}, {29.5, 40, []Rule{RuleSlope}}}},
		{"two reasons at once", 1, func(d *channel.Drainage, _ *Config) {
			at(d, 30, 40, func(s *station) { s.Slope, s.CatchmentM2 = 0.01, 100 })
			at(d, 35, 40, func(s *station) { s.FillM = 0.4 })
		}, nil, []reach{{0, 29.5, nil}, {29.5, 34.5, []Rule{RuleSlope, RuleCatchment}},
			{34.5, 40, []Rule{RuleSlope, RuleCatchment, RuleWater}}}},
		{"pools too shallow to count", 1, func(d *channel.Drainage, _ *Config) {
			at(d, 0, 40, func(s *station) { s.FillM = 0.29 })
		}, nil, []reach{{0, 40, nil}}},
		// Two stations span 2 m, under a body of 3 m; three span 3 m.
		{"pool too short to count", 1, func(d *channel.Drainage, _ *Config) {
			at(d, 20, 21, func(s *station) { s.FillM = 0.9 })
		}, nil, []reach{{0, 40, nil}}},
		{"pool just long enough, with its shallow rim", 1, func(d *channel.Drainage, _ *Config) {
			at(d, 20, 22, func(s *station) { s.FillM = 0.06 })
			at(d, 21, 21, func(s *station) { s.FillM = 0.3 })
		}, nil, []reach{{0, 19.5, nil}, {19.5, 22.5, []Rule{RuleWater}}, {22.5, 40, nil}}},
		{"hole of one station", 1, func(d *channel.Drainage, _ *Config) {
			at(d, 20, 20, func(s *station) { s.FillM = 1 })
		}, nil, []reach{{0, 19.5, nil}, {19.5, 20.5, []Rule{RuleWater}}, {20.5, 40, nil}}},
		{"fill at the limit is ground", 1, func(d *channel.Drainage, _ *Config) {
			at(d, 0, 40, func(s *station) { s.FillM = channel.MaxFillM })
		}, nil, []reach{{0, 40, nil}}},
		// The body of the lowest dam, 0.3 m high, is 4.5·0.3 + 0.5 = 1.85 m long: 0.925 m to each side. At 20 it would cross the line
		// at 20.2, and no dam stands there, but silt may cover the ground as far as 20.
		{"property line", 1, func(*channel.Drainage, *Config) {}, westOf(20.2),
			[]reach{{0, 20.5, nil}, {20.5, 40, []Rule{RuleProperty}}}},
		{"line along the channel, 0.9 m off", 1, func(*channel.Drainage, *Config) {},
			func(_, y float64) bool { return y <= 0.9 }, []reach{{0, 40, []Rule{RuleProperty}}}},
		{"line along the channel, 1 m off", 1, func(*channel.Drainage, *Config) {},
			func(_, y float64) bool { return y <= 1 }, []reach{{0, 40, nil}}},
		{"line along the channel, 1 m off, body of 0.5 m", 1, func(_ *channel.Drainage, cfg *Config) { cfg.MinHeightM = 0.5 },
			func(_, y float64) bool { return y <= 1 }, []reach{{0, 40, []Rule{RuleProperty}}}},
		{"short piece", 1, func(d *channel.Drainage, _ *Config) {
			at(d, 9, 20, func(s *station) { s.CatchmentM2 = 90_000 })
		}, nil, []reach{{0, 8.5, []Rule{RuleShort}}, {8.5, 20.5, []Rule{RuleCatchment}}, {20.5, 40, nil}}},
		{"short on 4 m cells: under 20 m", 4, func(d *channel.Drainage, _ *Config) {
			at(d, 19, 21, func(s *station) { s.CatchmentM2 = 90_000 })
		}, nil, []reach{{0, 18.5, []Rule{RuleShort}}, {18.5, 21.5, []Rule{RuleCatchment}}, {21.5, 40, []Rule{RuleShort}}}},
		{"coarse cells", 6, func(*channel.Drainage, *Config) {}, nil, []reach{{0, 40, []Rule{RuleCoarse}}}},
		{"coarse cells allowed", 6, func(_ *channel.Drainage, cfg *Config) { cfg.AllowCoarse = true }, nil, []reach{{0, 40, nil}}},
		{"coarse cells at the limit", 5, func(*channel.Drainage, *Config) {}, nil, []reach{{0, 40, nil}}},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			d, cfg := drawn(40, 1, ramp(0.06)), Defaults()
			tt.change(d, &cfg)
			reaches := judgeStations(d, tt.cellM, cfg, tt.inside, Ground{}).reaches
			if len(reaches) != len(tt.want) {
				t.Fatalf("reaches %+v, want %+v", reaches, tt.want)
			}
			for i, w := range tt.want {
				r := reaches[i]
				if r.FromM != w.fromM || r.ToM != w.toM || r.Eligible != (w.rules == nil) || !slices.Equal(rulesOf(r.Reasons), w.rules) {
					t.Errorf("reach %d: %g to %g m, eligible %t, %v; want %+v", i, r.FromM, r.ToM, r.Eligible, rulesOf(r.Reasons), w)
				}
			}
		})
	}
}

func TestReasonKeepsWorstValueAndLimit(t *testing.T) {
	d, cfg := drawn(60, 1, ramp(0.06)), Defaults()
	at(d, 20, 30, func(s *station) { s.Slope = 0.2 + s.StationM/1000 })         // to 0.230 at 30
	at(d, 31, 40, func(s *station) { s.CatchmentM2 = 50_000 - 100*s.StationM }) // 46,900 at 31
	at(d, 41, 50, func(s *station) { s.FillM = s.StationM / 100 })              // to 0.50 at 50
	at(d, 51, 60, func(s *station) { s.CatchmentM2 = 6_000 - 100*s.StationM })  // 900 at 51, 0 at 60
	want := []struct {
		rule       Rule
		got, limit float64
		text       string
	}{
		// Dams of 0.6 m, 3.2 m long, would touch above 0.6/3.2 = 18.75 %.
		{RuleSlope, 0.230, 0.1875, "up to 23 %, and above 18.8 % dams of 0.6 m, each 3.2 m long, would touch"},
		{RuleCatchment, 46_900, 40_000, "up to 4.69 ha"},
		{RuleWater, 0.5, 0.05, "0.50 m deep"},
		{RuleCatchment, 0, 2_500, "down to 0.00 ha"},
	}
	reaches := judgeStations(d, 1, cfg, nil, Ground{}).reaches[1:]
	if len(reaches) != len(want) {
		t.Fatalf("reaches %+v", reaches)
	}
	for i, w := range want {
		r := reaches[i].Reasons[0]
		if r.Rule != w.rule || math.Abs(r.Got-w.got) > 1e-9 || math.Abs(r.Limit-w.limit) > 1e-12 || !strings.Contains(r.Text, w.text) {
			t.Errorf("reason %+v, want %+v", r, w)
		}
	}
}

func TestLayOfLittleOrNothing(t *testing.T) {
	if l := Lay(&channel.Drainage{ID: "D01", Into: -1}, 1, Defaults(), nil, Ground{}, nil); len(l.Reaches)+len(l.Sites) != 0 || l.TreatedM != 0 {
		t.Errorf("no station gives %+v", l)
	}
	d := drawn(0, 1, ramp(0.06))
	d.Profile.Stations[0].Slope = 0.06
	l := Lay(d, 1, Defaults(), westOf(10), Ground{}, nil)
	if len(l.Reaches) != 1 || l.Reaches[0].Eligible || len(l.Sites) != 0 {
		t.Errorf("one station gives %+v", l)
	}
	defer func() {
		if recover() == nil {
			t.Error("a cell size of zero is let through")
		}
	}()
	Lay(d, 0, Defaults(), nil, Ground{}, nil)
}
