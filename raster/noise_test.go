package raster_test

import (
	"math"
	"testing"

	"siltstep/raster"
	"siltstep/raster/rastertest"
)

// Independent normal errors come back within 15 % on every ground; without errors, next to nothing.
func TestNoiseOfGround(t *testing.T) {
	for _, ground := range grounds {
		for seed, sigmaM := range []float64{0, 0.02, 0.05, 0.10, 0.20} {
			g := surveyed(400, 300, ground.z, white(uint64(seed), 1000*sigmaM))
			got := g.NoiseM()
			if sigmaM == 0 {
				// Level ground tells nothing. Rounding to mm scatters the others with √(1/12) mm.
				if ground.name == "level" != math.IsNaN(got) || got > 0.001 {
					t.Errorf("%s without error: %g m", ground.name, got)
				}
				continue
			}
			if math.Abs(got-sigmaM) > 0.15*sigmaM {
				t.Errorf("%s with %g m: got %.4f m", ground.name, sigmaM, got)
			}
		}
	}
}

// Lakes and voids take no part: half of this grid is level, and one cell in 50 is void.
func TestNoiseBesideLake(t *testing.T) {
	errors := white(3, 50)
	g := surveyed(400, 300, func(c, r int) float64 { return 20 * float64(c) }, func(c, r int) float64 {
		if c < 200 {
			return -20 * float64(c)
		}
		return errors(c, r)
	})
	if got := rastertest.Pepper(1, g, 50).NoiseM(); math.Abs(got-0.05) > 0.0075 {
		t.Errorf("got %.4f m, want 0.05 within 15 %%", got)
	}
}

// Means over 3 x 3 cells of independent errors: neighbours along a row correlate with 2/3, those two apart with 1/3, so the
// third differences see √((20 − 20 + 4)/20) = 0.447 of the standard deviation. This is the limit of the method.
func TestNoiseSharedByNeighbours(t *testing.T) {
	raw := surveyed(402, 302, func(_, _ int) float64 { return 0 }, white(4, 300))
	g := rastertest.Surface(400, 300, 1, func(c, r int) int32 {
		sum := 0.0
		for dr := range 3 {
			for dc := range 3 {
				sum += float64(raw.At(c+dc, r+dr))
			}
		}
		return int32(math.Round(sum / 9))
	})
	want := 0.1 * 0.4472 // nine errors of 0.3 m have a mean of 0.1 m scatter
	if got := g.NoiseM(); math.Abs(got-want) > 0.15*want {
		t.Errorf("got %.4f m, want %.4f within 15 %%", got, want)
	}
}

func TestNoiseOfLittle(t *testing.T) {
	tiny(func(g *raster.Grid) {
		if got := g.NoiseM(); !math.IsNaN(got) {
			t.Errorf("%d x %d cells: got %g, want NaN", g.Cols, g.Rows, got)
		}
	})
	void := raster.VoidMM
	if got := rastertest.Of([]int32{1, 2, void, 4, 9, 7}).NoiseM(); !math.IsNaN(got) {
		t.Errorf("a void in every four cells: got %g, want NaN", got)
	}
	// One difference, 0 − 3·0 + 3·30 − 0 = 90 mm: of one size the middle lies at its own, 90/(0.6745·4.4721) = 29.84 mm.
	if got := rastertest.Of([]int32{0, 0, 30, 0}).NoiseM(); math.Abs(got-0.02984) > 0.00001 {
		t.Errorf("four cells: got %g m, want 0.02984", got)
	}
	if got := rastertest.Of([]int32{math.MaxInt32, math.MinInt32 + 1, math.MaxInt32, math.MinInt32 + 1}).NoiseM(); !(got > 700_000) {
		t.Errorf("heights as far apart as can be: got %g m", got)
	}
}
