package erosion

import (
	"math"
	"slices"
	"testing"

	"siltstep/hydro/channel"
)

// run is a length that is cut evenly.
type run struct{ lengthM, incisionM float64 }

// cutAlong returns a drainage with a station each metre and the incision of runs, from the lower end upstream.
func cutAlong(runs ...run) (d channel.Drainage, j Judgement) {
	d.Into = -1
	for _, r := range runs {
		for range int(r.lengthM) {
			d.Profile.Stations = append(d.Profile.Stations, channel.Station{StationM: float64(len(d.Profile.Stations))})
			j.Depths.IncisionM = append(j.Depths.IncisionM, r.incisionM)
			j.Depths.BankSlope = append(j.Depths.BankSlope, 1)
		}
	}
	j.Power.ShearRatio = math.NaN()
	sumUp(&d, &j)
	return d, j
}

// A drainage of 1 km that is sound by its mean is watch where a piece of it is worn; its severity is the same either way.
func TestWornPieces(t *testing.T) {
	headcut := func(at float64, c Cause) []Headcut { return []Headcut{{StationM: at, HeightM: 0.5, Cause: c}} }
	tests := []struct {
		name     string
		runs     []run
		headcuts []Headcut
		wornM    float64
	}{
		{"100 m cut by 1.2 m", []run{{400, 0}, {101, 1.2}, {500, 0}}, nil, 100},
		{"25 m cut by 1.2 m", []run{{400, 0}, {26, 1.2}, {500, 0}}, nil, 0},
		{"100 m cut by 0.8 m", []run{{400, 0}, {101, 0.8}, {500, 0}}, nil, 0},
		{"with a headcut in it", []run{{400, 0}, {101, 0.8}, {500, 0}}, headcut(450, CauseHeadcut), 100},
		{"with a headcut 5 m above its upper end", []run{{400, 0}, {101, 0.8}, {500, 0}}, headcut(505, CauseHeadcut), 100},
		{"with a headcut 50 m above it", []run{{400, 0}, {101, 0.8}, {500, 0}}, headcut(550, CauseHeadcut), 0},
		{"with a headcut below it", []run{{400, 0}, {101, 0.8}, {500, 0}}, headcut(390, CauseHeadcut), 0},
		{"with a step at a road", []run{{400, 0}, {101, 0.8}, {500, 0}}, headcut(450, CauseRoad), 0},
		{"a headcut alone", []run{{1000, 0.1}}, headcut(500, CauseHeadcut), 0},
		{"over a gap of 9 m that is not known", []run{{400, 0}, {16, 1.2}, {8, math.NaN()}, {16, 1.2}, {500, 0}}, nil, 39},
		{"over one of 12 m", []run{{400, 0}, {16, 1.2}, {12, math.NaN()}, {16, 1.2}, {500, 0}}, nil, 0},
		{"the longer of two", []run{{200, 0}, {41, 1.2}, {100, 0}, {61, 1.2}, {700, 0}}, nil, 60},
		{"not known anywhere", []run{{1000, math.NaN()}}, headcut(500, CauseHeadcut), 0},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			d, j := cutAlong(tt.runs...)
			j.Headcuts = tt.headcuts
			n := &channel.Network{Drainages: []channel.Drainage{d}}
			judged := []Judgement{j}
			Rank(n, judged, 0.05, Defaults())
			s := judged[0].Severity
			if s.WornM != tt.wornM {
				t.Errorf("worn along %g m, want %g", s.WornM, tt.wornM)
			}
			want := ClassOf(s.Total)
			if tt.wornM > 0 {
				want = Watch
			}
			if s.Class != want || s.Total >= WatchFrom {
				t.Errorf("severity %.1f, class %q, want %q", s.Total, s.Class, want)
			}
		})
	}
}

// What is watch or worse by its severity stays so, and needs no piece.
func TestWornPieceNeverLowersAClass(t *testing.T) {
	d, j := cutAlong(run{200, 2.5})
	judged := []Judgement{j}
	Rank(&channel.Network{Drainages: []channel.Drainage{d}}, judged, 0.05, Defaults())
	if s := judged[0].Severity; s.Class != ClassOf(s.Total) || s.Total < WatchFrom || s.WornM != 0 {
		t.Errorf("severity %.1f, class %q, worn along %g m", s.Total, s.Class, s.WornM)
	}
}

func TestIncisedPieces(t *testing.T) {
	d, j := cutAlong(run{10, 0.5}, run{5, 0.1}, run{10, 1.5}, run{20, 0}, run{1, 0.3})
	got := incisedPieces(d.Profile.Stations, j.Depths.IncisionM, 0.3)
	// Ten stations at 0.5 m, the first of which counts for half a metre, and ten at 1.5 m: 19.75 over 19.5.
	want := []piece{{0, 24, 19.75 / 19.5}, {45, 45, 0.3}}
	if !slices.EqualFunc(got, want, func(a, b piece) bool {
		return a.fromM == b.fromM && a.toM == b.toM && math.Abs(a.meanM-b.meanM) < 1e-9
	}) {
		t.Errorf("got %+v, want %+v", got, want)
	}
}
