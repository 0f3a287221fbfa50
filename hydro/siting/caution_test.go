package siting

import (
	"math"
	"slices"
	"testing"

	"siltstep/hydro/channel"
)

func TestCautions(t *testing.T) {
	// The second dam of a series at 6 %, at station 10, with everything else at its best.
	tests := []struct {
		name   string
		cellM  float64
		change func(d *channel.Drainage, cfg *Config)
		want   []Rule
	}{
		{"none", 1, func(*channel.Drainage, *Config) {}, nil},
		{"catchment over 2 ha", 1, func(d *channel.Drainage, _ *Config) {
			at(d, 0, 60, func(s *station) { s.CatchmentM2 = 20_001 })
		}, []Rule{RuleCatchment}},
		{"catchment over 4 ha, allowed", 1, func(d *channel.Drainage, cfg *Config) {
			cfg.CatchmentMaxM2 = 100_000
			at(d, 0, 60, func(s *station) { s.CatchmentM2 = 40_001 })
		}, []Rule{RuleEngineer, RuleCatchment}},
		{"slope over 8 %", 1, func(d *channel.Drainage, _ *Config) { evenSlope(d, 0.081) }, []Rule{RuleSlope}},
		{"height over 0.6 m", 1, func(_ *channel.Drainage, cfg *Config) { cfg.HeightM = 0.61 }, []Rule{RuleHeight}},
		{"height over 0.9 m", 1, func(_ *channel.Drainage, cfg *Config) { cfg.HeightM, cfg.Engineer = 0.91, true }, []Rule{RuleEngineer, RuleHeight}},
		{"truncated", 1, func(d *channel.Drainage, _ *Config) {
			d.Truncated, d.TruncatedCells = true, 3
			at(d, 0, 10, func(s *station) { s.Truncated = true })
		}, []Rule{RuleTruncated}},
		{"truncated only further down", 1, func(d *channel.Drainage, _ *Config) {
			d.Truncated, d.TruncatedCells = true, 3
			at(d, 0, 9, func(s *station) { s.Truncated = true })
		}, nil},
		{"confluence 9.9 m above", 1, func(d *channel.Drainage, _ *Config) { d.ConfluencesM = []float64{19.9} }, []Rule{RuleConfluence}},
		{"confluence 10.1 m above", 1, func(d *channel.Drainage, _ *Config) { d.ConfluencesM = []float64{20.1} }, nil},
		{"fine cells at the limit", 2, func(*channel.Drainage, *Config) {}, nil},
		{"cells over 2 m", 2.1, func(*channel.Drainage, *Config) {}, []Rule{RuleCoarse}},
		{"water in the wedge", 1, func(d *channel.Drainage, _ *Config) {
			at(d, 17, 19, func(s *station) { s.FillM = 0.3 })
		}, []Rule{RuleWater}},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			d, cfg := drawn(60, 1, ramp(0.06)), Defaults()
			tt.change(d, &cfg)
			l := Lay(d, tt.cellM, cfg, nil, Ground{}, nil)
			if got := rulesOf(l.Sites[1].Cautions); !slices.Equal(got, tt.want) {
				t.Errorf("cautions %v, want %v", got, tt.want)
			}
		})
	}
}

func TestWedgeIsCutOffAtStandingWater(t *testing.T) {
	// Water from 24.5 to 28.5: the dam at 20 would hold to 30 and is cut off at 24.5. The next reach
	// begins at 28.5, its first dam at 29.6, half a body clear of the water and inside what was cut
	// off: 24.5 m and, from 29.6 to the end of the wedge of 49.6 at 59.6, 30 m are treated.
	d := drawn(60, 1, ramp(0.06))
	at(d, 25, 28, func(s *station) { s.FillM = 0.5 })
	l := Lay(d, 1, Defaults(), nil, Ground{}, nil)
	s := l.Sites[2]
	if s.StationM < 19.999 || s.WedgeEndM != 24.5 || !slices.Equal(rulesOf(s.Cautions), []Rule{RuleWater}) || s.Cautions[0].Got != 0.5 {
		t.Errorf("third dam %+v", s)
	}
	if math.Abs(l.Sites[3].StationM-29.6) > 1e-9 || l.Sites[3].Series != 2 {
		t.Errorf("fourth dam %+v", l.Sites[3])
	}
	if want := 24.5 + 30.0; math.Abs(l.TreatedM-want) > 1e-9 {
		t.Errorf("treated %g m, want %g", l.TreatedM, want)
	}
}

func TestCautionsAtTheEnds(t *testing.T) {
	d := drawn(60, 1, ramp(0.06))
	if got := rulesOf(Lay(d, 1, Defaults(), nil, Ground{}, nil).Sites[0].Cautions); !slices.Equal(got, []Rule{RuleLowerEnd}) {
		t.Errorf("where flow leaves the data: %v", got)
	}
	d.Into = 0
	l := Lay(d, 1, Defaults(), nil, Ground{}, nil)
	if got := rulesOf(l.Sites[0].Cautions); l.Sites[0].StationM != 1 || !slices.Equal(got, []Rule{RuleConfluence}) {
		t.Errorf("1 m above a confluence: station %g m, %v", l.Sites[0].StationM, got)
	}
}

func TestCautionWhereDamsTouch(t *testing.T) {
	// Bodies of 0.6 m are 3.2 m long. On 18 % dams stand 3.33 m apart; on a rough bed that rises 19.5 %
	// where the slope over a longer window is 18 %, 3.08 m.
	for _, tt := range []struct {
		name  string
		slope float64
		close bool
	}{{"3.33 m apart", 0.18, false}, {"3.08 m apart", 0.195, true}} {
		d := drawn(60, 1, ramp(tt.slope))
		evenSlope(d, 0.18)
		if got := rulesOf(Lay(d, 1, Defaults(), nil, Ground{}, nil).Sites[1].Cautions); slices.Contains(got, RuleClose) != tt.close {
			t.Errorf("%s: %v", tt.name, got)
		}
	}
}
