package siting

import (
	"math"
	"slices"
	"strings"
	"testing"

	"siltstep/hydro/channel"
)

// stepped is a bed at 4 % with a face of heightM within lengthM whose lip lies at lipM.
func stepped(lipM, heightM, lengthM float64) func(float64) float64 {
	return func(s float64) float64 {
		return 0.04*s + heightM*min(max(s-(lipM-lengthM), 0)/lengthM, 1)
	}
}

func TestLipBelow(t *testing.T) {
	// Looked for from 30 down to 20 on a bed at 4 %; the drop includes the 4 % of the face.
	dam := func(axisM, heightM float64) *stand {
		return &stand{option: option{axisM: axisM, bedM: stepped(28, 1, 1)(axisM), heightM: heightM}}
	}
	tests := []struct {
		name    string
		bedM    func(float64) float64
		beneath *stand
		want    lip
		ok      bool
	}{
		{"no step", ramp(0.04), nil, lip{}, false},
		{"1.25 m in 1 m", stepped(28, 1.25, 1), nil, lip{28, 1.29}, true},
		// 0.48 and 0.53 m in 2 m, with the 4 %.
		{"0.40 m in 1 m is roughness", stepped(28, 0.40, 1), nil, lip{}, false},
		{"0.45 m in 1 m, over 0.5 in 2 m", stepped(28, 0.45, 1), nil, lip{28, 0.53}, true},
		{"0.47 m in 1 m, 0.51 with the 4 %", stepped(28, 0.47, 1), nil, lip{28, 0.51}, true},
		{"0.6 m in 6 m is no steeper than 14 %", stepped(28, 0.6, 6), nil, lip{}, false},
		// 0.9 m in 5 m is 22 % with the 4 %.
		{"0.9 m in 5 m", stepped(28, 0.9, 5), nil, lip{28, 1.1}, true},
		{"lip at the end of the look", stepped(20, 1, 1), nil, lip{20, 1.04}, true},
		{"lip beyond it", stepped(19, 1, 1), nil, lip{}, false},
		{"on the face itself", stepped(31, 2, 2), nil, lip{30, 1.04}, true},
		// Lip 1.12 + 1; a dam at 20 has its bed at 0.80 and drowns it only from a sill of 2.12 on.
		{"dam beneath too low", stepped(28, 1, 1), dam(20, 1.31), lip{28, 1.04}, true},
		{"drowned", stepped(28, 1, 1), dam(20, 1.32), lip{}, false},
		{"step below the dam beneath", stepped(25, 1, 1), dam(26, 0.1), lip{}, false},
		// The dam at 27.5 stands half way up the face: 0.52 m are left above it.
		{"dam beneath on the face", stepped(28, 1, 1), dam(27.5, 0.1), lip{28, 0.52}, true},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			b := bed{drawn(40, 1, tt.bedM).Profile.Stations}
			l, ok := b.lipBelow(30, 10, 0.20, tt.beneath)
			if ok != tt.ok || math.Abs(l.stationM-tt.want.stationM) > 1e-9 || math.Abs(l.dropM-tt.want.dropM) > 1e-9 {
				t.Errorf("%+v, %t; want %+v, %t", l, ok, tt.want, tt.ok)
			}
		})
	}
}

// steepAround makes the stations whose 10 m window of slope sees the face a steep reach.
func steepAround(d *channel.Drainage, lipM float64) {
	evenSlope(d, 0.06)
	at(d, lipM-5, lipM+1, func(s *station) { s.Slope = 0.25 })
}

func TestDamsAboveAHeadcut(t *testing.T) {
	// A face of 1.25 m in 1 m with its lip at 27, hidden in a steep reach from 21.5 to 28.5. The first place that is 3.2 + 2 m above
	// the lip is station 33, its toe at 30.95, 3.95 m from the lip.
	d := drawn(60, 1, stepped(27, 1.25, 1))
	steepAround(d, 27)
	l := Lay(d, 1, oneHeight(0.6), nil, Ground{}, nil)
	i := slices.IndexFunc(l.Sites, func(s Site) bool { return s.StationM > 27 })
	if i < 1 {
		t.Fatalf("dams %+v", l.Sites)
	}
	s := l.Sites[i]
	k := slices.IndexFunc(s.Cautions, func(r Reason) bool { return r.Rule == RuleStep })
	if s.StationM != 33 || s.Series != l.Sites[i-1].Series+1 || k < 0 {
		t.Fatalf("dam above the lip %+v", s)
	}
	c := s.Cautions[k]
	if math.Abs(c.Got-1.29) > 1e-9 || !strings.Contains(c.Text, "drops 1.3 m") || !strings.Contains(c.Text, "lies 4.0 m below the toe") && !strings.Contains(c.Text, "lies 3.9 m below the toe") || !strings.Contains(c.Text, "treat the step first") {
		t.Errorf("caution %+v", c)
	}
	for _, up := range l.Sites[i+1:] {
		if hasRule(up, RuleStep) {
			t.Errorf("%s at %g m has a caution of a step that the dam below is nearer to", up.ID, up.StationM)
		}
	}
}

func TestDamsAboveADrownedHeadcut(t *testing.T) {
	// A face of 0.5 m with its lip at 27, 1.08 + 0.5 = 1.58. A dam of 0.9 m at 18, bed 0.72, has its sill
	// at 1.62 and drowns it; the next stands where the bed is 1.62, at 28.
	d := drawn(60, 1, stepped(27, 0.5, 1))
	evenSlope(d, 0.06)
	at(d, 0, 17, func(s *station) { s.CatchmentM2 = 100 })
	l := Lay(d, 1, oneHeight(0.9), nil, Ground{}, nil)
	if len(l.Sites) < 2 || l.Sites[0].StationM != 18 || math.Abs(l.Sites[1].StationM-28) > 1e-9 || hasRule(l.Sites[1], RuleStep) {
		t.Errorf("dams %+v", l.Sites)
	}
	if !slices.ContainsFunc(l.Sites[0].Cautions, func(r Reason) bool { return r.Rule == RuleStep && strings.Contains(r.Text, "drown") }) {
		t.Errorf("the lower dam does not tell of the step it drowns: %v", l.Sites[0].Cautions)
	}
}

func TestDamsLeftOutAmongLips(t *testing.T) {
	// Faces of 0.6 m in 0.5 m with lips at 5, 10, 15 …: what is 5.2 m above one lip is above the next. A
	// reach that begins at 12 holds no dam, and says so.
	d := drawn(60, 0.5, func(s float64) float64 {
		tread := math.Floor(s / 5)
		return 0.04*s + 0.6*tread + 0.6*max(s-5*tread-4.5, 0)/0.5
	})
	evenSlope(d, 0.15)
	at(d, 0, 11.5, func(s *station) { s.CatchmentM2 = 100 })
	l := Lay(d, 0.5, oneHeight(0.6), nil, Ground{}, nil)
	if len(l.Sites) != 0 || !slices.Equal(rulesOf(l.Reaches[1].Notes), []Rule{RuleStep}) || !strings.Contains(l.Reaches[1].Notes[0].Text, "step") {
		t.Errorf("dams %+v, notes %v", l.Sites, l.Reaches[1].Notes)
	}
}

func TestNoDamHangsOnAHeadcut(t *testing.T) {
	// A bed at 4 % with a rise within one metre above station 20.
	for _, heightM := range []float64{0, 0.4, 0.8} {
		d := drawn(50, 1, func(s float64) float64 { return 0.04*s + heightM*min(max(s-20, 0), 1) })
		evenSlope(d, 0.06)
		cfg := Defaults()
		l := Lay(d, 1, cfg, nil, Ground{}, nil)
		below, above := 0, 0
		for _, s := range l.Sites {
			if g := (bed{d.Profile.Stations}).grade(s.StationM, s.BodyUpM+s.BodyDownM); g > cfg.SlopeMax+1e-9 {
				t.Errorf("step of %g m: %s hangs on a bed of %.0f %%", heightM, s.ID, 100*g)
			}
			if s.StationM < 20 {
				below++
			} else {
				above++
			}
		}
		if below == 0 || above == 0 {
			t.Errorf("step of %g m: %d dams below and %d above", heightM, below, above)
		}
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
