package flow

import (
	"context"
	"fmt"
	"math"
	"math/rand/v2"
	"testing"

	"siltstep/raster"
)

// rough draws eleven octaves of value noise, harsher than a ranch: about a quarter of its
// cells lie in depressions.
func rough(side int) *raster.Grid {
	g := raster.New(side, side, raster.Transform{CellM: 1})
	z := make([]float32, len(g.MM))
	rnd := rand.New(rand.NewPCG(7, 11))
	for octave := range 11 {
		step := 1 << (10 - octave)
		n := side/step + 2
		knot := make([]float32, n*n)
		for i := range knot {
			knot[i] = rnd.Float32()
		}
		high := float32(120 * math.Pow(0.48, float64(octave)))
		for r := range side {
			y, fy := r/step, float32(r%step)/float32(step)
			for c := range side {
				x, fx := c/step, float32(c%step)/float32(step)
				a, b := knot[y*n+x], knot[y*n+x+1]
				d, e := knot[(y+1)*n+x], knot[(y+1)*n+x+1]
				z[r*side+c] += high * ((a*(1-fx)+b*fx)*(1-fy) + (d*(1-fx)+e*fx)*fy)
			}
		}
	}
	for i, v := range z {
		g.MM[i] = int32(math.Round(float64(v) * 1000))
	}
	return g
}

// BenchmarkStages times each stage on its own; Mcell/s is the figure to compare.
func BenchmarkStages(b *testing.B) {
	for _, side := range []int{1000, 3000} {
		g := rough(side)
		for _, workers := range []int{1, 2} {
			f, err := Run(context.Background(), g, Config{Workers: workers}, nil)
			if err != nil {
				b.Fatal(err)
			}
			stages := []struct {
				name string
				run  func()
			}{
				{"fill", func() { Fill(g, workers) }},
				{"direction", func() { directions(side, side, f.FilledMM, nil, make([]uint32, len(g.MM)), workers) }},
				{"accumulation", func() {
					clear(f.Cells)
					for i := range f.dir {
						f.dir[i] &= dirMask
					}
					accumulate(side, side, f.dir, f.Cells, f.Inflow, workers)
				}},
			}
			for _, s := range stages {
				b.Run(fmt.Sprintf("%s/cells=%d/workers=%d", s.name, side*side, workers), func(b *testing.B) {
					b.ReportAllocs()
					for b.Loop() {
						s.run()
					}
					b.ReportMetric(float64(side*side)*float64(b.N)/b.Elapsed().Seconds()/1e6, "Mcell/s")
				})
			}
		}
	}
}

// noisy draws a plane that falls 5 mm a cell under white noise of 0.1 m, the vertical error of lidar: one cell in nine is a pit, and
// on ground so level many of them lie far from lower ground.
func noisy(side int) *raster.Grid {
	g := raster.New(side, side, raster.Transform{CellM: 1})
	rnd := rand.New(rand.NewPCG(1, 2))
	for i := range g.MM {
		g.MM[i] = int32(math.Round(100_000 - 5*float64(i/side) + 100*rnd.NormFloat64()))
	}
	return g
}

// BenchmarkCuts times the whole flow core with cuts at their default limits, and without.
func BenchmarkCuts(b *testing.B) {
	for _, land := range []struct {
		name string
		g    *raster.Grid
	}{{"rough", rough(2000)}, {"noise on a plane of 0.5 %", noisy(2000)}} {
		for _, cuts := range []bool{true, false} {
			for _, workers := range []int{1, 2} {
				cfg := Config{Workers: workers}
				if cuts {
					cfg = Defaults()
					cfg.Workers = workers
				}
				b.Run(fmt.Sprintf("%s/cuts=%v/workers=%d", land.name, cuts, workers), func(b *testing.B) {
					b.ReportAllocs()
					for b.Loop() {
						if _, err := Run(context.Background(), land.g, cfg, nil); err != nil {
							b.Fatal(err)
						}
					}
					b.ReportMetric(float64(len(land.g.MM))*float64(b.N)/b.Elapsed().Seconds()/1e6, "Mcell/s")
				})
			}
		}
	}
}
