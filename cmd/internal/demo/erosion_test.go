package demo

import (
	"math"
	"testing"
)

// ditch is a row of cells that drains west, with its west end held, between closed sides.
func ditch(n int) (*land, *routing) {
	l := &land{ground: newSurface(n, 1, 4, 0, 0), held: make([]bool, n), softness: make([]float64, n), spare: make([]float64, n)}
	r := &routing{}
	for i := range n {
		l.softness[i] = 1
		l.held[i] = i == 0
		r.down = append(r.down, int32(i-1))
		r.order = append(r.order, int32(i))
		r.areaM2 = append(r.areaM2, float64(16*(n-i)))
	}
	return l, r
}

func TestIncisionComesToRest(t *testing.T) {
	// At rest uplift equals cutting: slope = upliftRate/√catchment at every cell.
	l, r := ditch(30)
	for range 400 {
		l.incise(r, 1)
	}
	for i := 1; i < 30; i++ {
		got := (l.ground.z[i] - l.ground.z[i-1]) / 4
		want := upliftRate / math.Sqrt(r.areaM2[i])
		if math.Abs(got-want) > 1e-6*want {
			t.Errorf("slope at cell %d: %.6f; want %.6f", i, got, want)
		}
	}
}

func TestCreepKeepsMass(t *testing.T) {
	// With mirrored edges and nothing held, creep moves soil and neither makes nor loses any.
	l := &land{ground: newSurface(9, 7, 4, 0, 0), held: make([]bool, 63), spare: make([]float64, 63)}
	l.ground.z[3*9+4] = 10
	l.creep(1)
	total, top := 0.0, 0.0
	for _, z := range l.ground.z {
		total, top = total+z, max(top, z)
	}
	if math.Abs(total-10) > 1e-9 || top > 2 {
		t.Errorf("%.9f m of soil, top %.3f m; want 10 m, spread out", total, top)
	}
}
