package siting

import (
	"math"
	"slices"
	"testing"
)

func TestEdits(t *testing.T) {
	d := drawn(100, 1, ramp(0.06))
	at(d, 40, 60, func(s *station) { s.CatchmentM2 = 90_000 }) // two reaches, 0–39.5 and 60.5–100
	plain := Lay(d, 1, oneHeight(0.6), nil, Ground{}, nil)
	stations := func(l Layout) (at []float64) {
		for _, s := range l.Sites {
			at = append(at, s.StationM)
		}
		return at
	}
	upper := func(l Layout) (at []float64) {
		return slices.DeleteFunc(stations(l), func(s float64) bool { return s < 50 })
	}
	tests := []struct {
		name  string
		edits []Edit
		check func(t *testing.T, l Layout)
	}{
		{"rejected", []Edit{{ID: "D07-02", Action: Reject, StationM: 10}}, func(t *testing.T, l Layout) {
			for _, s := range l.Sites {
				if math.Abs(s.StationM-10) < s.BodyDownM+s.BodyUpM {
					t.Errorf("%s at %g m lies on the rejected place", s.ID, s.StationM)
				}
			}
			if l.Chosen.BareM > plain.Chosen.BareM {
				t.Errorf("%.2f m left bare, %.2f before", l.Chosen.BareM, plain.Chosen.BareM)
			}
		}},
		{"moved", []Edit{{ID: "D07-02", Action: Move, StationM: 8.3}}, func(t *testing.T, l Layout) {
			i := slices.IndexFunc(l.Sites, func(s Site) bool { return s.StationM == 8.3 })
			if i < 0 || l.Sites[i].Edit != Move || !hasRule(l.Sites[i], RuleEdit) || math.Abs(l.Sites[i+1].StationM-18.3) > 1e-6 {
				t.Errorf("dams at %v", stations(l))
			}
		}},
		{"height", []Edit{{ID: "D07-02", Action: Fix, StationM: 10, HeightM: 0.35}}, func(t *testing.T, l Layout) {
			i := slices.IndexFunc(l.Sites, func(s Site) bool { return s.StationM == 10 })
			if i < 0 || l.Sites[i].EffectiveHeightM != 0.35 || l.Sites[i+1].StationM > 10+0.35/0.06+1e-6 {
				t.Errorf("dams %+v", l.Sites)
			}
		}},
		{"built where none may stand", []Edit{{Action: Built, StationM: 50.25, HeightM: 1.1}}, func(t *testing.T, l Layout) {
			i := slices.IndexFunc(l.Sites, func(s Site) bool { return s.StationM == 50.25 })
			if i < 0 || l.Sites[i].EffectiveHeightM != 1.1 || !hasRule(l.Sites[i], RuleEngineer) {
				t.Errorf("dams %+v", l.Sites)
			}
		}},
		{"two built side by side", []Edit{{Action: Built, StationM: 20, HeightM: 0.5}, {Action: Built, StationM: 21, HeightM: 0.6}}, func(t *testing.T, l Layout) {
			i := slices.IndexFunc(l.Sites, func(s Site) bool { return s.StationM == 21 })
			if i < 1 || l.Sites[i-1].StationM != 20 || !hasRule(l.Sites[i], RuleClose) {
				t.Errorf("dams %+v", l.Sites)
			}
		}},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			l := Lay(d, 1, oneHeight(0.6), nil, Ground{}, tt.edits)
			tt.check(t, l)
			if tt.edits[0].StationM < 30 && !slices.Equal(upper(l), upper(plain)) {
				t.Errorf("dams of the upper reach moved: %v, before %v", upper(l), upper(plain))
			}
		})
	}
}
