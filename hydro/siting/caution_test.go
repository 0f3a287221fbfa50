package siting

import (
	"math"
	"slices"
	"testing"

	"github.com/paulmach/orb"

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
		{"height over 0.6 m", 1, func(_ *channel.Drainage, cfg *Config) { cfg.HeightM, cfg.MinHeightM = 0.61, 0.61 }, []Rule{RuleHeight}},
		{"height over 0.9 m", 1, func(_ *channel.Drainage, cfg *Config) { cfg.HeightM, cfg.MinHeightM, cfg.Engineer = 0.91, 0.91, true }, []Rule{RuleEngineer, RuleHeight}},
		{"truncated", 1, func(d *channel.Drainage, _ *Config) {
			d.Truncated, d.TruncatedCells = true, 3
			at(d, 0, 10, func(s *station) { s.Truncated = true })
		}, []Rule{RuleTruncated}},
		{"truncated only further down", 1, func(d *channel.Drainage, _ *Config) {
			d.Truncated, d.TruncatedCells = true, 3
			at(d, 0, 9, func(s *station) { s.Truncated = true })
		}, nil},
		{"confluence 9.9 m above", 1, func(d *channel.Drainage, cfg *Config) { d.ConfluencesM, cfg.ConfluenceM = []float64{19.9}, 0 }, []Rule{RuleConfluence}},
		{"confluence 10.1 m above", 1, func(d *channel.Drainage, cfg *Config) { d.ConfluencesM, cfg.ConfluenceM = []float64{20.1}, 0 }, nil},
		{"fine cells at the limit", 2, func(*channel.Drainage, *Config) {}, nil},
		{"cells over 2 m", 2.1, func(*channel.Drainage, *Config) {}, []Rule{RuleCoarse}},
		{"water in the wedge", 1, func(d *channel.Drainage, _ *Config) {
			at(d, 17, 19, func(s *station) { s.FillM = 0.3 })
		}, []Rule{RuleWater}},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			d, cfg := drawn(60, 1, ramp(0.06)), oneHeight(0.6)
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
	// begins at 28.5; its first dam stands where its body, 2.05 m downstream of the axis, keeps clear of the water.
	d := drawn(60, 1, ramp(0.06))
	at(d, 25, 28, func(s *station) { s.FillM = 0.5 })
	l := Lay(d, 1, oneHeight(0.6), nil, Ground{}, nil)
	s := l.Sites[2]
	if math.Abs(s.StationM-20) > 1e-6 || s.WedgeEndM != 24.5 || !slices.Equal(rulesOf(s.Cautions), []Rule{RuleWater}) || s.Cautions[0].Got != 0.5 {
		t.Errorf("third dam %+v", s)
	}
	up := l.Sites[3]
	if up.StationM != 31 || up.Series != 2 || !hasRule(up, RuleBase) {
		t.Errorf("fourth dam %+v, want it at 31 m", up)
	}
	if want := 24.5 + 29.0; math.Abs(l.TreatedM-want) > 1e-6 {
		t.Errorf("treated %g m, want %g", l.TreatedM, want)
	}
}

func TestCautionsAtTheEnds(t *testing.T) {
	d := drawn(60, 1, ramp(0.06))
	if got := rulesOf(Lay(d, 1, oneHeight(0.6), nil, Ground{}, nil).Sites[0].Cautions); !slices.Equal(got, []Rule{RuleBase, RuleLowerEnd}) {
		t.Errorf("where flow leaves the data: %v", got)
	}
	d.Into = 0
	l := Lay(d, 1, oneHeight(0.6), nil, Ground{}, nil)
	if got := rulesOf(l.Sites[0].Cautions); l.Sites[0].StationM != 5 || l.Sites[0].Base != OnConfluence || !slices.Equal(got, []Rule{RuleConfluence}) {
		t.Errorf("5 m above a confluence: station %g m, on %s, %v", l.Sites[0].StationM, l.Sites[0].Base, got)
	}
}

func TestBaseLevels(t *testing.T) {
	// A ledge declared 3 m below the lowest dam, 2.05 m of body and 2 m more reach it; one at 5 m is too far.
	for _, tt := range []struct {
		ledgeM float64
		want   Base
	}{{-3, OnDeclared}, {-5, OnFooter}} {
		d, cfg := drawn(60, 1, ramp(0.06)), oneHeight(0.6)
		cfg.Features.BaseLevels = []orb.Geometry{orb.Point{tt.ledgeM, 0}}
		l := Lay(d, 1, cfg, nil, Ground{}, nil)
		if l.Sites[0].Base != tt.want || hasRule(l.Sites[0], RuleBase) != (tt.want == OnFooter) || l.Sites[1].Base != OnDam {
			t.Errorf("ledge at %g m: %+v", tt.ledgeM, l.Sites[:2])
		}
	}
}
