package channel

import (
	"math"
	"math/rand/v2"
	"testing"

	"siltstep/raster"
	"siltstep/raster/rastertest"
)

// straightSouth returns a straight profile of a length down the middle of a grid, a station every metre.
func straightSouth(g *raster.Grid, lengthM float64) Profile {
	var p Profile
	x := g.Transform.OriginX + float64(g.Cols)*g.Transform.CellM/2
	y := g.Transform.OriginY - float64(g.Rows)*g.Transform.CellM/2 - lengthM/2
	for i := 0; i <= int(lengthM); i++ {
		p.Stations = append(p.Stations, Station{StationM: float64(i), X: x, Y: y + float64(i)})
	}
	return p
}

// BenchmarkSections takes sections of 81 samples on cells of 1 m with errors of 0.05 m: across a trench, and across a
// valley that curves and has no bank to be found.
func BenchmarkSections(b *testing.B) {
	lands := []struct {
		name string
		z    func(x float64) float64
	}{
		{"trench", func(x float64) float64 { return min(0, -1.2+max(0, math.Abs(x)-1.5)) + max(0, 0.3*(math.Abs(x)-12)) }},
		{"valley", func(x float64) float64 { return 2 * (1 - math.Cos(x/20*math.Pi)) }},
	}
	for _, land := range lands {
		b.Run(land.name, func(b *testing.B) {
			rng := rand.New(rand.NewPCG(1, 2))
			g := rastertest.Surface(81, 4200, 1, func(col, row int) int32 {
				return int32(1000 * (200 - 0.03*float64(row) + land.z(float64(col)-39.7) + 0.05*rng.NormFloat64()))
			})
			p := straightSouth(g, 4000)
			b.ReportAllocs()
			n := 0
			for b.Loop() {
				n = len(Sections(g, p, SectionConfig{SpacingM: 2, ReachM: 20}))
			}
			b.ReportMetric(float64(b.Elapsed().Nanoseconds())/float64(b.N)/float64(n), "ns/section")
		})
	}
}
