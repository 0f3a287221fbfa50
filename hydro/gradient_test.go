package hydro

import (
	"math"
	"testing"

	"siltstep/hydro/channel"
	"siltstep/hydro/siting"
)

// evenBed has a station each metre on a bed of one slope.
func evenBed(lengthM int, slope float64) []channel.Station {
	out := make([]channel.Station, lengthM+1)
	for i := range out {
		out[i] = channel.Station{StationM: float64(i), BedM: 100 + slope*float64(i), Slope: slope}
	}
	return out
}

func TestGradients(t *testing.T) {
	// A dam of 0.6 m on 6 % reaches 10 m with a level deposit, 20 m with one at half the slope.
	dam := func(series int, atM, reachM float64) siting.Site {
		return siting.Site{Series: series, StationM: atM, BedM: 100 + 0.06*atM, SillM: 100.6 + 0.06*atM, EffectiveHeightM: 0.6, WedgeEndM: atM + reachM}
	}
	level := []siting.Site{dam(1, 10, 10), dam(1, 20, 10), dam(2, 60, 10)}
	tests := []struct {
		name  string
		sites []siting.Site
		ratio float64
		want  []Gradient // by series, then all
	}{
		{"level deposits", level, 0, []Gradient{{1, 20, 1.2, 1.2, 0.06, 0}, {2, 10, 0.6, 0.6, 0.06, 0}, {0, 30, 1.8, 1.8, 0.06, 0}}},
		{"deposits at half the slope", []siting.Site{dam(1, 10, 20), dam(1, 30, 20)}, 0.5, []Gradient{{1, 40, 2.4, 1.2, 0.06, 0.03}, {0, 40, 2.4, 1.2, 0.06, 0.03}}},
		// The second stands 2 m too low: 0.12 m of its 0.6 m are under the silt of the first, so 0.6 - 0.12 + 0.6 m are left as falls.
		{"nearer than they need", []siting.Site{dam(1, 10, 10), dam(1, 18, 10)}, 0, []Gradient{{1, 18, 1.08, 1.08, 0.06, 0}, {0, 18, 1.08, 1.08, 0.06, 0}}},
		// 5 m of bare bed between them are no treated length.
		{"a gap", []siting.Site{dam(1, 10, 10), dam(1, 25, 10)}, 0, []Gradient{{1, 20, 1.2, 1.2, 0.06, 0}, {0, 20, 1.2, 1.2, 0.06, 0}}},
	}
	for _, tt := range tests {
		got := gradients(evenBed(100, 0.06), tt.sites, tt.ratio)
		if len(got) != len(tt.want) {
			t.Fatalf("%s: %+v", tt.name, got)
		}
		for i, w := range tt.want {
			g := got[i]
			for _, v := range [][2]float64{{g.LengthM, w.LengthM}, {g.DropM, w.DropM}, {g.KeptM, w.KeptM}, {g.Before, w.Before}, {g.After, w.After}} {
				if g.Series != w.Series || math.Abs(v[0]-v[1]) > 1e-9 {
					t.Errorf("%s: %+v, want %+v", tt.name, g, w)
					break
				}
			}
		}
	}
	// Where every wedge meets the bed, what is left as falls are the effective heights.
	if g := gradients(evenBed(100, 0.06), level, 0)[2]; math.Abs(g.KeptM-3*0.6) > 1e-9 {
		t.Errorf("falls of %g m, three dams of 0.6 m", g.KeptM)
	}
}

func TestBedBetweenStations(t *testing.T) {
	bed := evenBed(10, 0.1)
	for at, want := range map[float64]float64{-1: 100, 0: 100, 2.5: 100.25, 3: 100.3, 10: 101, 12: 101} {
		if got := bedAtM(bed, at); math.Abs(got-want) > 1e-9 {
			t.Errorf("at %g m: %g, want %g", at, got, want)
		}
	}
}
