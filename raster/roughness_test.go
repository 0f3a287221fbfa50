package raster_test

import (
	"math"
	"math/rand/v2"
	"testing"

	"siltstep/raster"
	"siltstep/raster/rastertest"
)

// wooded sets trees, domes 6 m high and 5 m across, on a ground; their places do not touch. It returns how many stand at
// least 8 m from the border.
func wooded(g *raster.Grid, everyM float64) int {
	random := rand.New(rand.NewPCG(21, 22))
	cell, inside := g.Transform.CellM, 0
	wide, high := float64(g.Cols)*cell, float64(g.Rows)*cell
	for y := everyM / 2; y < high; y += everyM {
		for x := everyM / 2; x < wide; x += everyM {
			tx, ty := x+3*random.Float64(), y+3*random.Float64()
			if min(tx, ty, wide-tx, high-ty) >= 8 {
				inside++
			}
			for i := range g.MM {
				col, row := g.ColRow(i)
				d := math.Hypot((float64(col)+0.5)*cell-tx, (float64(row)+0.5)*cell-ty)
				if d < 2.5 {
					g.MM[i] += int32(1000 * (2 + 4*math.Sqrt(1-d*d/6.25)))
				}
			}
		}
	}
	return inside
}

func TestTreesAreCounted(t *testing.T) {
	for _, cellM := range []float64{0.5, 1, 2} {
		cells := int(160 / cellM)
		g := rastertest.Surface(cells, cells, cellM, func(c, r int) int32 { return int32(100 * cellM * float64(c+2*r)) })
		bare := g.Roughness()
		if bare.SteepShare != 0 || bare.TopsPerHa != 0 {
			t.Errorf("cells of %g m, bare: %+v", cellM, bare)
		}
		inside := wooded(g, 20)
		got := g.Roughness()
		// 160 x 160 m are 2.56 ha; all but the border cells are looked at.
		if want := float64(inside) / 2.56; math.Abs(got.TopsPerHa-want) > 0.15*want {
			t.Errorf("cells of %g m: got %.1f tops a hectare, want %.1f", cellM, got.TopsPerHa, want)
		}
		// A crown of 2.5 m covers 20 of 400 m². Its steep rim is at least a fifth of that; with a cell of 2 m on all sides it is
		// at most (5 + 4)² of 400 m².
		if got.SteepShare < 0.01 || got.SteepShare > 81.0/400 {
			t.Errorf("cells of %g m: steep share %.3f", cellM, got.SteepShare)
		}
	}
}

func TestBareGroundHasNoTops(t *testing.T) {
	for _, ground := range grounds {
		if r := surveyed(400, 300, ground.z, white(9, 200)).Roughness(); r.TopsPerHa != 0 || r.SteepShare > 0.01 {
			t.Errorf("%s: %+v", ground.name, r)
		}
	}
	for _, row := range []struct {
		name  string
		g     *raster.Grid
		steep bool
	}{
		{"cone of 45 m", rastertest.Surface(101, 101, 1, func(c, r int) int32 { return -int32(900 * math.Hypot(float64(c-50), float64(r-50))) }), false},
		{"wall of 5 m", rastertest.Surface(100, 100, 1, func(c, r int) int32 { return int32(c / 50 * 5000) }), true},
		{"ridge with walls", rastertest.Surface(100, 100, 1, func(c, r int) int32 { return int32(5000 * (c / 48 % 2)) }), true},
		{"gully 3 m deep", rastertest.Surface(100, 100, 1, func(c, r int) int32 { return -int32(max(0, 3000-1500*math.Abs(float64(c-50)))) }), true},
		{"tower of 40 m", rastertest.Surface(100, 100, 1, func(c, r int) int32 {
			if c == 50 && r == 50 {
				return 40_000
			}
			return 0
		}), true},
	} {
		if r := row.g.Roughness(); r.TopsPerHa != 0 || r.SteepShare > 0 != row.steep {
			t.Errorf("%s: %+v", row.name, r)
		}
	}
}

func TestRoughnessOfLittle(t *testing.T) {
	tiny(func(g *raster.Grid) {
		r, whole := g.Roughness(), g.Cols == 3 && g.Rows == 3
		if whole && r != (raster.Roughness{}) || !whole && !(math.IsNaN(r.SteepShare) && math.IsNaN(r.TopsPerHa)) {
			t.Errorf("%d x %d cells: %+v", g.Cols, g.Rows, r)
		}
	})
	if r := rastertest.Channel(50, 50, 20, 0, 0.1, 2).Roughness(); !math.IsNaN(r.SteepShare) || !math.IsNaN(r.TopsPerHa) {
		t.Errorf("cells of 20 m: %+v, want NaN", r)
	}
}
