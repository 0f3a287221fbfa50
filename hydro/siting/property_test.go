package siting

import (
	"math"
	"testing"
)

func TestBodyAtAPropertyLine(t *testing.T) {
	// Half the body of the lowest dam: (4.5·0.3 + 0.5)/2 = 0.925 m, of one of 0.5 m: 1.375 m. The line lies so far from station 20 as told.
	for _, tt := range []struct {
		minM, distM float64
		rule        Rule
	}{
		{0.3, 0.926, ""}, {0.3, 0.924, RuleProperty}, {0.5, 1.376, ""}, {0.5, 1.374, RuleProperty}, {0.3, 0.001, RuleProperty},
	} {
		for name, inside := range map[string]Area{
			"up":    westOf(20 + tt.distM),
			"down":  func(x, _ float64) bool { return x >= 20-tt.distM },
			"left":  func(x, y float64) bool { return y <= tt.distM || math.Abs(x-20) > 0.5 },
			"right": func(x, y float64) bool { return y >= -tt.distM || math.Abs(x-20) > 0.5 },
		} {
			cfg := Defaults()
			cfg.MinHeightM = tt.minM
			v := judgeStations(drawn(50, 1, ramp(0.06)), 1, cfg, inside, Ground{})
			if v.stand[20] != (tt.rule == "") || v.off[20].Rule != tt.rule {
				t.Errorf("%g m %s of a dam of %g m: stands is %t, off by %+v", tt.distM, name, tt.minM, v.stand[20], v.off[20])
			}
		}
		v := judgeStations(drawn(50, 1, ramp(0.06)), 1, Defaults(), westOf(19.999), Ground{})
		if r := v.reaches[1]; r.FromM != 19.5 || r.Eligible || r.Reasons[0].Text != "This piece lies outside the property" {
			t.Errorf("outside: %+v", r)
		}
	}
}

func TestDamsAtAPropertyLine(t *testing.T) {
	// 6 %: a dam of 0.3 m backs up 5 m. All of a dam, and the silt it holds, stays on this side of the line.
	for _, lineM := range []float64{60, 28.1, 24.1, 5.5} {
		for _, minM := range []float64{0.2, 0.3, 0.6} {
			cfg := Defaults()
			cfg.MinHeightM = minM
			l := Lay(drawn(50, 1, ramp(0.06)), 1, cfg, westOf(lineM), Ground{}, nil)
			if len(l.Sites) == 0 && lineM > 20 {
				t.Errorf("line at %g m, from %g m up: no dam", lineM, minM)
			}
			for _, s := range l.Sites {
				if half := cfg.body().LengthM(s.EffectiveHeightM) / 2; s.StationM+half > lineM+1e-9 || s.WedgeEndM > lineM+1e-9 {
					t.Errorf("line at %g m: %s of %g m at %g m backs up to %g m", lineM, s.ID, s.EffectiveHeightM, s.StationM, s.WedgeEndM)
				}
			}
		}
	}
}

func TestWedgeDoesNotLeapANeighboursStrip(t *testing.T) {
	// Land of another from 33 to 36: nothing of ours may back up over it, and another series stands beyond.
	strip := func(x, _ float64) bool { return x <= 33 || x >= 36 }
	l := Lay(drawn(80, 1, ramp(0.06)), 1, Defaults(), strip, Ground{}, nil)
	for _, s := range l.Sites {
		if s.StationM < 33 && s.WedgeEndM > 33 {
			t.Errorf("%s at %.1f m backs up to %.1f m", s.ID, s.StationM, s.WedgeEndM)
		}
	}
	if n := len(l.Sites); n == 0 || l.Sites[n-1].StationM < 36 || l.Sites[n-1].Series < 2 {
		t.Errorf("dams %+v, want a series above the strip", l.Sites)
	}
}
