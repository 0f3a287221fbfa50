package raster_test

import (
	"math"
	"math/rand/v2"
	"testing"

	"siltstep/raster"
)

// stripes are offsets of whole rows with a standard deviation of 0.03 m, and what they are seen as. Of a wave a parabola
// over 11 lines takes the share H = (89 + 2·Σ wₖ·cos 2πfk)/429, and the rest is divided by √(1 − 89/429) = 0.890: H is 0.142 at
// every other line and −0.253 at waves of 5 lines.
func stripes(rows int) []struct {
	name  string
	mm    func(row int) float64
	seenM float64
} {
	random := rand.New(rand.NewPCG(11, 12))
	drawn := make([]float64, rows)
	for i := range drawn {
		drawn[i] = 30 * random.NormFloat64()
	}
	return []struct {
		name  string
		mm    func(row int) float64
		seenM float64
	}{
		{"drawn", func(r int) float64 { return drawn[r] }, 0.0300},
		{"every other", func(r int) float64 { return 30 * float64(2*(r%2)-1) }, 0.0289},
		{"waves of 5", func(r int) float64 { return 30 * math.Sqrt2 * math.Sin(2*math.Pi*float64(r)/5) }, 0.0422},
	}
}

// Stripes of 0.03 m on every ground, under noise of 0.05 m, along rows and along columns, and never in the other direction.
func TestStripes(t *testing.T) {
	const cols, rows = 500, 400
	for _, ground := range grounds {
		for _, stripe := range stripes(rows) {
			noise := white(5, 50)
			g := surveyed(cols, rows, ground.z, func(c, r int) float64 { return noise(c, r) + stripe.mm(r) })
			along, across := g.StripeM()
			swappedAcross, swappedAlong := turned(g).StripeM()
			// 10 %: the deviation of 400 drawn offsets has a standard error of 3.5 %.
			if math.Abs(along-stripe.seenM) > 0.1*stripe.seenM || across != 0 {
				t.Errorf("%s, %s: got %.4f m along rows, %.4f along columns; want %g and 0", ground.name, stripe.name, along, across, stripe.seenM)
			}
			if along != swappedAlong || across != swappedAcross {
				t.Errorf("%s, %s: rows and columns are not judged alike", ground.name, stripe.name)
			}
		}
	}
}

func TestNoStripes(t *testing.T) {
	for _, ground := range grounds {
		for seed, sigmaMM := range []float64{0, 20, 200} {
			rows, cols := surveyed(500, 400, ground.z, white(uint64(seed), sigmaMM)).StripeM()
			if rows != 0 || cols != 0 {
				t.Errorf("%s with noise of %g mm: got %.4f and %.4f m", ground.name, sigmaMM, rows, cols)
			}
		}
	}
}

func TestStripesOfLittle(t *testing.T) {
	tiny(func(g *raster.Grid) {
		if rows, cols := g.StripeM(); !math.IsNaN(rows) || !math.IsNaN(cols) {
			t.Errorf("%d x %d cells: got %g, %g, want NaN", g.Cols, g.Rows, rows, cols)
		}
	})
	voids := surveyed(100, 100, func(_, _ int) float64 { return float64(raster.VoidMM) }, func(_, _ int) float64 { return 0 })
	if rows, cols := voids.StripeM(); !math.IsNaN(rows) || !math.IsNaN(cols) {
		t.Errorf("nothing but voids: got %g, %g, want NaN", rows, cols)
	}
}
