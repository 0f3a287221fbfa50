package siting

import (
	"math"
	"slices"
	"testing"

	"siltstep/hydro/channel"
)

func TestBlockedStationsAreNotEligible(t *testing.T) {
	// 6 % for 60 m, blocked from station 30 to 34.
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
			v := judgeStations(d, 1, Defaults(), nil, Ground{})
			if len(v.reaches) != 3 || !v.reaches[0].Eligible || v.reaches[1].Eligible || !v.reaches[2].Eligible {
				t.Fatalf("reaches %+v, want the middle one left out", v.reaches)
			}
			if r := v.reaches[1]; r.FromM != 29.5 || r.ToM != 34.5 || !slices.Equal(rulesOf(r.Reasons), []Rule{tt.rule}) {
				t.Errorf("reach %+v, want 29.5 to 34.5 by %q alone", r, tt.rule)
			}
			cut := 0
			// A dam asked for at 25 would back up to 35.
			asked := []Edit{{Action: Fix, StationM: 25, HeightM: 0.6}}
			for _, s := range Lay(d, 1, Defaults(), nil, Ground{}, asked).Sites {
				if s.StationM < 30 && s.WedgeEndM > 29.5 {
					t.Errorf("the wedge of the dam at %g reaches %g", s.StationM, s.WedgeEndM)
				}
				if s.WedgeEndM == 29.5 && slices.Contains(rulesOf(s.Cautions), tt.rule) {
					cut++
				}
				half := Defaults().body().LengthM(s.EffectiveHeightM) / 2
				if s.StationM+half > 30 && s.StationM-half < 34 {
					t.Errorf("a dam stands at %g, its body on what is blocked", s.StationM)
				}
			}
			if cut != 1 {
				t.Errorf("%d dams have a wedge cut off at 29.5 and say so by %q, want that at 25", cut, tt.rule)
			}
		})
	}
}
