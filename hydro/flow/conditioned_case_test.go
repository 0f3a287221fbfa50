package flow_test

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"github.com/paulmach/orb"
	"github.com/paulmach/orb/planar"
	"pgregory.net/rapid"

	"siltstep/hydro/flow"
	"siltstep/raster"
	"siltstep/raster/rastertest"
)

// groundCase is a small grid with settings and declared features.
type groundCase struct {
	g   *raster.Grid
	cfg flow.Config
}

// String draws the case so that a failure can be read and typed in again.
func (c groundCase) String() string {
	var b strings.Builder
	for row := range c.g.Rows {
		for col := range c.g.Cols {
			if z := c.g.At(col, row); z == raster.VoidMM {
				b.WriteString("     .")
			} else {
				fmt.Fprintf(&b, "%6d", z)
			}
		}
		b.WriteByte('\n')
	}
	t := c.g.Transform
	fmt.Fprintf(&b, "corner (%g, %g), cells of %g m; open ground %g m long, %g m deep; road %g m, %g m, reach %g m; edge %d\n%+v\n",
		t.OriginX, t.OriginY, t.CellM, c.cfg.CutLengthM, c.cfg.CutDepthM, c.cfg.RoadCutLengthM, c.cfg.RoadCutDepthM, c.cfg.RoadReachM, c.cfg.Edge, c.cfg.Features)
	return b.String()
}

// declared says which features a drawn case may have.
type declared struct{ roads, culverts, ponds, playas bool }

// drawCase draws a grid of steps of 1, 100 or 500 mm, with or without voids, limits from
// none to generous, and features where they may be.
func drawCase(t *rapid.T, may declared) groundCase {
	g := drawGrid(t)
	g.Transform = raster.Transform{OriginX: rastertest.CornerX, OriginY: rastertest.CornerY, CellM: rapid.SampledFrom([]float64{1, 2, 0.5}).Draw(t, "cell m")}
	step := rapid.SampledFrom([]int32{1, 100, 500}).Draw(t, "step mm")
	for i, z := range g.MM {
		if z != raster.VoidMM {
			g.MM[i] = z * step
		}
	}
	c := groundCase{g: g, cfg: flow.Config{
		CutLengthM: rapid.SampledFrom([]float64{0, 1, 2, 2.9, 5, 30}).Draw(t, "cut length m"),
		CutDepthM:  rapid.SampledFrom([]float64{0.002, 0.15, 0.5, 1, 3, 20}).Draw(t, "cut depth m"),
		Edge:       rapid.SampledFrom([]flow.Edge{flow.EdgeOpen, flow.EdgeClosed}).Draw(t, "edge"),
		Workers:    1,
	}}
	if may.roads && rapid.Bool().Draw(t, "has a road") {
		// Wider than in open ground, or the same.
		c.cfg.RoadCutLengthM = max(c.cfg.CutLengthM, rapid.SampledFrom([]float64{0, 3, 10, 60}).Draw(t, "road cut length m"))
		c.cfg.RoadCutDepthM = max(c.cfg.CutDepthM, rapid.SampledFrom([]float64{0.15, 1, 6, 20}).Draw(t, "road cut depth m"))
		c.cfg.RoadReachM = rapid.SampledFrom([]float64{0, 1, 3}).Draw(t, "reach m")
		c.cfg.Features.Roads = []orb.LineString{drawLine(t, g, "road", 2)}
	}
	if may.culverts {
		for range rapid.IntRange(0, 3).Draw(t, "culverts") {
			c.cfg.Features.Culverts = append(c.cfg.Features.Culverts, drawLine(t, g, "culvert", 1))
		}
	}
	if may.ponds && rapid.Bool().Draw(t, "has a stock pond") {
		c.cfg.Features.StockPonds = []orb.Polygon{drawRectangle(t, g, "pond")}
	}
	if may.playas && rapid.Bool().Draw(t, "has a playa") {
		c.cfg.Features.Playas = []orb.Polygon{drawRectangle(t, g, "playa")}
	}
	return c
}

// drawLine draws a line of at least so many vertices on middles of cells of a grid.
func drawLine(t *rapid.T, g *raster.Grid, what string, least int) orb.LineString {
	var line orb.LineString
	for range rapid.IntRange(least, 3).Draw(t, what+" vertices") {
		line = append(line, placeOf(g, rapid.IntRange(0, g.Cols-1).Draw(t, what+" col"), rapid.IntRange(0, g.Rows-1).Draw(t, what+" row")))
	}
	return line
}

// drawRectangle draws a rectangle of up to 5 x 5 whole cells.
func drawRectangle(t *rapid.T, g *raster.Grid, what string) orb.Polygon {
	left, top := rapid.IntRange(0, g.Cols-1).Draw(t, what+" left"), rapid.IntRange(0, g.Rows-1).Draw(t, what+" top")
	right := min(left+rapid.IntRange(0, 4).Draw(t, what+" width"), g.Cols-1)
	bottom := min(top+rapid.IntRange(0, 4).Draw(t, what+" height"), g.Rows-1)
	return rectangle(g, left, top, right, bottom)
}

// in tells which cells have their middle in one of some polygons.
func in(g *raster.Grid, areas []orb.Polygon) []bool {
	inside := make([]bool, len(g.MM))
	for i := range inside {
		x, y := g.CenterOf(i)
		inside[i] = slices.ContainsFunc(areas, func(a orb.Polygon) bool { return planar.PolygonContains(a, orb.Point{x, y}) })
	}
	return inside
}

// roadM returns the distance of a cell's middle from the nearest road, m.
func (c groundCase) roadM(i int) float64 {
	x, y := c.g.CenterOf(i)
	least := math.Inf(1)
	for _, r := range c.cfg.Features.Roads {
		least = min(least, planar.DistanceFrom(r, orb.Point{x, y}))
	}
	return least
}

// onCuts returns how deep the cuts that run through each cell are together, m; -1 where none does.
func onCuts(g *raster.Grid, f *flow.Field) []float64 {
	deep := make([]float64, len(g.MM))
	for i := range deep {
		deep[i] = -1
	}
	for _, c := range f.Cuts {
		for _, i := range c.Cells {
			deep[i] = max(deep[i], 0) + c.DepthM
		}
	}
	return deep
}
