package hydro

import (
	"math"
	"testing"

	"pgregory.net/rapid"
)

func TestSiltIsPassedDownASeries(t *testing.T) {
	inf := math.Inf(1)
	tests := []struct {
		name string
		dams []siltTrap // from the lowest upstream
		want []float64  // years
	}{
		// 30 m³ over 5 m³/ha of 2 ha, half of which can be kept.
		{"a dam alone", []siltTrap{{30, 2}}, []float64{6}},
		// Each is given 2.5 m³ a year that can be kept, of its own land: 10/2.5 years.
		{"both keep", []siltTrap{{10, 1}, {10, 1}}, []float64{4, 4}},
		// After 4 years the upper one is full and the lower one holds 10 of 20; then it keeps 5 a year.
		{"the upper one is full first", []siltTrap{{20, 1}, {10, 1}}, []float64{6, 4}},
		// The middle one has no land of its own: it is given nothing for 4 years, then 2.5 a year; the lowest nothing for 8.
		{"one after the other", []siltTrap{{5, 0}, {10, 0}, {10, 1}}, []float64{10, 8, 4}},
		{"a dam without a design lets all by", []siltTrap{{30, 1}, {0, 1}}, []float64{6, 0}},
		{"no land", []siltTrap{{30, 0}}, []float64{inf}},
	}
	for _, tt := range tests {
		for k, got := range yearsToFill(tt.dams, 5, 0.5) {
			if got != tt.want[k] && !(math.Abs(got-tt.want[k]) < 1e-9) {
				t.Errorf("%s: dam %d full after %g years, want %g", tt.name, k+1, got, tt.want[k])
			}
		}
	}
}

// drawDams draws a series with the land it lies in.
func drawDams(t *rapid.T) []siltTrap {
	dams := make([]siltTrap, rapid.IntRange(1, 30).Draw(t, "dams"))
	for k := range dams {
		dams[k] = siltTrap{rapid.Float64Range(0, 50).Draw(t, "holds"), rapid.Float64Range(0, 2).Draw(t, "land")}
	}
	return dams
}

// At all times no dam holds more than fits, none loses silt, and the dams above any place hold no more than the share of what the
// land above it has yielded.
func TestSiltKeptIsNoMoreThanTheYield(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		dams, s := drawDams(t), silt{rapid.Float64Range(0.1, 10).Draw(t, "yield"), rapid.Float64Range(0.1, 1).Draw(t, "share")}
		times := []float64{0, 0.5, 1, 3, 10, 40, 1000}
		before := make([]float64, len(dams))
		for i, kept := range keptM3(dams, s, times) {
			held, land := 0.0, 0.0
			for k := len(dams) - 1; k >= 0; k-- {
				held, land = held+kept[k], land+dams[k].landHa
				if supply := land * s.yieldM3PerHa * s.share * times[i]; held > supply*(1+1e-9)+1e-12 {
					t.Fatalf("after %g years %g m³ held from dam %d up, %g came", times[i], held, k+1, supply)
				}
				if kept[k] < before[k] || kept[k] > dams[k].holdsM3 {
					t.Fatalf("after %g years dam %d holds %g m³ of %g, before %g", times[i], k+1, kept[k], dams[k].holdsM3, before[k])
				}
			}
			before = kept
		}
	})
}

// The walk from one full dam to the next gives what small steps in time give.
func TestSiltBySmallSteps(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		dams, s := drawDams(t), silt{2, 0.5}
		const steps, lastYr = 4000, 20.0
		left, land := make([]float64, len(dams)), 0.0
		for k, d := range dams {
			left[k], land = d.holdsM3, land+d.landHa
		}
		for range steps {
			coming := 0.0
			for k := len(dams) - 1; k >= 0; k-- {
				coming += dams[k].landHa * s.yieldM3PerHa * s.share * lastYr / steps
				stays := min(left[k], coming)
				left[k], coming = left[k]-stays, coming-stays
			}
		}
		stepM3 := land * s.yieldM3PerHa * s.share * lastYr / steps // what a step may put into another dam
		for k, kept := range keptM3(dams, s, []float64{lastYr})[0] {
			if got := dams[k].holdsM3 - left[k]; math.Abs(got-kept) > stepM3*float64(len(dams))+1e-9 {
				t.Fatalf("dam %d holds %g m³, by small steps %g", k+1, kept, got)
			}
		}
	})
}

// A dam is full when the time has come that yearsToFill tells, and not before.
func TestYearsAndSiltAgree(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		dams := drawDams(t)
		years := yearsToFill(dams, 2, 0.5)
		k := rapid.IntRange(0, len(dams)-1).Draw(t, "dam")
		if math.IsInf(years[k], 1) || years[k] == 0 {
			return
		}
		kept := keptM3(dams, silt{2, 0.5}, []float64{years[k] * 0.999, years[k] * 1.001})
		if kept[0][k] >= dams[k].holdsM3 || kept[1][k] < dams[k].holdsM3*(1-1e-12) {
			t.Fatalf("dam %d, full after %g years, holds %g before and %g after, of %g", k+1, years[k], kept[0][k], kept[1][k], dams[k].holdsM3)
		}
	})
}
