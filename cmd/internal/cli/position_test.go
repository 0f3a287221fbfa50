package cli

import (
	"strings"
	"testing"

	"github.com/paulmach/orb"
)

func TestParseLonLat(t *testing.T) {
	for _, row := range []struct {
		text string
		want orb.Point
		ok   bool
	}{
		{"-105.2,36.4", orb.Point{-105.2, 36.4}, true},
		{" -105.2 , 36.4 ", orb.Point{-105.2, 36.4}, true},
		{"180,-90", orb.Point{180, -90}, true},
		{"", orb.Point{}, false},
		{"-105.2", orb.Point{}, false},
		{"-105.2,36.4,1600", orb.Point{}, false},
		{"36.4,-105.2", orb.Point{}, false}, // latitude first
		{"181,0", orb.Point{}, false},
		{"NaN,0", orb.Point{}, false},
		{"0,Inf", orb.Point{}, false},
	} {
		got, err := parseLonLat(row.text)
		if (err == nil) != row.ok || got != row.want {
			t.Errorf("%q: %v, %v", row.text, got, err)
		}
	}
}

func TestFitness(t *testing.T) {
	whole := quality{cells: 100, valid: 100, stepMM: 1}
	for _, row := range []struct {
		name  string
		cellM float64
		found quality
		want  []string // one for each sentence but the last, which is always there
	}{
		{"1 m", 1, whole, []string{"Screening and siting: cells of 1 m", "narrower than about 3 m"}},
		{"2 m is fine still", 2, whole, []string{"Screening and siting", "narrower than about 6 m"}},
		{"3 m", 3, whole, []string{"lower confidence: cells of 3 m, over 2 m", "narrower than about 9 m"}},
		{"5 m is sited still", 5, whole, []string{"lower confidence", "narrower than about 15 m"}},
		{"20 m", 20, whole, []string{"Screening only: cells of 20 m", "narrower than about 60 m"}},
		{"coarse and curved", 20, quality{cells: 100, valid: 100, stepMM: 1, noiseM: 3}, []string{"Screening only", "narrower"}},
		{"noisy, in steps, with holes", 1, quality{cells: 100, valid: 99, stepMM: 100, noiseM: 0.2},
			[]string{"siting", "narrower", "scatter by up to 0.20 m", "steps of 0.1 m", "Flow ends at a hole"}},
	} {
		t.Run(row.name, func(t *testing.T) {
			got := fitness(row.cellM, row.found)
			if len(got) != len(row.want)+1 {
				t.Fatalf("got %q", got)
			}
			for i, part := range row.want {
				if !strings.Contains(got[i], part) {
					t.Errorf("sentence %d: %q, want %q in it", i+1, got[i], part)
				}
			}
		})
	}
}
