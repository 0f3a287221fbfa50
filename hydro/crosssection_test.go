package hydro

import (
	"math"
	"testing"

	"siltstep/hydro/channel"
	"siltstep/hydro/checkdam"
	"siltstep/raster"
)

func TestSectionFromBankToBank(t *testing.T) {
	// Samples a metre apart from 4 m left to 4 m right; the bed at 100 m, the tops 1 m above it at 3 m to either side.
	whole := []int32{101_100, 101_000, 100_700, 100_000, 100_000, 100_000, 100_700, 101_000, 101_100}
	tests := []struct {
		name  string
		at    int
		mm    int32
		point int // of the seven from top to top
		want  float64
	}{
		{"nothing", 0, 101_100, 0, 101},
		{"a pit in the bed", 5, 99_600, 4, 100},              // raised to the bed
		{"a small dip on the bank", 6, 100_000 - 40, 5, 100}, // below the bed, and level with what lies inward
		{"the top itself is that of the bank", 1, 100_900, 0, 101},
		{"a bar at the thalweg", 4, 100_200, 3, 100.2}, // beside it the bed lies deeper than noise: both stay
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			mm := append([]int32(nil), whole...)
			mm[tt.at] = tt.mm
			s := channel.Section{FirstM: -4, StepM: 1, MM: mm, BedM: 100, Left: channel.Bank{TopM: -3, HeightM: 1}, Right: channel.Bank{TopM: 3, HeightM: 1}}
			points := bankToBank(s, 0.1)
			if len(points) != 7 || points[0].OffsetM != -3 || points[6].OffsetM != 3 {
				t.Fatalf("points %+v", points)
			}
			if got := points[tt.point].LevelM; math.Abs(got-tt.want) > 1e-9 {
				t.Errorf("point %d at %.3f m, want %.3f", tt.point, got, tt.want)
			}
			section, err := checkdam.NewSection(points)
			if err != nil || math.Abs(section.BankHeightM()-1) > 1e-9 {
				t.Errorf("bank of %.3f m, %v", section.BankHeightM(), err)
			}
		})
	}
	void := append([]int32(nil), whole...)
	void[2] = raster.VoidMM
	s := channel.Section{FirstM: -4, StepM: 1, MM: void, BedM: 100, Left: channel.Bank{TopM: -3, HeightM: 1}, Right: channel.Bank{TopM: 3, HeightM: 1}}
	if got := bankToBank(s, 0.1); len(got) != 6 {
		t.Errorf("with a hole %+v", got)
	}
}

func TestNoiseOnABankMakesNoSecondChannel(t *testing.T) {
	// Up the right bank 0.60, 0.56, 0.62: the dip of 0.04 m is noise, and levelled to 0.60; one of 0.30 m is not.
	for dip, want := range map[int32]float64{40: 0.60, 300: 0.30} {
		s := channel.Section{FirstM: -2, StepM: 1, BedM: 0, MM: []int32{1000, 500, 0, 600, 600 - dip, 620, 1000},
			Left: channel.Bank{TopM: -2, HeightM: 1}, Right: channel.Bank{TopM: 4, HeightM: 1}}
		if got := bankToBank(s, 0.1)[4].LevelM; math.Abs(got-want) > 1e-9 {
			t.Errorf("dip of %d mm: %.3f m, want %.3f", dip, got, want)
		}
	}
}
