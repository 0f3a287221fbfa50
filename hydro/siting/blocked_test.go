package siting

import (
	"math"
	"slices"
	"testing"

	"siltstep/hydro/channel"
)

func TestBlockedStationsAreNotEligible(t *testing.T) {
	// 6 % for 60 m, blocked from station 30 to 34. Axes stand 10 m apart from station 0.
	for name, tt := range map[string]struct {
		set  func(*channel.Station)
		rule Rule
	}{
		"cut":            {func(s *station) { s.Cut, s.NoBed, s.Slope = true, true, math.NaN() }, RuleCut},
		"stock pond":     {func(s *station) { s.StockPond, s.NoBed, s.Slope = true, true, math.NaN() }, RuleStockPond},
		"standing water": {func(s *station) { s.FillM, s.NoBed, s.Slope = 0.5, true, math.NaN() }, RuleWater},
		"what holds it":  {func(s *station) { s.NoBed, s.Slope = true, math.NaN() }, RuleWater},
	} {
		t.Run(name, func(t *testing.T) {
			d := drawn(60, 1, ramp(0.06))
			at(d, 30, 34, tt.set)
			l := Lay(d, 1, Defaults(), nil, Ground{}, nil)
			if len(l.Reaches) != 3 || !l.Reaches[0].Eligible || l.Reaches[1].Eligible || !l.Reaches[2].Eligible {
				t.Fatalf("reaches %+v, want the middle one left out", l.Reaches)
			}
			if r := l.Reaches[1]; r.FromM != 29.5 || r.ToM != 34.5 || !slices.Equal(rulesOf(r.Reasons), []Rule{tt.rule}) {
				t.Errorf("reach %+v, want 29.5 to 34.5 by %q alone", r, tt.rule)
			}
			third := l.Sites[2]
			if third.WedgeEndM != 29.5 || !slices.Contains(rulesOf(third.Cautions), tt.rule) {
				t.Errorf("dam at %g: wedge to %g, cautions %v; want it cut off at 29.5 by %q", third.StationM, third.WedgeEndM, rulesOf(third.Cautions), tt.rule)
			}
			for _, s := range l.Sites {
				if half := Defaults().bodyM() / 2; s.StationM+half > 30 && s.StationM-half < 34 {
					t.Errorf("a dam stands at %g, its body on what is blocked", s.StationM)
				}
			}
		})
	}
}
