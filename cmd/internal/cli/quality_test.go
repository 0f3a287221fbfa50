package cli

import (
	"math"
	"math/rand/v2"
	"testing"

	"siltstep/raster"
)

// drawn returns a grid of 1 m cells with the given heights, mm.
func drawn(cols, rows int, z func(col, row int) int32) *raster.Grid {
	g := raster.New(cols, rows, raster.Transform{CellM: 1})
	for i := range g.MM {
		g.MM[i] = z(g.ColRow(i))
	}
	return g
}

func TestNoise(t *testing.T) {
	random := rand.New(rand.NewPCG(1, 2))
	for _, row := range []struct {
		name     string
		z        func(col, row int) int32
		want     float64 // m
		tolerant float64 // m
	}{
		{"plane", func(c, r int) int32 { return int32(37*c - 11*r) }, 0, 0},
		// Normal error of 50 mm on a plane; 2 x 198 x 200 differences that overlap: 1 % is some three standard errors.
		{"plane with 50 mm of noise", func(c, r int) int32 { return int32(20*c) + int32(math.Round(50*random.NormFloat64())) }, 0.050, 0.001},
		// Second difference of 8 mm everywhere along rows, 0 along columns: the middle is 0 or 8 mm; never over 8/(0.6745·√6) = 4.8 mm.
		{"smooth bowl", func(c, _ int) int32 { return int32(4 * c * c) }, 0.0024, 0.0025},
	} {
		t.Run(row.name, func(t *testing.T) {
			if got := noiseM(drawn(200, 200, row.z)); math.Abs(got-row.want) > row.tolerant {
				t.Errorf("%.4f m, want %.4f", got, row.want)
			}
		})
	}
	void := drawn(3, 3, func(c, r int) int32 { return raster.VoidMM })
	if got := noiseM(void); !math.IsNaN(got) {
		t.Errorf("all void: %v, want NaN", got)
	}
}

func TestStep(t *testing.T) {
	for _, row := range []struct {
		name   string
		z      int32
		before int32
		want   int32
	}{
		{"whole metres", 236000, 1076000, 1000}, {"decimetres", 236000, 1076100, 100}, {"below zero", -300, 500, 100},
		{"centimetres", 12340, 56000, 10}, {"millimetres", 1, 0, 1}, {"voids do not count", raster.VoidMM, 3000, 1000},
	} {
		g := drawn(2, 1, func(c, _ int) int32 { return []int32{row.before, row.z}[c] })
		if got := stepMM(g); got != row.want {
			t.Errorf("%s: %d mm, want %d", row.name, got, row.want)
		}
	}
}
