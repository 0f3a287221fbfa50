package erosion

import (
	"fmt"
	"math"
	"testing"

	"siltstep/hydro/channel"
)

// joined is a gully 10 m wide and 100 m long that runs south along x = 0, and a tributary of 60 m that
// comes in from a direction at its middle; stations 1 m apart. Both are cut 1 m all along.
func joined(dx, dy float64) (*channel.Network, []Judgement) {
	n := &channel.Network{Drainages: []channel.Drainage{{ID: "D01", Into: -1}, {ID: "D02", Into: 0}}}
	judged := make([]Judgement, 2)
	add := func(i int, stationM, x, y float64) {
		n.Drainages[i].Profile.Stations = append(n.Drainages[i].Profile.Stations, channel.Station{StationM: stationM, X: x, Y: y})
		d := &judged[i].Depths
		d.IncisionM, d.BankSlope, d.BankToBankM = append(d.IncisionM, 1), append(d.BankSlope, 1.5), append(d.BankToBankM, 10)
	}
	for i := range 101 {
		add(0, float64(i), 0, float64(i))
	}
	for i := range 61 {
		s := float64(i)
		add(1, s, s*dx, 50+s*dy)
	}
	for i := range judged {
		sumUp(&n.Drainages[i], &judged[i])
	}
	return n, judged
}

// leftOut counts the stations of the tributary whose incision is not its own; they are the lowest.
func leftOut(t *testing.T, judged []Judgement) int {
	t.Helper()
	d := judged[1].Depths
	count := 0
	for i := range d.IncisionM {
		if !math.IsNaN(d.IncisionM[i]) {
			continue
		}
		if count++; i != count-1 || !math.IsNaN(d.BankSlope[i]) {
			t.Fatalf("station %d is left out above one that is not, or keeps a bank slope of %g", i, d.BankSlope[i])
		}
	}
	return count
}

func TestMouths(t *testing.T) {
	tests := []struct {
		name   string
		dx, dy float64
		cellM  float64
		change func(*channel.Network, []Judgement)
		want   int
	}{
		// Half of 10 m and 2 m of slack: stations 0 to 7.
		{"at right angles", 1, 0, 1, nil, 8},
		{"at right angles, cells of 0.5 m", 1, 0, 0.5, nil, 8},
		// Half of 10 m and 2 cells of 2 m: 0 to 9.
		{"at right angles, cells of 2 m", 1, 0, 2, nil, 10},
		// Three cells are 12 m: half of them and 2 cells of slack are 14 m, stations 0 to 14.
		{"at right angles, cells of 4 m", 1, 0, 4, nil, 15},
		// 0.6 m away a metre: 7 m are reached at 11.67 m.
		{"aslant", 0.6, 0.8, 1, nil, 12},
		// Along the gully and never out of it.
		{"inside all along", 0, 0.5, 1, nil, 61},
		// Nothing is known of the width: 3 cells, half of them and 2 m are 3.5 m.
		{"banks not seen", 1, 0, 1, func(_ *channel.Network, j []Judgement) {
			for i := range j[0].Depths.BankToBankM {
				j[0].Depths.BankToBankM[i] = null
			}
		}, 4},
		{"no widths", 1, 0, 1, func(_ *channel.Network, j []Judgement) { j[0].Depths.BankToBankM = nil }, 4},
		{"joins nothing", 1, 0, 1, func(n *channel.Network, _ []Judgement) { n.Drainages[1].Into = -1 }, 0},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			n, judged := joined(tt.dx, tt.dy)
			if tt.change != nil {
				tt.change(n, judged)
			}
			before := fmt.Sprint(judged[0])
			LeaveMouths(n, judged, tt.cellM, Defaults())
			if got := leftOut(t, judged); got != tt.want {
				t.Errorf("%d stations left out, want %d", got, tt.want)
			}
			// All but half a metre at the end of the piece left out, 60 m in all.
			want := max(0, 60.5-float64(tt.want)) / 60
			if tt.want == 0 {
				want = 1
			}
			if got := judged[1].Depths.KnownShare; math.Abs(got-want) > 1e-9 && !(tt.want == 61 && got == 0) {
				t.Errorf("known share %g, want %g", got, want)
			}
			if got := judged[1].Depths.MeanM; got != 1 && tt.want < 61 {
				t.Errorf("mean incision %g m, want 1", got)
			}
			if after := fmt.Sprint(judged[0]); tt.change == nil && after != before {
				t.Errorf("the gully changed to %s", after)
			}
		})
	}
}

func TestMouthsOfAnotherNetworkPanic(t *testing.T) {
	defer func() {
		if recover() == nil {
			t.Error("one judgement of two drainages is let through")
		}
	}()
	n, judged := joined(1, 0)
	LeaveMouths(n, judged[:1], 1, Defaults())
}
