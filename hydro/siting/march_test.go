package siting

import (
	"math"
	"slices"
	"testing"
)

func TestSpacingOnEvenSlope(t *testing.T) {
	const ft = 0.3048
	tests := []struct {
		name                 string
		slope, heightM, f    float64
		lengthM, wantM, tolM float64
	}{
		// Dam 2 ft: 100, 50, 40, 25 ft, an Indiana erosion manual read in a copy; height over slope.
		{"2 ft at 2 %", 0.02, 2 * ft, 0, 400, 100 * ft, 1e-6},
		{"2 ft at 4 %", 0.04, 2 * ft, 0, 400, 50 * ft, 1e-6},
		{"2 ft at 5 %", 0.05, 2 * ft, 0, 400, 40 * ft, 1e-6},
		{"2 ft at 8 %", 0.08, 2 * ft, 0, 400, 25 * ft, 1e-6},
		// 0.6/(0.06·(1 − f)): 10, 20, 33.333 m.
		{"0.6 m at 6 %, level", 0.06, 0.6, 0, 400, 10, 1e-6},
		{"0.6 m at 6 %, half", 0.06, 0.6, 0.5, 400, 20, 1e-6},
		{"0.6 m at 6 %, 0.7", 0.06, 0.6, 0.7, 400, 100.0 / 3, 1e-6},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			cfg := Defaults()
			cfg.HeightM, cfg.DepositRatio = tt.heightM, tt.f
			d := drawn(tt.lengthM, 1, ramp(tt.slope))
			evenSlope(d, tt.slope) // central differences of 2 % may round to just below it
			l := Lay(d, 1, cfg, nil, Ground{}, nil)
			if want := int((tt.lengthM-bodyLengthM(tt.heightM)/2)/tt.wantM) + 1; len(l.Sites) != want {
				t.Fatalf("%d dams, want %d", len(l.Sites), want)
			}
			for i, s := range l.Sites[1:] {
				if math.Abs(s.SpacingDownM-tt.wantM) > tt.tolM {
					t.Errorf("dam %d: spacing %.9f m, want %.9f", i+2, s.SpacingDownM, tt.wantM)
				}
				if want := tt.slope * tt.wantM; math.Abs(s.RiseM-want) > 1e-6 {
					t.Errorf("dam %d: rise %.9f m, want %.9f", i+2, s.RiseM, want)
				}
			}
		})
	}
}

func TestMarchOnDrawnBeds(t *testing.T) {
	tests := []struct {
		name    string
		lengthM float64
		bedM    func(float64) float64
		slope   float64   // of every station
		wantM   []float64 // stations of the dams
		endRule Rule
	}{
		// Bed s²/400: the next dam stands where s² = sᵢ² + 240: 0, √240, √480, √720; stations at
		// whole metres cut the corners of the parabola by less than 1/1600 m of height.
		{"concave up", 31, func(s float64) float64 { return s * s / 400 }, 0.05,
			[]float64{0, 15.492, 21.909, 26.833}, RuleReachEnd},
		{"flat", 50, func(float64) float64 { return 7 }, 0.05, []float64{0}, RuleWedge},
		{"falls upstream", 50, func(s float64) float64 { return 7 - 0.05*s }, 0.05, []float64{0}, RuleWedge},
		// A tread of 10 m at 2 %, a riser of 0.2 m in 1 m at 20 %, and so on: 0.4 m each 11 m. From 0
		// the bed is 0.6 at 20.5 … 11·1 + x: 0.4 + 0.02x = 0.6 at x = 10, so 21; then 1.2 = 3·0.4 at 33.
		{"gentle steps", 55, func(s float64) float64 {
			tread := math.Floor(s / 11)
			in := s - 11*tread
			return 0.4*tread + 0.02*min(in, 10) + 0.2*max(in-10, 0)
		}, 0.036, []float64{0, 21, 33}, RuleReachEnd},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			d := drawn(tt.lengthM, 1, tt.bedM)
			evenSlope(d, tt.slope)
			l := Lay(d, 1, Defaults(), nil, Ground{}, nil)
			var got []float64
			for _, s := range l.Sites {
				got = append(got, s.StationM)
			}
			near := func(a, b float64) bool { return math.Abs(a-b) < 0.02 } // m: the cut corners
			if !slices.EqualFunc(got, tt.wantM, near) {
				t.Errorf("dams at %v, want %v", got, tt.wantM)
			}
			if notes := l.Reaches[0].Notes; len(notes) != 1 || notes[0].Rule != tt.endRule {
				t.Errorf("notes %v, want one of rule %s", notes, tt.endRule)
			}
		})
	}
}

func TestNumberingOverTwoReaches(t *testing.T) {
	d := drawn(100, 1, ramp(0.06))
	at(d, 30, 60, func(s *station) { s.CatchmentM2 = 50_000 })
	l := Lay(d, 1, Defaults(), nil, Ground{}, nil)
	// Reaches 0–29.5 and 60.5–100: dams at 0, 10, 20, then from station 61 at 61, 71, 81, 91.
	want := []struct {
		id       string
		series   int
		stationM float64
	}{
		{"D07-01", 1, 0}, {"D07-02", 1, 10}, {"D07-03", 1, 20},
		{"D07-04", 2, 61}, {"D07-05", 2, 71}, {"D07-06", 2, 81}, {"D07-07", 2, 91},
	}
	if len(l.Sites) != len(want) {
		t.Fatalf("%d dams, want %d", len(l.Sites), len(want))
	}
	for i, w := range want {
		s := l.Sites[i]
		if s.ID != w.id || s.Series != w.series || s.Number != i+1 || math.Abs(s.StationM-w.stationM) > 1e-9 {
			t.Errorf("dam %d: %s series %d number %d at %.3f m, want %v", i, s.ID, s.Series, s.Number, s.StationM, w)
		}
	}
	if !math.IsNaN(l.Sites[3].SpacingDownM) || !math.IsNaN(l.Sites[2].SpacingUpM) {
		t.Error("spacing is told across two series")
	}
	if math.Abs(l.EligibleM-(29.5+39.5)) > 1e-9 {
		t.Errorf("eligible %.3f m, want 69", l.EligibleM)
	}
	// Wedges cover 0–30 and 61–100 (the last one, 91–101, is cut off at the upper end).
	if math.Abs(l.TreatedM-69) > 1e-9 {
		t.Errorf("treated %.3f m, want 69", l.TreatedM)
	}
	if got := rulesOf(l.Sites[6].Cautions); !slices.Contains(got, RuleWedge) {
		t.Errorf("topmost dam has cautions %v, want one of rule %s", got, RuleWedge)
	}
}
