package channel

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"siltstep/raster"
	"siltstep/raster/rastertest"
)

func TestReadIsSample(t *testing.T) {
	// Against the grid's own sampling, a sample at a time, voids and edges with it.
	rapid.Check(t, func(r *rapid.T) {
		side := rapid.IntRange(1, 12).Draw(r, "side")
		g := rastertest.Random(rapid.Uint64().Draw(r, "seed"), side, side, 100_000)
		for range rapid.IntRange(0, 4).Draw(r, "voids") {
			g.MM[rapid.IntRange(0, len(g.MM)-1).Draw(r, "void")] = raster.VoidMM
		}
		sin, cos := math.Sincos(rapid.Float64Range(0, 7).Draw(r, "direction"))
		if rapid.Bool().Draw(r, "along the grid") {
			sin, cos = 0, 1
		}
		half := float64(side) / 2
		tr := transect{
			x: g.Transform.OriginX + half + rapid.Float64Range(-half, half).Draw(r, "east"),
			y: g.Transform.OriginY - half + rapid.Float64Range(-half, half).Draw(r, "north"), dx: cos, dy: sin,
		}
		mm := make([]int32, 31)
		tr.read(g, mm, 0.5)
		for i, got := range mm {
			at := 0.5 * float64(i-15)
			z, ok := g.Sample(tr.x+at*tr.dx, tr.y+at*tr.dy)
			if (got == raster.VoidMM) == ok {
				r.Fatalf("sample %d: %d, sampled %v %v", i, got, z, ok)
			}
			if ok && math.Abs(float64(got)-1000*z) > 0.501 { // half a millimetre of rounding, and that of the position
				r.Fatalf("sample %d: %d mm, sampled %v m", i, got, z)
			}
		}
	})
}

func TestTransectsOfABend(t *testing.T) {
	// Two arms of 20 m, south then east: half a spacing from each end, and square to each arm away from the corner.
	var p Profile
	for i := range 41 {
		s := Station{StationM: float64(i), X: float64(max(0, 20-i)), Y: float64(max(0, i-20))}
		p.Stations = append(p.Stations, s)
	}
	got := transects(p, 1, 8)
	if len(got) != 5 {
		t.Fatalf("%d transects over 40 m every 8 m, want 5", len(got))
	}
	for i, want := range []transect{{4, 16, 0, 0, -1}, {12, 8, 0, 0, -1}, {20, 0, 0, -math.Sqrt2 / 2, -math.Sqrt2 / 2}, {28, 0, 8, -1, 0}, {36, 0, 16, -1, 0}} {
		g := got[i]
		if math.Abs(g.stationM-want.stationM)+math.Hypot(g.x-want.x, g.y-want.y)+math.Hypot(g.dx-want.dx, g.dy-want.dy) > 1e-9 { // rounding only
			t.Errorf("transect %d: %+v, want %+v", i, g, want)
		}
	}
}

// turned returns a square grid turned by a quarter and mirrored east to west, each if asked, and the profile with it.
func turned(g *raster.Grid, p Profile, quarter, mirror bool) (*raster.Grid, Profile) {
	n, cellM := g.Cols, g.Transform.CellM
	st := append([]Station(nil), p.Stations...)
	for i := range st {
		u, v := st[i].X-g.Transform.OriginX, g.Transform.OriginY-st[i].Y // east and south of the corner
		if quarter {
			u, v = float64(n)*cellM-v, u
		}
		if mirror {
			u = float64(n)*cellM - u
		}
		st[i].X, st[i].Y = g.Transform.OriginX+u, g.Transform.OriginY-v
	}
	out := rastertest.Surface(n, n, cellM, func(col, row int) int32 {
		if mirror {
			col = n - 1 - col
		}
		if quarter {
			return g.At(row, n-1-col)
		}
		return g.At(col, row)
	})
	return out, Profile{Stations: st}
}

func TestSectionsTurnWithTheGrid(t *testing.T) {
	// A noisy trench beside a slope, turned and mirrored: the same sections, and left and right change places in a mirror.
	const near = 1e-6 // m; rounding only
	compared := 0
	for _, deg := range []float64{0, 20, 45} {
		g, p := trench{bedM: 3, run: 1, depthM: 1.2, cross: 0.1, deg: deg, shift: 0.137}.draw(1, 0.05, 9)
		first := Sections(g, p, reach)
		for _, way := range []struct{ quarter, mirror bool }{{true, false}, {false, true}, {true, true}} {
			again := Sections(turnedFirst(turned(g, p, way.quarter, way.mirror)))
			if len(again) != len(first) {
				t.Fatalf("%v°, %+v: %d sections, were %d", deg, way, len(again), len(first))
			}
			for i, a := range first {
				b := again[i]
				if way.mirror {
					b.Left, b.Right = b.Right, b.Left
					b.Left.ToeM, b.Left.TopM, b.Right.ToeM, b.Right.TopM = -b.Left.ToeM, -b.Left.TopM, -b.Right.ToeM, -b.Right.TopM
				}
				if a.Resolved != b.Resolved {
					t.Errorf("%v°, %+v, station %v: resolved %v, was %v", deg, way, a.StationM, b.Resolved, a.Resolved)
					continue
				}
				if !a.Resolved {
					continue
				}
				compared++
				for _, pair := range [][2]float64{
					{a.BedM, b.BedM}, {a.DepthM, b.DepthM}, {a.BedWidthM, b.BedWidthM}, {a.TopWidthM, b.TopWidthM}, {a.AreaM2, b.AreaM2},
					{a.Left.ToeM, b.Left.ToeM}, {a.Left.TopM, b.Left.TopM}, {a.Left.HeightM, b.Left.HeightM},
					{a.Right.ToeM, b.Right.ToeM}, {a.Right.TopM, b.Right.TopM}, {a.Right.HeightM, b.Right.HeightM},
				} {
					if math.Abs(pair[0]-pair[1]) > near {
						t.Errorf("%v°, %+v, station %v: %v, was %v", deg, way, a.StationM, pair[1], pair[0])
					}
				}
			}
		}
	}
	if compared < 80 {
		t.Errorf("%d sections compared", compared)
	}
}

// turnedFirst puts the settings of these tests behind a grid and a profile.
func turnedFirst(g *raster.Grid, p Profile) (*raster.Grid, Profile, SectionConfig) {
	return g, p, reach
}
