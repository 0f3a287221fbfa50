package channel

import (
	"math"
	"testing"
)

// section returns a section at a place and direction with its tops so far left and right.
func section(stationM, x, y, deg, leftM, rightM float64) Section {
	sin, cos := math.Sincos(deg * math.Pi / 180)
	return Section{StationM: stationM, X: x, Y: y, DX: cos, DY: sin, Left: Bank{TopM: -leftM}, Right: Bank{TopM: rightM}}
}

func TestApart(t *testing.T) {
	tests := []struct {
		name string
		of   []Section
		want []float64 // stations kept
	}{
		{"side by side", []Section{section(0, 0, 0, 0, 3, 3), section(5, 0, 5, 0, 3, 3)}, []float64{0, 5}},
		// Fanned by 30° they meet 5/tan 30° = 8.66 m to the left of the lower.
		{"meet beyond the banks", []Section{section(0, 0, 0, 0, 8, 3), section(5, 0, 5, 30, 8, 3)}, []float64{0, 5}},
		{"meet within the banks", []Section{section(0, 0, 0, 0, 9, 3), section(5, 0, 5, 30, 11, 3)}, []float64{0}},
		{"within one bank only", []Section{section(0, 0, 0, 0, 8, 3), section(5, 0, 5, 30, 11, 3)}, []float64{0, 5}},
		// The third crosses the first, not the second, which is left out: still the third goes.
		{"third crosses the first", []Section{section(0, 0, 0, 0, 9, 3), section(2, 0, 2, 15, 9, 3), section(4, 0, 4, 30, 9, 3)}, []float64{0}},
		{"no banks", []Section{section(0, 0, 0, 0, 0, 0), section(1, 0, 0, 90, 5, 5)}, []float64{0, 1}},
		{"too far down the line to count", []Section{section(0, 0, 0, 0, 5, 5), section(50, 0, 0, 90, 5, 5)}, []float64{0, 50}},
	}
	for _, tt := range tests {
		var got []float64
		for _, s := range apart(tt.of) {
			got = append(got, s.StationM)
		}
		if len(got) != len(tt.want) || got[len(got)-1] != tt.want[len(tt.want)-1] {
			t.Errorf("%s: kept %v, want %v", tt.name, got, tt.want)
		}
	}
}

func TestUnknownBankReachesNoFarther(t *testing.T) {
	s := section(0, 0, 0, 0, 5, 5)
	s.Right.TopM = math.NaN()
	if l, r := s.ends(); l != -5 || r != 0 {
		t.Errorf("ends %v and %v, want −5 and 0", l, r)
	}
}

func TestSectionsAlongAWindingLineStayApart(t *testing.T) {
	// A trench of 10 m, and in it a line that winds 1.5 m to either side every 12 m: many sections would cross.
	g, p := trench{bedM: 10, run: 1, depthM: 1.5}.draw(0.5, 0, 1)
	st := p.Stations
	for i := range st {
		st[i].X += 1.5 * math.Sin(2*math.Pi*st[i].StationM/12)
	}
	for i := range st {
		if i == 0 {
			st[i].StationM = 0
			continue
		}
		st[i].StationM = st[i-1].StationM + math.Hypot(st[i].X-st[i-1].X, st[i].Y-st[i-1].Y)
	}
	cfg := SectionConfig{SpacingM: 2, ReachM: 15}
	all := len(transects(p, 0.5, cfg.SpacingM))
	sections := Sections(g, p, cfg)
	t.Logf("%d of %d sections kept", len(sections), all)
	if len(sections) < 5 || len(sections) >= all {
		t.Errorf("%d of %d sections kept", len(sections), all)
	}
	for i := range sections {
		if s := &sections[i]; !s.Resolved || math.Abs(s.DepthM-1.5) > 0.2 { // a section askew by 38° falls by 0.018 m a metre
			t.Errorf("station %v: depth %v: %s", s.StationM, s.DepthM, s.Why)
		}
		for k := range i {
			if cross(&sections[i], &sections[k]) {
				t.Errorf("sections at %v and %v m cross", sections[k].StationM, sections[i].StationM)
			}
		}
	}
}
