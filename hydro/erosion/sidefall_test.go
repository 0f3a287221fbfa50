package erosion

import (
	"math"
	"testing"

	"siltstep/hydro/channel"
	"siltstep/raster"
)

// trenchedFloor is a floor that falls 3 % to the east and 4 % from the north to row 30, with a trench 1 m deep along that row from a head
// at a column on: bed 3 m wide, banks one in one, cells of 1 m.
func trenchedFloor(headCol int) *raster.Grid {
	g := raster.New(70, 60, raster.Transform{OriginX: 500, OriginY: 900, CellM: 1})
	for i := range g.MM {
		col, row := g.ColRow(i)
		side := math.Abs(float64(row) - 30)
		z := 100 - 0.03*float64(col) + 0.04*side
		if col >= headCol {
			z = min(z, 99-0.03*float64(col)+max(side-1, 0))
		}
		g.MM[i] = int32(math.Round(1000 * z))
	}
	return g
}

// along returns a drainage through places that are joined by straight rows, columns or diagonals.
func along(g *raster.Grid, catchmentM2 float64, places ...[2]int) channel.Drainage {
	d := channel.Drainage{Into: -1, CatchmentM2: catchmentM2}
	at := places[0]
	d.Cells = append(d.Cells, g.Index(at[0], at[1]))
	for _, to := range places[1:] {
		for at != to {
			at[0] += sign(to[0] - at[0])
			at[1] += sign(to[1] - at[1])
			d.Cells = append(d.Cells, g.Index(at[0], at[1]))
		}
	}
	stationM := 0.0
	for k := len(d.Cells) - 1; k >= 0; k-- {
		x, y := g.CenterOf(d.Cells[k])
		if n := len(d.Profile.Stations); n > 0 {
			last := d.Profile.Stations[n-1]
			stationM += math.Hypot(x-last.X, y-last.Y)
		}
		d.Profile.Stations = append(d.Profile.Stations, channel.Station{
			StationM: stationM, X: x, Y: y, Cell: d.Cells[k], GroundM: float64(g.MM[d.Cells[k]]) / 1000, CatchmentM2: catchmentM2,
		})
	}
	return d
}

func sign(n int) int { return min(max(n, -1), 1) }

// A tributary comes over the bank of a trench 26 m below the head of the trench and runs 20 m beside the line in it.
func TestBankIsNoHeadcut(t *testing.T) {
	g := trenchedFloor(10)
	trunk := along(g, 50_000, [2]int{0, 30}, [2]int{69, 30})
	side := along(g, 4_000, [2]int{36, 2}, [2]int{36, 29}, [2]int{56, 29}, [2]int{57, 30})
	side.Into = 0

	if alone := Headcuts(&side, 1, 0, Defaults()); len(alone) != 1 || alone[0].Cause != CauseHeadcut {
		t.Fatalf("a single drainage tells %+v; want one headcut, or this shows nothing", alone)
	}
	got := NetworkHeadcuts(g, &channel.Network{Drainages: []channel.Drainage{trunk, side}}, 0, Defaults())
	if len(got) != 2 || len(got[0]) != 1 || len(got[1]) != 1 {
		t.Fatalf("got %+v; want one step on each", got)
	}
	// The head of the trench is a wall at column 10: the lip is the middle of column 9.
	if h := got[0][0]; h.Cause != CauseHeadcut || h.X != 509.5 || math.Abs(h.HeightM-1) > 0.001 {
		t.Errorf("head of the trench: %+v; want a headcut of 1 m at x 509.5", h)
	}
	if h := got[1][0]; h.Cause != CauseBank || math.Abs(h.HeightM-1) > 0.1 {
		t.Errorf("over the bank: %+v; want a bank of 1 m", h)
	}

	// The line of the trunk alone tells it, and the ground alone does.
	side.Into = -1
	st := side.Profile.Stations
	p := stepsOf(&side, 1, 0, Defaults())[0]
	if !bedGoesOn(g, st, p) {
		t.Error("the ground does not tell that the trench goes on")
	}
	n := &channel.Network{Drainages: []channel.Drainage{trunk, side}}
	found := [][]step{nil, {p}}
	if !linesBeside(g, n, found).goOn(g, 1, p) {
		t.Error("the line of the trunk does not tell that the trench goes on")
	}
	if linesBeside(g, &channel.Network{Drainages: []channel.Drainage{side, side}}, found).goOn(g, 1, p) {
		t.Error("a line that falls over the same bank is told to go on below it")
	}
}

// Two drainages fall over one head, one from behind and one from the side: one headcut, on the larger, and no bank.
func TestOneHeadOnce(t *testing.T) {
	g := trenchedFloor(36)
	trunk := along(g, 50_000, [2]int{0, 30}, [2]int{69, 30})
	side := along(g, 4_000, [2]int{30, 2}, [2]int{30, 24}, [2]int{36, 30}, [2]int{37, 31}, [2]int{56, 31}, [2]int{57, 30})
	side.Into = 1
	for k, n := range []*channel.Network{
		{Drainages: []channel.Drainage{trunk, side}},
		{Drainages: []channel.Drainage{side, trunk}},
	} {
		if alone := Headcuts(&side, 1, 0, Defaults()); len(alone) != 1 {
			t.Fatalf("the side drainage tells %d headcuts; want one, or this shows nothing", len(alone))
		}
		got := NetworkHeadcuts(g, n, 0, Defaults())
		if len(got[k]) != 1 || len(got[1-k]) != 0 {
			t.Errorf("got %+v; want one headcut, on the trunk", got)
			continue
		}
		if h := got[k][0]; h.Cause != CauseHeadcut || h.X != 535.5 || math.Abs(h.HeightM-1) > 0.001 {
			t.Errorf("got %+v; want a headcut of 1 m at x 535.5", h)
		}
	}
}

func TestNetworkWithoutDrainages(t *testing.T) {
	if got := NetworkHeadcuts(trenchedFloor(10), &channel.Network{}, 0.1, Defaults()); len(got) != 0 {
		t.Errorf("got %v", got)
	}
}
