package siting

import (
	"math"
	"strings"
	"testing"

	"siltstep/hydro/checkdam"
)

func TestBodyAndSteepestSlope(t *testing.T) {
	// 4.5·h + 0.5 m; h/((1 − f)·body), or 20 %. Of several heights the highest bears the steepest bed.
	tests := []struct {
		heightM, ratio, bodyM, steepest float64
	}{
		{0.1, 0, 0.95, 0.1 / 0.95},
		{0.3, 0, 1.85, 0.3 / 1.85},
		{0.6, 0, 3.2, 0.1875},
		{0.9, 0, 4.55, 0.9 / 4.55},
		{1.2, 0, 5.9, 0.20}, // 20.3 %, with an engineer
		{0.3, 0.1, 1.85, 0.3 / (0.9 * 1.85)},
		{0.3, 0.5, 1.85, 0.20}, // 32 %
	}
	for _, tt := range tests {
		cfg := Defaults()
		cfg.HeightM, cfg.DepositRatio, cfg.Engineer = tt.heightM, tt.ratio, tt.heightM > RefusedHeightM
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
			cfg.HeightM, cfg.MinHeightM = heightM, heightM
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
	v := judgeStations(drawn(60, 1, ramp(0.25)), 1, cfg, nil, Ground{})
	if r := v.reaches[0].Reasons[0]; r.Limit != 0.20 || strings.Contains(r.Text, "touch") {
		t.Errorf("reason %+v", r)
	}
}

func TestBodyOfOtherKinds(t *testing.T) {
	// Gabions stand upright: 0.5 m of crest, and dams of 0.6 m would touch above 120 % only. Faces of 10:1 make 0.5 + 20·0.6 = 12.5 m, and
	// dams of 0.6 m touch above 4.8 %.
	cfg := Defaults()
	cfg.Kind = checkdam.Gabion
	if cfg.bodyM() != 0.5 || cfg.steepest() != cfg.SlopeMax {
		t.Errorf("gabions: %g m long, to %g", cfg.bodyM(), cfg.steepest())
	}
	cfg = Defaults()
	cfg.Body = checkdam.Body{CrestWidthM: 0.5, FaceUp: 10, FaceDown: 10}
	if math.Abs(cfg.bodyM()-12.5) > 1e-12 || math.Abs(cfg.steepest()-0.048) > 1e-12 {
		t.Errorf("faces of 10:1: %g m long, to %g", cfg.bodyM(), cfg.steepest())
	}
	for slope, eligible := range map[float64]bool{0.047: true, 0.049: false} {
		r := judgeStations(drawn(60, 1, ramp(slope)), 1, cfg, nil, Ground{}).reaches[0]
		if r.Eligible != eligible || !eligible && !strings.Contains(r.Reasons[0].Text, "dams of 0.6 m, each 12.5 m long, would touch") {
			t.Errorf("at %g: %+v", slope, r)
		}
	}
}

func TestDamsOfTwoReachesDoNotTouch(t *testing.T) {
	// Station 21 alone is too large in catchment; a dam of the reach above keeps a body away from those of the reach below.
	d := drawn(60, 1, ramp(0.06))
	at(d, 21, 21, func(s *station) { s.CatchmentM2 = 90_000 })
	l := Lay(d, 1, Defaults(), nil, Ground{}, nil)
	if len(l.Sites) < 4 || len(l.Reaches) != 3 {
		t.Fatalf("%d dams, reaches %+v", len(l.Sites), l.Reaches)
	}
	for i := range l.Sites[1:] {
		below, above := l.Sites[i], l.Sites[i+1]
		gapM := (Defaults().body().LengthM(below.EffectiveHeightM) + Defaults().body().LengthM(above.EffectiveHeightM)) / 2
		if above.StationM-below.StationM < gapM-1e-6 {
			t.Errorf("dams at %g and %g m touch", below.StationM, above.StationM)
		}
	}
}
