package flow_test

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"siltstep/hydro/flow"
	"siltstep/raster"
)

// turned returns g with each cell moved by place, which gives the column and row it has in g.
func turned(g *raster.Grid, cols, rows int, place func(col, row int) (int, int)) *raster.Grid {
	out := raster.New(cols, rows, g.Transform)
	for i := range out.MM {
		out.MM[i] = g.At(place(out.ColRow(i)))
	}
	return out
}

// The filled surface turns and mirrors with the ground.
func TestFillTurnsWithTheGrid(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		g := drawGrid(t)
		filled := *g
		filled.MM = run(t, g, 1).FilledMM
		turns := []struct {
			name       string
			cols, rows int
			place      func(col, row int) (int, int)
		}{
			{"transposed", g.Rows, g.Cols, func(c, r int) (int, int) { return r, c }},
			{"quarter turn", g.Rows, g.Cols, func(c, r int) (int, int) { return r, g.Rows - 1 - c }},
			{"half turn", g.Cols, g.Rows, func(c, r int) (int, int) { return g.Cols - 1 - c, g.Rows - 1 - r }},
			{"mirrored", g.Cols, g.Rows, func(c, r int) (int, int) { return g.Cols - 1 - c, r }},
		}
		for _, turn := range turns {
			ground := turned(g, turn.cols, turn.rows, turn.place)
			want := turned(&filled, turn.cols, turn.rows, turn.place)
			sameCells(t, turn.name, ground, run(t, ground, 1).FilledMM, want.MM)
		}
	})
}

// Lifting the ground, or stretching it by a whole number, lifts and stretches the filled
// surface and leaves every direction, catchment and inflow as it was.
func TestLiftedAndStretched(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		g := drawGrid(t)
		// As far as elevations and relief may go: drawGrid has fewer than 1000 levels.
		stretch := rapid.Int32Range(1, (flow.MostReliefMM-1)/1000).Draw(t, "stretch")
		lift := rapid.Int32Range(math.MinInt32+1, math.MaxInt32-flow.MostReliefMM).Draw(t, "lift")
		moved := raster.New(g.Cols, g.Rows, g.Transform)
		for i, z := range g.MM {
			if moved.MM[i] = z*stretch + lift; z == raster.VoidMM {
				moved.MM[i] = z
			}
		}
		base := run(t, g, 1)
		want := *base // directions and inflow as they were
		want.FilledMM = make([]int32, len(g.MM))
		for i, z := range base.FilledMM {
			if want.FilledMM[i] = z*stretch + lift; z == raster.VoidMM {
				want.FilledMM[i] = z
			}
		}
		sameField(t, "lifted and stretched", g, run(t, moved, 1), &want)
	})
}
