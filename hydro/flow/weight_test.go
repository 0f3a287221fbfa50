package flow

import (
	"context"
	"math/rand/v2"
	"testing"

	"github.com/paulmach/orb"

	"siltstep/raster"
)

// Weights of one are cells; others are summed for each cell by walking down from every cell.
func TestAccumulateWeights(t *testing.T) {
	rnd := rand.New(rand.NewPCG(3, 5))
	for round := range 200 {
		g := raster.New(1+rnd.IntN(14), 1+rnd.IntN(14), raster.Transform{CellM: 1})
		weights, ones := make([]uint32, len(g.MM)), make([]uint32, len(g.MM))
		for i := range g.MM {
			g.MM[i] = int32(rnd.IntN(20))
			if round%3 == 0 && rnd.IntN(8) == 0 {
				g.MM[i] = raster.VoidMM
			}
			weights[i], ones[i] = rnd.Uint32()*uint32(rnd.IntN(2)), 1 // many zeros, sums over 32 bits
		}
		cfg := Config{CutLengthM: 3, CutDepthM: 1}
		if round%2 == 0 { // an end of flow in the middle
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
		cells := f.AccumulateWeights(ones)
		for i, got := range f.AccumulateWeights(weights) {
			if got != want[i] || cells[i] != uint64(f.Cells[i]) {
				t.Fatalf("round %d, cell %d: %d of weights, want %d; %d of ones, want %d", round, i, got, want[i], cells[i], f.Cells[i])
			}
		}
	}
}

func TestAccumulateWeightsOfAnotherGrid(t *testing.T) {
	f, err := Run(context.Background(), raster.New(3, 3, raster.Transform{CellM: 1}), Config{}, nil)
	if err != nil {
		t.Fatal(err)
	}
	defer func() {
		if got := recover(); got != "flow: 8 weights for 9 cells" {
			t.Errorf("panic %v", got)
		}
	}()
	f.AccumulateWeights(make([]uint32, 8))
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
