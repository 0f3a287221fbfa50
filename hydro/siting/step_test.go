package siting

import (
	"math"
	"slices"
	"testing"
)

// headcut is a bed at 4 % with a rise of heightM within one metre above station 20.
func headcut(heightM float64) func(float64) float64 {
	return func(s float64) float64 { return 0.04*s + heightM*min(max(s-20, 0), 1) }
}

func TestNoDamHangsOnAHeadcut(t *testing.T) {
	type dam struct {
		stationM float64
		series   int
		caution  bool
	}
	tests := []struct {
		name    string
		heightM float64
		want    []dam
	}{
		// Sills at 0.6, 1.2, 1.8 on a plain 4 %: dams at 0, 15, 30, 45.
		{"none", 0, []dam{{0, 1, false}, {15, 1, false}, {30, 1, false}, {45, 1, false}}},
		// Face 0.8 to 1.24 from 20 to 21. Sill of the dam at 15 is 1.2, on the face at 20.909; grade
		// under the body there (0.44 + 0.08)/3 … 17 %: under 20 %, so the bed there is no step.
		{"under the slope limit", 0.40, []dam{{0, 1, false}, {15, 1, false}, {20.909, 1, false}, {35, 1, false}}},
		// Face 0.8 to 1.64. Meant for 20.476; under the body of 3.2 m 29 %. At 0.25 m steps down, the body's
		// upper end must lie less than (0.64 − 0.128)/0.80 = 0.64 m up the face: axis below 19.04, so
		// 20.476 − 1.5 = 18.976, bed 0.759. Sill 1.359 on the face again at 20.665 with a dam 1.7 m below:
		// up until the axis stands 3.2 + 2 m above the lip at 21: 20.665 + 5.75 = 26.415, a new series,
		// bed 1.8566. Its sill 2.4566 is the bed at 41.415.
		{"higher than a dam", 0.80, []dam{{0, 1, false}, {15, 1, false}, {18.976, 1, true}, {26.415, 2, true}, {41.415, 2, false}}},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			d := drawn(50, 1, headcut(tt.heightM))
			evenSlope(d, 0.06)
			cfg := Defaults()
			l := Lay(d, 1, cfg, nil, Ground{}, nil)
			var got []dam
			for _, s := range l.Sites {
				got = append(got, dam{s.StationM, s.Series, slices.Contains(rulesOf(s.Cautions), RuleStep)})
				if g := (bed{d.Profile.Stations}).grade(s.StationM, cfg.bodyM()); g > cfg.SlopeMax+1e-9 {
					t.Errorf("%s hangs on a bed of %.0f %%", s.ID, 100*g)
				}
			}
			same := func(a, b dam) bool {
				return math.Abs(a.stationM-b.stationM) < 0.001 && a.series == b.series && a.caution == b.caution
			}
			if !slices.EqualFunc(got, tt.want, same) {
				t.Errorf("dams %v, want %v", got, tt.want)
			}
		})
	}
}

func TestFirstDamStandsClearOfAStep(t *testing.T) {
	d := drawn(40, 1, func(s float64) float64 { return 0.04*s + 0.8*min(s, 1) })
	evenSlope(d, 0.06)
	l := Lay(d, 1, Defaults(), nil, Ground{}, nil)
	if len(l.Sites) == 0 || l.Sites[0].StationM < 1.5 || l.Sites[0].Series != 1 {
		t.Errorf("first dam %+v, want it above the lip at 1 m", l.Sites)
	}
}

func TestReachTooSteepUnderEveryBody(t *testing.T) {
	d := drawn(40, 1, ramp(0.3))
	evenSlope(d, 0.10)
	l := Lay(d, 1, Defaults(), nil, Ground{}, nil)
	if len(l.Sites) != 0 || !slices.Equal(rulesOf(l.Reaches[0].Notes), []Rule{RuleStep}) {
		t.Errorf("dams %v, notes %v", l.Sites, l.Reaches[0].Notes)
	}
}
