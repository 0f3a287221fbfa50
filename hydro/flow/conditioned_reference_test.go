package flow_test

import (
	"bytes"
	"encoding/binary"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"testing"

	"github.com/paulmach/orb"

	"siltstep/hydro/flow"
	"siltstep/raster"
	"siltstep/raster/rastertest"
)

const spanningTool = terrainDir + "/reference/spanning.py"

// spanningFill returns the filled surfaces of cases by the reference tool's minimum
// spanning trees; inside are the ends of flow of each beside its rim.
func spanningFill(t *testing.T, grids []*raster.Grid, inside [][]int) [][]int32 {
	t.Helper()
	python, dir := python(t), t.TempDir()
	var in bytes.Buffer
	total := 0
	put := func(n int32) { in.Write(binary.LittleEndian.AppendUint32(nil, uint32(n))) }
	for k, g := range grids {
		put(int32(g.Cols))
		put(int32(g.Rows))
		put(int32(len(inside[k])))
		for _, i := range inside[k] {
			put(int32(i))
		}
		for _, z := range g.MM {
			put(z)
		}
		total += len(g.MM)
	}
	if err := os.WriteFile(filepath.Join(dir, "grids.i32"), in.Bytes(), 0o644); err != nil {
		t.Fatal(err)
	}
	if out, err := exec.Command(python, "-B", spanningTool, dir).CombinedOutput(); err != nil {
		t.Fatalf("%s: %v\n%s", spanningTool, err, out)
	}
	all := readRaster[int32](t, filepath.Join(dir, "filled.i32"), total)
	filled := make([][]int32, len(grids))
	for k, g := range grids {
		filled[k], all = all[:len(g.MM)], all[len(g.MM):]
	}
	return filled
}

// Small grids of few and of many levels, with and without voids, half of them with a playa
// of one cell in which flow ends: with cuts off, the filled surface is that of the minimum
// spanning tree by scipy. With cuts on, no cell stands above it.
func TestFilledEqualsSpanningTree(t *testing.T) {
	const draws = 240
	var grids []*raster.Grid
	var inside [][]int
	rng := rand.New(rand.NewPCG(7, 7)) // any seed: the same grids each time
	for k := range draws {
		cols, rows := 3+rng.IntN(22), 3+rng.IntN(22)
		g := rastertest.Random(uint64(k), cols, rows, []int32{3, 10, 1000}[k%3])
		if k%5 == 4 {
			g = rastertest.Fractal(uint64(k), cols, rows, 3000)
		}
		if k%4 == 3 {
			g = rastertest.Pepper(uint64(k), g, 6)
		}
		if g.ValidCells() == 0 {
			g.MM[0] = 0
		}
		var ends []int
		if i := rng.IntN(len(g.MM)); k%2 == 1 && g.MM[i] != raster.VoidMM {
			ends = append(ends, i)
		}
		grids, inside = append(grids, g), append(inside, ends)
	}
	want := spanningFill(t, grids, inside)
	for k, g := range grids {
		cfg := flow.Config{Workers: 1}
		for _, i := range inside[k] {
			col, row := g.ColRow(i)
			cfg.Features.Playas = []orb.Polygon{rectangle(g, col, row, col, row)}
		}
		sameCells(t, "filled alone", g, conditioned(t, g, cfg).FilledMM, want[k])
		cfg.CutLengthM, cfg.CutDepthM = 4, 0.01
		for i, mm := range conditioned(t, g, cfg).FilledMM {
			if mm > want[k][i] {
				t.Fatalf("grid %d, cell %d: %d with cuts, %d without", k, i, mm, want[k][i])
			}
		}
	}
}
