package erosion

import (
	"context"
	"fmt"
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"siltstep/hydro/channel"
	"siltstep/hydro/flow"
	"siltstep/raster"
	"siltstep/raster/rastertest"

	"pgregory.net/rapid"
)

// slowTopHat is the definition word by word: over all squares that hold the cell, wherever they lie,
// the least of the greatest valid elevation inside.
func slowTopHat(g *raster.Grid, reach int) []int32 {
	out := make([]int32, len(g.MM))
	for i, z := range g.MM {
		out[i] = raster.VoidMM
		if z == raster.VoidMM {
			continue
		}
		col, row := g.ColRow(i)
		roof := int32(math.MaxInt32)
		for r := row - reach; r <= row+reach; r++ {
			for c := col - reach; c <= col+reach; c++ {
				roof = min(roof, greatest(g, c, r, reach))
			}
		}
		out[i] = roof - z
	}
	return out
}

// greatest is the highest valid elevation of a square that may reach off the grid.
func greatest(g *raster.Grid, col, row, reach int) int32 {
	top := raster.VoidMM
	for r := max(0, row-reach); r <= min(g.Rows-1, row+reach); r++ {
		for c := max(0, col-reach); c <= min(g.Cols-1, col+reach); c++ {
			top = max(top, g.At(c, r))
		}
	}
	return top
}

func drawGrid(t *rapid.T) *raster.Grid {
	cols, rows := rapid.IntRange(1, 18).Draw(t, "cols"), rapid.IntRange(1, 18).Draw(t, "rows")
	levels := rapid.SampledFrom([]int32{1, 3, 10, 1000}).Draw(t, "levels")
	g := rastertest.Random(rapid.Uint64().Draw(t, "seed"), cols, rows, levels)
	return rastertest.Pepper(rapid.Uint64().Draw(t, "void seed"), g, rapid.SampledFrom([]int{0, 2, 5, 20}).Draw(t, "one void in"))
}

func TestTopHatTwin(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		g := drawGrid(t)
		reach := rapid.IntRange(1, 20).Draw(t, "reach") // up to larger than the grid
		want := slowTopHat(g, reach)
		w := squareOf(g, float64(2*reach+1))
		w.side = rapid.IntRange(1, 30).Draw(t, "side of a tile")
		if got := w.topHatMM(g, 1+reach%3); !slices.Equal(got, want) {
			t.Fatalf("%d x %d, reach %d:\ngot  %d\nwant %d", g.Cols, g.Rows, reach, got, want)
		}
	})
}

// Several tiles, and a square that does not divide them.
func TestTopHatTiles(t *testing.T) {
	g := rastertest.Pepper(3, rastertest.Fractal(5, 2*tileSide+77, tileSide+9, 20_000), 40)
	whole := TopHatMM(g, 31, 1)
	for _, workers := range []int{2, 3, 8, 0} {
		if !slices.Equal(TopHatMM(g, 31, workers), whole) {
			t.Errorf("%d workers: not the bits of one", workers)
		}
	}
	rng := rand.New(rand.NewPCG(1, 1))
	for range 200 { // cells anywhere, seams among them, against the definition on their surroundings
		col, row := rng.IntN(g.Cols), rng.IntN(g.Rows)
		if rng.IntN(2) == 0 {
			col = tileSide - 2 + rng.IntN(4)
		}
		part, err := g.Clip(raster.Window{Col: col - 30, Row: row - 30, Cols: 61, Rows: 61})
		if err != nil {
			t.Fatal(err)
		}
		at := part.Index(min(col, 30), min(row, 30))
		// The surroundings hold every square over the cell; squares over their edge are clipped no smaller than that.
		if got, want := whole[g.Index(col, row)], topHatAt(part, at, 15); got != want {
			t.Fatalf("cell (%d, %d): got %d mm, want %d", col, row, got, want)
		}
	}
}

// topHatAt is slowTopHat at one cell.
func topHatAt(g *raster.Grid, i, reach int) int32 {
	if g.MM[i] == raster.VoidMM {
		return raster.VoidMM
	}
	col, row := g.ColRow(i)
	roof := int32(math.MaxInt32)
	for r := row - reach; r <= row+reach; r++ {
		for c := col - reach; c <= col+reach; c++ {
			roof = min(roof, greatest(g, c, r, reach))
		}
	}
	return roof - g.MM[i]
}

// trench is a plane of slope 0.1 to the south, 81 x 81, with a trench 3 cells wide in the middle.
func trench(depthMM int32) *raster.Grid {
	g := rastertest.Plane(81, 81, 100_000, 0, 100)
	for i := range g.MM {
		if col, _ := g.ColRow(i); col >= 39 && col <= 41 {
			g.MM[i] -= depthMM
		}
	}
	return g
}

// By the definition: a square of 7 spans the 3 cells of the trench and with its upper edge on a cell's own row
// touches the bank there, 1.5 m above the bed; outside it lies on the plane.
func TestTopHatTrench(t *testing.T) {
	g := trench(1500)
	for i, got := range TopHatMM(g, 7, 1) {
		col, row := g.ColRow(i)
		want := int32(0)
		if col >= 39 && col <= 41 {
			want = 1500
		}
		if got != want {
			t.Fatalf("cell (%d, %d): got %d mm, want %d", col, row, got, want)
		}
	}
}

// A plane has no depth anywhere, whatever its slope, the voids in it and the edge.
func TestTopHatPlane(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		slope := rapid.Int32Range(-500, 500)
		g := rastertest.Plane(rapid.IntRange(1, 60).Draw(t, "cols"), rapid.IntRange(1, 60).Draw(t, "rows"), 0, slope.Draw(t, "east"), slope.Draw(t, "south"))
		rastertest.Pepper(rapid.Uint64().Draw(t, "seed"), g, rapid.IntRange(0, 6).Draw(t, "one void in"))
		for i, got := range TopHatMM(g, rapid.Float64Range(0.5, 80).Draw(t, "window"), 1) {
			if want := int32(0); g.MM[i] != raster.VoidMM && got != want || g.MM[i] == raster.VoidMM && got != raster.VoidMM {
				t.Fatalf("cell %d: got %d mm", i, got)
			}
		}
	})
}

// A valley with sides of 0.1 reads 0.1 times half the square: not a trench, and said so in the comment of Survey.
func TestTopHatValley(t *testing.T) {
	g := rastertest.Valley(101, 60, 50_000, 100, 20)
	if got := TopHatMM(g, 31, 1)[g.Index(50, 20)]; got != 15*100 {
		t.Errorf("got %d mm, want 1500", got)
	}
}

func TestTopHatTurned(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		g := drawGrid(t)
		window := float64(rapid.IntRange(1, 40).Draw(t, "window"))
		for name, move := range map[string]func(*raster.Grid) *raster.Grid{"turned": turned, "mirrored": mirrored} {
			other := move(g)
			of := *g
			of.MM = TopHatMM(g, window, 2)
			if !slices.Equal(TopHatMM(other, window, 2), move(&of).MM) {
				t.Fatalf("%s: the top-hat did not turn with the grid", name)
			}
		}
	})
}

// turned is a grid turned by 90° clockwise, on the same corner.
func turned(g *raster.Grid) *raster.Grid {
	return rastertest.Surface(g.Rows, g.Cols, g.Transform.CellM, func(col, row int) int32 { return g.At(row, g.Rows-1-col) })
}

// mirrored is a grid with east and west changed.
func mirrored(g *raster.Grid) *raster.Grid {
	return rastertest.Surface(g.Cols, g.Rows, g.Transform.CellM, func(col, row int) int32 { return g.At(g.Cols-1-col, row) })
}

// Digging a cell out never makes it shallower, and a closing with a larger square is never lower.
func TestTopHatGrows(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		g := drawGrid(t)
		window := rapid.IntRange(1, 20).Draw(t, "window")
		before := TopHatMM(g, float64(window), 1)
		wider := TopHatMM(g, float64(window+rapid.IntRange(0, 10).Draw(t, "wider")), 1)
		i := rapid.IntRange(0, len(g.MM)-1).Draw(t, "cell")
		if g.MM[i] == raster.VoidMM {
			return
		}
		g.MM[i] -= rapid.Int32Range(1, 500).Draw(t, "dug")
		if after := TopHatMM(g, float64(window), 1)[i]; after < before[i] || wider[i] < before[i] || before[i] < 0 {
			t.Fatalf("got %d mm, dug out %d, by a larger square %d", before[i], after, wider[i])
		}
	})
}

func TestSquareOf(t *testing.T) {
	tests := []struct {
		windowM, cellM float64
		cols, rows     int // of the grid
		want           [2]int
	}{
		{31, 1, 500, 500, [2]int{15, 15}},
		{30, 1, 500, 500, [2]int{15, 15}},   // 31 cells, the larger of the two odd numbers next to 30
		{31, 0.5, 500, 500, [2]int{31, 31}}, // 63 cells: 62 is as near to 61
		{31, 2, 500, 500, [2]int{7, 7}},     // 15.5: 15 is nearer than 17
		{31, 10, 500, 500, [2]int{1, 1}},
		{3.1, 0.1, 500, 500, [2]int{15, 15}},
		{0.2, 1, 500, 500, [2]int{1, 1}},
		{31, 1, 11, 1, [2]int{5, 0}},
		{math.Inf(1), 1, 10, 10, [2]int{5, 5}},
	}
	for _, tt := range tests {
		g := raster.New(tt.cols, tt.rows, raster.Transform{CellM: tt.cellM})
		if w := squareOf(g, tt.windowM); [2]int{w.cols, w.rows} != tt.want {
			t.Errorf("%g m in cells of %g m, %d x %d: reaches %d, %d cells, want %d", tt.windowM, tt.cellM, tt.cols, tt.rows, w.cols, w.rows, tt.want)
		}
	}
	for _, bad := range []float64{0, -1, math.NaN()} {
		func() {
			defer func() {
				if recover() == nil {
					t.Errorf("window of %g m: want a panic", bad)
				}
			}()
			squareOf(raster.New(2, 2, raster.Transform{CellM: 1}), bad)
		}()
	}
}

// The survey of rough country agrees with the top-hat of the whole grid, at the cell that the ground was read from.
func TestSurvey(t *testing.T) {
	g := rastertest.Fractal(11, 700, 420, 20_000)
	for i := range g.MM {
		_, row := g.ColRow(i)
		g.MM[i] -= int32(60 * row)
	}
	n := networkOf(t, g)
	n.Drainages[0].Profile.Stations[3].NoBed = true
	whole := TopHatMM(g, 31, 1)
	got := Survey(g, n, 31, 1)
	known := 0
	for i, d := range n.Drainages {
		if len(got[i]) != len(d.Profile.Stations) {
			t.Fatalf("%s: %d values at %d stations", d.ID, len(got[i]), len(d.Profile.Stations))
		}
		for k, s := range d.Profile.Stations {
			if s.NoBed != math.IsNaN(got[i][k]) {
				t.Fatalf("%s station %d: %g with NoBed %t", d.ID, k, got[i][k], s.NoBed)
			}
			if !s.NoBed {
				known++
				want, near := bedTopHat(g, whole, s)
				if !near && !(k == 0 && d.Into >= 0) {
					t.Fatalf("%s station %d: its ground is nowhere near", d.ID, k)
				}
				if got[i][k] != want {
					t.Fatalf("%s station %d: %g m, want %g", d.ID, k, got[i][k], want)
				}
			}
		}
	}
	if known < 1000 {
		t.Fatalf("%d stations: too few to tell", known)
	}
	for _, workers := range []int{2, 3, 8} {
		again := Survey(g, n, 31, workers)
		for i := range got {
			if !slices.EqualFunc(got[i], again[i], func(a, b float64) bool { return math.Float64bits(a) == math.Float64bits(b) }) {
				t.Fatalf("%d workers: not the bits of one", workers)
			}
		}
	}
}

// bedTopHat is the greatest top-hat at the level of the station's ground among nine cells; near is false where none is at that level.
func bedTopHat(g *raster.Grid, whole []int32, s channel.Station) (m float64, near bool) {
	col, row := g.ColRow(s.Cell)
	best := whole[s.Cell]
	for k := range 9 {
		c, r := col+k%3-1, row+k/3-1
		if z := g.At(c, r); z != raster.VoidMM && float64(z)/1000 == s.GroundM {
			if !near {
				best = 0
			}
			best, near = max(best, whole[g.Index(c, r)]), true
		}
	}
	return float64(best) / 1000, near
}

func networkOf(t testing.TB, g *raster.Grid) *channel.Network {
	t.Helper()
	f, err := flow.Run(context.Background(), g, flow.Config{}, nil)
	if err != nil {
		t.Fatal(err)
	}
	return channel.Build(g, f, channel.Config{StartAreaM2: 2500, MinLengthM: 30})
}

// A window under two cells would have to be made larger, and would then measure the valley: nothing is told.
func TestSurveyOnCoarseCells(t *testing.T) {
	for _, row := range []struct {
		cellM float64
		told  bool
	}{{1, true}, {7.5, true}, {7.6, false}, {80, false}} {
		g := rastertest.Valley(81, 100, 50_000, 800, 60)
		n := networkOf(t, g) // on cells of 1 m; larger ones move nothing on a grid
		g.Transform.CellM = row.cellM
		for k, m := range Survey(g, n, 15, 1)[0] {
			if row.told == math.IsNaN(m) {
				t.Fatalf("cells of %g m, station %d: %g m told", row.cellM, k, m)
			}
		}
	}
}

func TestSurveyEmpty(t *testing.T) {
	if got := Survey(trench(1000), &channel.Network{}, 31, 0); len(got) != 0 {
		t.Errorf("no drainages: got %d slices", len(got))
	}
}

func BenchmarkTopHat(b *testing.B) {
	for _, side := range []int{1000, 3000} {
		g := rastertest.Fractal(1, side, side, 100_000)
		b.Run(fmt.Sprintf("whole/%d", side), func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				TopHatMM(g, 31, 2)
			}
			b.ReportMetric(float64(len(g.MM))*float64(b.N)/b.Elapsed().Seconds()/1e6, "Mcells/s")
		})
		n := networkOf(b, g)
		stations := 0
		for _, d := range n.Drainages {
			stations += len(d.Profile.Stations)
		}
		b.Run(fmt.Sprintf("stations/%d", side), func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				Survey(g, n, 31, 2)
			}
			b.ReportMetric(float64(len(g.MM))*float64(b.N)/b.Elapsed().Seconds()/1e6, "Mcells/s")
			b.ReportMetric(float64(stations)/float64(len(g.MM))*100, "%stations")
		})
	}
}
