package siting

import (
	"math"
	"strings"
	"testing"
)

func TestBodyAndSteepestSlope(t *testing.T) {
	// 4.5·h + 0.5 m; h/((1 − f)·body), or 20 %.
	tests := []struct {
		heightM, ratio, bodyM, steepest float64
	}{
		{0.1, 0, 0.95, 0.1 / 0.95},
		{0.3, 0, 1.85, 0.3 / 1.85},
		{0.6, 0, 3.2, 0.1875},
		{0.9, 0, 4.55, 0.9 / 4.55},
		{1.2, 0, 5.9, 0.20}, // 20.3 %
		{0.3, 0.1, 1.85, 0.3 / (0.9 * 1.85)},
		{0.3, 0.5, 1.85, 0.20}, // 32 %
	}
	for _, tt := range tests {
		cfg := Defaults()
		cfg.HeightM, cfg.DepositRatio = tt.heightM, tt.ratio
		if got := cfg.bodyM(); math.Abs(got-tt.bodyM) > 1e-12 {
			t.Errorf("%g m: body %g m, want %g", tt.heightM, got, tt.bodyM)
		}
		if got := cfg.steepest(); math.Abs(got-tt.steepest) > 1e-12 {
			t.Errorf("%g m, ratio %g: steepest %g, want %g", tt.heightM, tt.ratio, got, tt.steepest)
		}
	}
}

func TestDamsOnEvenSlopesNeverTouch(t *testing.T) {
	sited, refused := 0, 0
	for heightM := 0.1; heightM < 0.95; heightM += 0.1 {
		for slope := 0.03; slope < 0.2; slope += 0.01 {
			cfg := Defaults()
			cfg.HeightM = heightM
			l := Lay(drawn(60, 1, ramp(slope)), 1, cfg, nil, Ground{}, nil)
			if len(l.Sites) == 0 {
				refused++
				if r := l.Reaches[0].Reasons; len(r) != 1 || r[0].Rule != RuleSlope || !strings.Contains(r[0].Text, "would touch: a rock chute or a lower grade is needed") {
					t.Errorf("%.1f m at %.0f %%: %v", heightM, 100*slope, r)
				}
				// Toe to crest they would stand nearer than a body.
				if heightM/slope > 4.5*heightM+0.5+1e-6 {
					t.Errorf("%.1f m at %.0f %%: refused with %.2f m from dam to dam", heightM, 100*slope, heightM/slope)
				}
			}
			for _, s := range l.Sites[min(1, len(l.Sites)):] {
				sited++
				if s.SpacingDownM < 4.5*heightM+0.5-1e-6 {
					t.Errorf("%.1f m at %.0f %%: %s is %.2f m above the dam below", heightM, 100*slope, s.ID, s.SpacingDownM)
				}
			}
		}
	}
	if sited < 100 || refused < 10 {
		t.Errorf("%d pairs, %d beds refused: too few to tell", sited, refused)
	}
}

func TestTooSteepForAnyDam(t *testing.T) {
	// Under a deposit slope dams stand further apart, and only the greatest slope counts.
	cfg := Defaults()
	cfg.DepositRatio = 0.5
	l := Lay(drawn(60, 1, ramp(0.25)), 1, cfg, nil, Ground{}, nil)
	if r := l.Reaches[0].Reasons[0]; r.Limit != 0.20 || strings.Contains(r.Text, "touch") {
		t.Errorf("reason %+v", r)
	}
}

func TestDamsOfTwoReachesDoNotTouch(t *testing.T) {
	// Dams at 0, 10, 20 …; station 21 alone is too large in catchment. The reach above begins at 22, the
	// first dam a body above the one at 20.
	d := drawn(60, 1, ramp(0.06))
	at(d, 21, 21, func(s *station) { s.CatchmentM2 = 90_000 })
	l := Lay(d, 1, Defaults(), nil, Ground{}, nil)
	if s := l.Sites[3]; math.Abs(s.StationM-23.2) > 1e-9 || s.Series != 2 {
		t.Errorf("fourth dam %+v", s)
	}
}
