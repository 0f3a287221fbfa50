package flow

import (
	"context"
	"errors"
	"math"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"github.com/paulmach/orb"

	"siltstep/raster"
)

// Weights of one are cells; others are summed for each cell by walking down from every cell. Grids are up to 14 columns and 120
// rows, so that bands of 16 rows and more are walked apart.
func TestAccumulateWeights(t *testing.T) {
	rnd := rand.New(rand.NewPCG(3, 5))
	for round := range 120 {
		g := raster.New(1+rnd.IntN(14), 1+rnd.IntN([]int{14, 120}[round%2]), raster.Transform{CellM: 1})
		weights, ones := make([]uint32, len(g.MM)), make([]uint32, len(g.MM))
		for i := range g.MM {
			g.MM[i] = int32(rnd.IntN(20))
			if round%3 == 0 && rnd.IntN(8) == 0 {
				g.MM[i] = raster.VoidMM
			}
			weights[i], ones[i] = rnd.Uint32()*uint32(rnd.IntN(2)), 1 // many zeros, sums over 32 bits
		}
		cfg := Config{CutLengthM: 3, CutDepthM: 1}
		if round%4 < 2 { // an end of flow in the middle
			x, y := g.CenterOf(rnd.IntN(len(g.MM)))
			cfg.Features.Playas = []orb.Polygon{{{{x - 1.2, y - 1.2}, {x + 1.2, y - 1.2}, {x + 1.2, y + 1.2}, {x - 1.2, y + 1.2}, {x - 1.2, y - 1.2}}}}
		}
		f, err := Run(context.Background(), g, cfg, nil)
		if err == ErrNoData {
			continue
		}
		if err != nil {
			t.Fatal(err)
		}
		want := make([]uint64, len(g.MM))
		for i := range g.MM {
			for at := i; at >= 0 && f.Valid(i); at = f.Down(at) {
				want[at] += uint64(weights[i])
			}
		}
		for _, workers := range []int{0, 1, 2, 3, 8} {
			cells, err := f.AccumulateWeights(ones, nil, workers)
			if err != nil {
				t.Fatal(err)
			}
			sums, err := f.AccumulateWeights(weights, nil, workers)
			if err != nil {
				t.Fatal(err)
			}
			for i, got := range sums {
				if got != want[i] || cells[i] != uint64(f.Cells[i]) {
					t.Fatalf("round %d, %d workers, cell %d: %d of weights, want %d; %d of ones, want %d", round, workers, i, got, want[i], cells[i], f.Cells[i])
				}
			}
		}
	}
}

// Two inflows into a ramp of 60 x 21 cells that falls to the east: 5 and 7 mm of runoff from 20 and 30 cells are 100 and 210, and all
// cells below where they enter carry them.
func TestWeightsOfInflows(t *testing.T) {
	g := rampGrid()
	at := func(row int) Inflow {
		x, y := g.Transform.Center(0, row)
		return Inflow{x, y, float64(row + 15)}
	}
	f, err := Run(context.Background(), g, Config{Features: Features{Inflows: []Inflow{at(5), at(15)}}}, nil)
	if err != nil {
		t.Fatal(err)
	}
	rain, inflows := make([]uint32, len(g.MM)), []uint64{5 * uint64(f.Settled[0].Cells), 7 * uint64(f.Settled[1].Cells)}
	if inflows[0] != 100 || inflows[1] != 210 {
		t.Fatalf("inflows weigh %v, want 100 and 210", inflows)
	}
	for i := range rain {
		rain[i] = uint32(i % 11)
	}
	alone, err := f.AccumulateWeights(rain, nil, 2)
	if err != nil {
		t.Fatal(err)
	}
	for k, in := range inflows {
		for i := f.Settled[k].Cell; i >= 0; i = f.Down(i) {
			alone[i] += in
		}
	}
	got, err := f.AccumulateWeights(rain, inflows, 2)
	if err != nil || !slices.Equal(got, alone) {
		t.Errorf("sums %v, %v; want %v", got, err, alone)
	}
	// The first cell alone holds what is left of 64 bits; the next one has weight.
	rain[f.Settled[0].Cell], rain[f.Down(f.Settled[0].Cell)] = 0, 1
	if sums, err := f.AccumulateWeights(rain, []uint64{math.MaxUint64, 0}, 1); !errors.Is(err, ErrWeights) || sums != nil || !strings.Contains(err.Error(), "inflow 1") {
		t.Errorf("an inflow of 2^64 − 1: sums %v, error %v", sums, err)
	}
}

func TestAccumulateWeightsOfAnotherGrid(t *testing.T) {
	f, err := Run(context.Background(), raster.New(3, 3, raster.Transform{CellM: 1}), Config{}, nil)
	if err != nil {
		t.Fatal(err)
	}
	for _, tt := range []struct {
		cells int
		in    []uint64
		want  string
	}{{8, nil, "flow: 8 weights for 9 cells"}, {9, []uint64{1}, "flow: 1 weights for 0 inflows"}} {
		func() {
			defer func() {
				if got := recover(); got != tt.want {
					t.Errorf("panic %v, want %v", got, tt.want)
				}
			}()
			f.AccumulateWeights(make([]uint32, tt.cells), tt.in, 1)
		}()
	}
}

// Eight neighbours drain into the lowest cell of a playa: one more than any other cell can have.
func TestPlayaWithEightInflows(t *testing.T) {
	for _, workers := range []int{1, 3} {
		g := raster.New(7, 64, raster.Transform{CellM: 1})
		for i := range g.MM {
			c, r := g.ColRow(i)
			g.MM[i] = int32(1000 * max(c-3, 3-c, r-20, 20-r)) // a pit about column 3, row 20
		}
		x, y := g.Transform.Center(3, 20)
		cfg := Config{Workers: workers, Features: Features{Playas: []orb.Polygon{{{{x - 1, y - 1}, {x + 1, y - 1}, {x + 1, y + 1}, {x - 1, y + 1}, {x - 1, y - 1}}}}}}
		f, err := Run(context.Background(), g, cfg, nil)
		if err != nil {
			t.Fatal(err)
		}
		end := g.Index(3, 20)
		if len(f.Playas) != 1 || f.Playas[0] != end || f.Down(end) != -1 || len(f.Depressions) != 0 {
			t.Errorf("playas %v, want cell %d; depressions %v", f.Playas, end, f.Depressions)
		}
		into, all := 0, uint32(0)
		for i := range g.MM {
			if f.Down(i) == end {
				into++
			}
			if f.Down(i) < 0 {
				all += f.Cells[i]
			}
		}
		// All but what leaves over the border drains to it, and rings 1 and 2 are whole: at least 25 cells.
		if into != 8 || all != uint32(len(g.MM)) || f.Cells[end] < 25 {
			t.Errorf("%d neighbours drain to it, %d cells; all ends gather %d of %d", into, f.Cells[end], all, len(g.MM))
		}
	}
}
