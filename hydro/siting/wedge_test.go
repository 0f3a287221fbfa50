package siting

import (
	"math"
	"testing"
)

func TestTreatedLength(t *testing.T) {
	at := func(axisM, endM float64) stand { return stand{option: option{axisM: axisM, endM: endM}, series: 1} }
	tests := []struct {
		name  string
		dams  []stand
		wantM float64
	}{
		{"none", nil, 0},
		{"one", []stand{at(10, 20)}, 10},
		{"toe to crest", []stand{at(0, 10), at(10, 20), at(20, 30)}, 30},
		{"a gap of 5 m left out", []stand{at(0, 10), at(15, 25)}, 20},
		{"an overlap of 4 m counted once", []stand{at(0, 10), at(6, 16)}, 16},
		{"one inside another", []stand{at(0, 30), at(5, 10), at(28, 35)}, 35},
		{"a gap and an overlap", []stand{at(0, 12), at(8, 20), at(25, 30), at(30, 41)}, 36},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			if got := append(treatedM(tt.dams), 0)[0]; math.Abs(got-tt.wantM) > 1e-12 {
				t.Errorf("%g m, want %g", got, tt.wantM)
			}
		})
	}
}

func TestWedgeRunsBeyondItsReachOnly(t *testing.T) {
	// Eligible to 25.5: dams at 0, 10, 20; the last wedge runs on to 30 over ground too large in catchment. The upper reach starts at
	// 27.5, inside that wedge: 30, 40, and 50, whose wedge is cut off at 60.
	d := drawn(60, 1, ramp(0.06))
	at(d, 26, 27, func(s *station) { s.CatchmentM2 = 90_000 })
	l := Lay(d, 1, oneHeight(0.6), nil, Ground{}, nil)
	if got := l.Sites[2].WedgeEndM; math.Abs(got-30) > 1e-9 {
		t.Errorf("third wedge ends at %.3f m, want 30", got)
	}
	if len(l.Sites) != 6 || math.Abs(l.TreatedM-60) > 1e-9 || l.Sites[5].Series != 1 {
		t.Errorf("%d dams, treated %.3f m; want 6 and 60: %+v", len(l.Sites), l.TreatedM, l.Sites)
	}
}
