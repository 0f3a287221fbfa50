package siting

import (
	"math"
	"slices"
	"testing"
)

func TestDamsAtAPropertyLine(t *testing.T) {
	type dam struct{ stationM, heightM, wedgeM float64 }
	tests := []struct {
		name    string
		lineM   float64
		minM    float64
		want    []dam
		dropped bool
	}{
		// 6 %, 0.6 m: dams at 0, 10, 20 with wedges to 10, 20, 30. The body needs 1.5 m.
		{"line far off", 60, 0.3, []dam{{0, 0.6, 10}, {10, 0.6, 20}, {20, 0.6, 30}, {30, 0.6, 40}, {40, 0.6, 50}}, false},
		// Dam at 20 may back up to 28: 0.06·8 = 0.48 m. Then no dam: 28 and all above lie within 1.5 m
		// or back up over the line.
		{"lowered", 28.1, 0.3, []dam{{0, 0.6, 10}, {10, 0.6, 20}, {20, 0.48, 28}}, false},
		// To 24: 0.24 m is under 0.3, so the dam at 20 is dropped, and 21, 22 (less room still) too.
		{"dropped", 24.1, 0.3, []dam{{0, 0.6, 10}, {10, 0.6, 20}}, true},
		{"lower allowed", 24.1, 0.2, []dam{{0, 0.6, 10}, {10, 0.6, 20}, {20, 0.24, 24}}, false},
		{"never lowered", 28.1, 0.6, []dam{{0, 0.6, 10}, {10, 0.6, 20}}, true},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			cfg := Defaults()
			cfg.MinHeightM = tt.minM
			d := drawn(50, 1, ramp(0.06))
			l := Lay(d, 1, cfg, westOf(tt.lineM), Ground{}, nil)
			var got []dam
			for _, s := range l.Sites {
				got = append(got, dam{s.StationM, s.EffectiveHeightM, s.WedgeEndM})
				lowered := s.EffectiveHeightM < cfg.HeightM
				if slices.Contains(rulesOf(s.Cautions), RuleProperty) != lowered {
					t.Errorf("%s: cautions %v at height %g m", s.ID, rulesOf(s.Cautions), s.EffectiveHeightM)
				}
			}
			// 0.25 m of wedge, and the 0.015 m of height that goes with it: the step along the line.
			same := func(a, b dam) bool {
				return math.Abs(a.stationM-b.stationM) < 1e-6 && math.Abs(a.heightM-b.heightM) < 0.015 &&
					math.Abs(a.wedgeM-b.wedgeM) < 0.25 && a.wedgeM <= tt.lineM
			}
			if !slices.EqualFunc(got, tt.want, same) {
				t.Errorf("dams %v, want %v", got, tt.want)
			}
			noted := slices.ContainsFunc(l.Reaches[0].Notes, func(r Reason) bool { return math.IsNaN(r.Got) && r.Rule == RuleProperty })
			if tt.dropped && !noted {
				t.Errorf("notes %v do not tell of a dropped dam", l.Reaches[0].Notes)
			}
		})
	}
}

func TestWedgeDoesNotLeapANeighboursStrip(t *testing.T) {
	// Land of another from 33 to 36: nothing of ours may back up over it, and a new series begins beyond.
	strip := func(x, _ float64) bool { return x <= 33 || x >= 36 }
	l := Lay(drawn(80, 1, ramp(0.06)), 1, Defaults(), strip, Ground{}, nil)
	for _, s := range l.Sites {
		if s.StationM < 33 && s.WedgeEndM > 33 {
			t.Errorf("%s at %.1f m backs up to %.1f m", s.ID, s.StationM, s.WedgeEndM)
		}
	}
	if l.Sites[len(l.Sites)-1].Series != 2 {
		t.Errorf("no second series above the strip: %+v", l.Sites)
	}
}

func TestNarrowStripBetweenStations(t *testing.T) {
	// A strip of 0.5 m inside one 10 m step of stations is seen by the walk of the wedge.
	strip := func(x, _ float64) bool { return x < 24.6 || x > 25.1 }
	l := Lay(drawn(80, 10, ramp(0.06)), 1, Defaults(), strip, Ground{}, nil)
	for _, s := range l.Sites {
		if s.StationM < 24.6 && s.WedgeEndM > 24.6 {
			t.Errorf("%s at %.1f m backs up to %.1f m", s.ID, s.StationM, s.WedgeEndM)
		}
	}
	if n := len(l.Sites); n == 0 || l.Sites[n-1].StationM < 30 || l.Sites[n-1].Series != 2 {
		t.Errorf("dams %+v, want a second series above the strip", l.Sites)
	}
}
