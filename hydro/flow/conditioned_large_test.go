package flow_test

import (
	"reflect"
	"slices"
	"testing"

	"github.com/paulmach/orb"

	"siltstep/hydro/flow"
	"siltstep/raster"
	"siltstep/raster/rastertest"
)

// Rough country of 600 x 500 cells, larger than the pieces in which it is worked on, with a
// road, a culvert, a stock pond, a playa, and in the second case voids: the same bits for any number of
// workers, and all that holds on small grids.
func TestConditionedLargeGrid(t *testing.T) {
	if testing.Short() {
		t.Skip("a grid of 300 000 cells, five times over")
	}
	for _, tt := range []struct {
		name   string
		relief int32
		voids  int // one cell in so many
	}{{"rough", 20_000, 0}, {"gentle, with voids", 3000, 400}} {
		t.Run(tt.name, func(t *testing.T) {
			g := rastertest.Pepper(3, rastertest.Fractal(3, 600, 500, tt.relief), tt.voids)
			cfg := conditioning()
			cfg.Features = flow.Features{
				Roads:      []orb.LineString{{placeOf(g, 20, 480), placeOf(g, 300, 240), placeOf(g, 590, 260)}},
				Culverts:   []orb.LineString{{placeOf(g, 240, 250), placeOf(g, 270, 256)}},
				StockPonds: []orb.Polygon{rectangle(g, 245, 100, 262, 115)},
				Playas:     []orb.Polygon{rectangle(g, 400, 400, 404, 404)},
			}
			cfg.Workers = 1
			one := conditioned(t, g, cfg)
			for _, workers := range []int{2, 3, 8} {
				cfg.Workers = workers
				f := conditioned(t, g, cfg)
				sameField(t, "workers", g, f, one)
				if !reflect.DeepEqual(f.Cuts, one.Cuts) || !reflect.DeepEqual(f.Depressions, one.Depressions) || !slices.Equal(f.EdgeSpills, one.EdgeSpills) {
					t.Errorf("%d workers: other cuts, depressions or spills", workers)
				}
			}
			filled, playa, cutM := heapFill(g), in(g, cfg.Features.Playas), onCuts(g, one)
			pond := in(g, cfg.Features.StockPonds)
			changed, raised := 0, 0
			for i, z := range g.MM {
				if z == raster.VoidMM {
					continue
				}
				mm := one.FilledMM[i]
				below := float64(z-mm) / 1000
				switch {
				case mm > filled[i]:
					t.Fatalf("cell %d at %d, filled alone %d", i, mm, filled[i])
				case below > max(cutM[i], 0.3)+1e-9, pond[i] && below > 0:
					t.Fatalf("cell %d lies %.3f m below the ground, cuts there %.3f, in a pond %v", i, below, cutM[i], pond[i])
				case one.Down(i) < 0 && !onRim(g, i) && !playa[i]:
					t.Fatalf("flow ends inside, at cell %d", i)
				}
				if mm != z {
					changed++
				}
				if filled[i] != z {
					raised++
				}
			}
			if _, sum := endsSum(one); sum != g.ValidCells() {
				t.Errorf("ends gather %d cells, %d hold data", sum, g.ValidCells())
			}
			sameCells(t, "cells by walking", g, one.Cells, walkedCells(t, g, downs(one)))
			if changed >= raised {
				t.Errorf("cuts and fill change %d cells, filling alone %d; want fewer", changed, raised)
			}
			t.Logf("cuts and fill change %.2f %% of cells, filling alone %.2f %%; %d cuts and %d small ones, %d depressions and %d small ones",
				100*float64(changed)/float64(len(g.MM)), 100*float64(raised)/float64(len(g.MM)), len(one.Cuts), one.SmallCuts, len(one.Depressions), one.SmallDepressions)
		})
	}
}
