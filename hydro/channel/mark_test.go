package channel

import (
	"context"
	"math"
	"slices"
	"testing"

	"github.com/paulmach/orb"

	"siltstep/hydro/flow"
	"siltstep/raster"
	"siltstep/raster/rastertest"
)

// crossed is the V valley of 21 columns and 100 rows, bed 50 − 0.05·row, with row 60 raised by so many mm
// over its bed, and its flow with cuts of 30 m and 1 m, or of 6 m along a road in that row.
func crossed(t *testing.T, heightMM int32, road bool) (*raster.Grid, *flow.Field) {
	t.Helper()
	g := rastertest.RaiseRow(rastertest.Valley(21, 100, 50_000, 500, 50), 60, 47_000+heightMM)
	cfg := flow.Config{CutLengthM: 30, CutDepthM: 1, RoadCutLengthM: 60, RoadCutDepthM: 6, RoadReachM: 30, Workers: 1}
	if road {
		x0, y := g.Transform.Center(0, 60)
		x1, _ := g.Transform.Center(20, 60)
		cfg.Features.Roads = []orb.LineString{{{x0, y}, {x1, y}}}
	}
	f, err := flow.Run(context.Background(), g, cfg, nil)
	if err != nil {
		t.Fatal(err)
	}
	return g, f
}

func TestNoBedUnderACut(t *testing.T) {
	for _, tt := range []struct {
		name     string
		heightMM int32
		road     bool
		cut      bool // row 60 is a cut without a bed
	}{
		{"noise of 0.25 m", 250, false, false}, // the carve deals with it
		{"bank of 0.9 m", 900, false, true},
		{"road fill of 2.5 m", 2500, true, true},
	} {
		t.Run(tt.name, func(t *testing.T) {
			g, f := crossed(t, tt.heightMM, tt.road)
			p := Build(g, f, Config{}).Drainages[0].Profile
			for _, s := range p.Stations {
				_, row := g.ColRow(s.Cell)
				if want := tt.cut && row == 60; s.Cut != want || s.NoBed != want || math.IsNaN(s.Slope) != want {
					t.Errorf("row %d: cut %v, no bed %v, slope %v; want a cut %v", row, s.Cut, s.NoBed, s.Slope, want)
				}
				if s.FillM != 0 {
					t.Errorf("row %d: %g m of water on a valley that drains", row, s.FillM)
				}
				// Straight from row 59 to row 61; the carve of one high cell takes that of row 59.
				want := 50 - 0.05*float64(row)
				if !tt.cut && row == 60 {
					want = 47.05
				}
				if math.Abs(s.BedM-want) > 1e-9 {
					t.Errorf("row %d: bed %v, want %v", row, s.BedM, want)
				}
				// Each piece of bed is told by itself and falls 0.05 a metre.
				if tt.cut && row != 60 && math.Abs(s.Slope-0.05) > 1e-9 {
					t.Errorf("row %d: slope %v, want 0.05", row, s.Slope)
				}
			}
		})
	}
}

func TestBedOfAPathWithGaps(t *testing.T) {
	// Ground in mm running downstream, 1 m apart; a dash under the stations that show no bed.
	ground := []int32{9000, 9500, 8000, 9900, 9900, 5000, 7000}
	profile := func(hidden ...int) Profile {
		p := Profile{Stations: make([]Station, len(ground))}
		for i := range p.Stations {
			p.Stations[i].StationM = float64(i)
			p.Stations[i].NoBed = slices.Contains(hidden, len(ground)-1-i)
		}
		return p
	}
	for _, tt := range []struct {
		name   string
		hidden []int // vertices
		want   []int32
	}{
		// Shown are 9000, 8000, 5000; between 8000 and 5000 three steps of 1000.
		{"inside", []int{1, 3, 4, 6}, []int32{9000, 8500, 8000, 7000, 6000, 5000, 5000}},
		{"upper end", []int{0, 1, 3, 4, 6}, []int32{8000, 8000, 8000, 7000, 6000, 5000, 5000}},
		{"all", []int{0, 1, 2, 3, 4, 5, 6}, carve(ground, bedQuantile)},
		{"none", nil, carve(ground, bedQuantile)},
	} {
		if got := bedOf(ground, profile(tt.hidden...), nil); !slices.Equal(got, tt.want) {
			t.Errorf("%s: bed %v, want %v", tt.name, got, tt.want)
		}
	}
	// Into a confluence at 5200: the last vertex is the joint, and no bed lies below it.
	if got, want := bedOf(ground[:6], profile(1, 3, 4), &joint{bedMM: 5200}), []int32{9000, 8500, 8000, 7067, 6133, 5200, 5200}; !slices.Equal(got, want) {
		t.Errorf("into a confluence: bed %v, want %v", got, want)
	}
}

func TestSlopeIsToldPieceByPiece(t *testing.T) {
	// 5 % below a gap from station 20 to 22, 10 % above: no window reaches across.
	var p Profile
	for s := 0; s <= 40; s++ {
		bed := 0.05 * float64(s)
		if s > 20 {
			bed = 1 + 0.1*float64(s-20)
		}
		p.Stations = append(p.Stations, Station{StationM: float64(s), BedM: bed, NoBed: s >= 20 && s <= 22})
	}
	setSlopes(p, 10)
	for s, st := range p.Stations {
		want := 0.05
		if s > 22 {
			want = 0.1
		}
		if st.NoBed != math.IsNaN(st.Slope) || !st.NoBed && math.Abs(st.Slope-want) > 1e-9 {
			t.Errorf("station %d: slope %v, want %v", s, st.Slope, want)
		}
	}
}
