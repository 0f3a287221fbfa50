package channel

import (
	"math"
	"testing"
)

// every returns n stations from zero, stepM apart.
func every(stepM float64, n int) []float64 {
	s := make([]float64, n)
	for i := range s {
		s[i] = stepM * float64(i)
	}
	return s
}

// over returns f of each station.
func over(s []float64, f func(float64) float64) []float64 {
	y := make([]float64, len(s))
	for i, x := range s {
		y[i] = f(x)
	}
	return y
}

func TestSlopesClosedForm(t *testing.T) {
	line := func(x float64) float64 { return 100 + 0.05*x }
	square := func(x float64) float64 { return 0.01 * x * x }
	step := func(x float64) float64 { // a fall of 1 m between stations 20 and 21
		if x > 20 {
			return 1
		}
		return 0
	}
	tests := []struct {
		name    string
		station []float64
		bed     func(float64) float64
		at      int
		want    float64
	}{
		{"plane, middle", every(1, 40), line, 20, 0.05},
		{"plane, lower end", every(1, 40), line, 0, 0.05},
		{"plane, upper end", every(1, 40), line, 39, 0.05},
		{"plane, shorter than the window", every(1, 4), line, 2, 0.05},
		// Least squares of a parabola over a symmetric window is its slope at the middle, 0.02·x.
		{"parabola, middle", every(1, 41), square, 20, 0.4},
		// One-sided windows keep their 10 m: middles at 5 and 35.
		{"parabola, lower end", every(1, 41), square, 0, 0.1},
		{"parabola, station 4", every(1, 41), square, 4, 0.1},
		{"parabola, upper end", every(1, 41), square, 40, 0.7},
		// 11 stations 15 to 25, offsets −5 to 5, Sxx = 110; ones at 1 to 5: 15/110.
		{"step, just below", every(1, 41), step, 20, 15.0 / 110},
		// Stations 16 to 26, step between offsets −1 and 0: 0+1+2+3+4+5 = 15 again.
		{"step, just above", every(1, 41), step, 21, 15.0 / 110},
		{"step, out of reach", every(1, 41), step, 15, 0},
		{"level", every(1, 20), func(float64) float64 { return 7 }, 9, 0},
		{"two stations", every(3, 2), line, 1, 0.05},
		{"one station", every(1, 1), line, 0, math.NaN()},
		{"stations that coincide", []float64{0, 0}, line, 1, math.NaN()},
		{"stations too far apart", []float64{0, 40, 80}, line, 1, math.NaN()},
	}
	for _, tt := range tests {
		got := slopes(tt.station, over(tt.station, tt.bed), 10)[tt.at]
		if math.Abs(got-tt.want) > 1e-12 || math.IsNaN(got) != math.IsNaN(tt.want) { // rounding only
			t.Errorf("%s: slope %v, want %v", tt.name, got, tt.want)
		}
	}
	if got := slopes(nil, nil, 10); len(got) != 0 {
		t.Errorf("no stations: %v", got)
	}
}

func TestStationsOnTheEdgeOfTheWindowCount(t *testing.T) {
	// Stations 0.1 m apart, which binary numbers miss: a parabola has slope 0.02·x at x only
	// where the window holds as many stations below as above.
	s := every(0.1, 401)
	got := slopes(s, over(s, func(x float64) float64 { return 0.01 * x * x }), 10)
	for k := 50; k <= 350; k++ {
		if math.Abs(got[k]-0.02*s[k]) > 1e-9 { // one station lost would shift it by 0.001
			t.Errorf("station %v: slope %v, want %v", s[k], got[k], 0.02*s[k])
		}
	}
}

func TestSlopeWindow(t *testing.T) {
	// The longer of 10 m and 5 cells.
	for cellM, want := range map[float64]float64{0.5: 10, 1: 10, 2: 10, 2.5: 12.5, 20: 100} {
		if got := slopeWindow(cellM); got != want {
			t.Errorf("cells of %v m: window %v m, want %v", cellM, got, want)
		}
	}
}
