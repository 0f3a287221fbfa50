package hydro

import (
	"math"
	"strings"
	"testing"

	"siltstep/hydro/checkdam"
	"siltstep/hydro/siting"
	"siltstep/raster"
)

// ways, shifts and stations of dams at which prisms are drawn and measured.
var (
	ways   = []way{{0, 0}, {10, 0}, {22.5, 0}, {35, 0}, {45, 0}, {0, 25}, {30, -40}}
	shifts = [][2]float64{{0, 0}, {0.25, 0.1}, {0.5, 0.5}}
	axesM  = []float64{19, 21.3, 23.1, 25.4}
)

// pond measures the pond of a dam up to where it ends.
func (g *valleyGround) pond(axisM, heightM float64) checkdam.Measured {
	return g.storage(&siting.Site{StationM: axisM, EffectiveHeightM: heightM}, checkdam.Body{}, 0, math.Inf(1))
}

// amidst reports whether fitted sections lie near to both sides of a station.
func (g *valleyGround) amidst(stationM float64) bool {
	below, above := false, false
	for i := range g.sections {
		if s := &g.sections[i]; fitted(s) && math.Abs(s.StationM-stationM) <= g.withinM {
			below, above = below || s.StationM <= stationM, above || s.StationM >= stationM
		}
	}
	return below && above
}

// A V or trapezoid of bed b, sides z and height H on cells of c, its coarseness q = c/(zH) being side slope × cell over height. To 0.3 a bank up to the sill
// spans three cells and more, of which samples on the bank alone, half a cell from toe and top, give its line as drawn: 2 % are left for the length of
// the line and the level of the bed. Above 0.3 a bank may be told from samples beside a break. Between two centres bilinear sampling rounds
// a break of slope 1/z off by up to a quarter of a cell along the grid, √2/4 along its diagonal: the ground is up to √2c/(4z) too high at a toe, so that the line of
// a bank stands up to √2c/4 to the side, both together √2c/2. The pond is then off by that width over the mean depth of H/2,
// ∫ √2c/2·d dx = √2c/2·H²/(2k), which of bH²/(2k) + zH³/(3k) is (√2/2)·c/(b + 2zH/3).
func TestStorageOfPrisms(t *testing.T) {
	if testing.Short() {
		t.Skip("measures some two thousand ponds")
	}
	for _, c := range []struct {
		cellM, bedM, side, heightM float64
		least                      int // dams of 84 that are to be measured, by trials: the more coarse a V, the fewer sections show its tip
	}{
		{.25, 2, 1, .9, 84}, {.25, 2, 1.5, .6, 84}, {.25, 0, 1.5, .6, 84}, {.25, 0, 1, .85, 84}, {.25, 3, 2, .45, 84}, {.25, 1, 1.5, .6, 84},
		{.5, 2, 2, .9, 84}, {.5, 0, 2, .9, 84}, {.5, 3, 1.5, 1.2, 84}, {.5, 1, 2, .9, 84},
		{1, 4, 2.5, 1.4, 75}, {1, 0, 2.5, 1.4, 60}, {1, 2, 2.5, 1.4, 75},
		{.25, 2, 1, .3, 84}, {.25, 0, 1, .5, 75}, {.5, 2, 1, .9, 84}, {.5, 2, 1, .5, 75}, {.5, 0, 1, .9, 60}, {.5, 0, 2, .4, 75}, {.5, 2, 2, .4, 84},
		{1, 2, 1.5, 1.2, 84}, {1, 2, 2, .6, 84}, {1, 0, 2.5, .8, 50}, {1, 3, 1.5, .8, 84},
		// Banks of less than a cell beside beds of more than one.
		{1, 3, 1, .6, 75}, {1, 4, 1.5, .5, 75}, {.5, 2, 1, .4, 75},
	} {
		want := prismM3(c.bedM, c.side, c.heightM)
		coarse := c.cellM / (c.side * c.heightM)
		limit := 0.02
		if coarse > 0.3 {
			limit = math.Sqrt2 / 2 * c.cellM / (c.bedM + 2*c.side*c.heightM/3)
		}
		measured, worst := 0, 0.0
		squares, told := 0.0, 0.0
		for _, w := range ways {
			for _, shift := range shifts {
				_, g := gully{bedM: c.bedM, side: c.side, bankM: c.heightM + .4, cellM: c.cellM, way: w, shift: shift}.ground(t, 1)
				for _, axisM := range axesM {
					m := g.pond(axisM, c.heightM)
					if m.Why != "" {
						continue
					}
					measured++
					off, limit := m.SedimentM3/want-1, limit
					if !g.amidst(axisM) {
						limit = max(limit, 0.05) // the shape goes on from a section above or below
					} else {
						worst = max(worst, math.Abs(off))
					}
					squares, told = squares+off*off, told+m.SedimentHighM3/m.SedimentM3-1
					if !(math.Abs(off) <= limit) {
						t.Errorf("%+v, q %.2f, %+v, shift %v, station %g: %.3f m³, want %.3f: off by %+.2f %%, allowed %.2f", c, coarse, w, shift, axisM, m.SedimentM3, want, 100*off, 100*limit)
					}
				}
			}
		}
		if measured < c.least {
			t.Errorf("%+v, q %.2f: %d dams measured", c, coarse, measured)
		}
		made := math.Sqrt(squares / float64(measured))
		told /= float64(measured) // cells do not err: all of it is that of widths
		if coarse > 0.3 && !(made <= 1.5*told) {
			t.Errorf("%+v, q %.2f: off by %.2f %%, told %.2f", c, coarse, 100*made, 100*told)
		}
		t.Logf("%+v, q %.2f: at most %.2f %% off, allowed %.2f; in the mean square %.2f, told %.2f", c, coarse, 100*worst, 100*limit, 100*made, 100*told)
	}
}

// cellSumM3 adds up the depths of cells below a level above a dam, on a gully that runs south.
func (d gully) cellSumM3(g *raster.Grid, axisRow int, levelM float64) float64 {
	sum := 0.0
	for i, mm := range g.MM {
		if _, row := g.ColRow(i); row <= axisRow {
			sum += max(0, levelM-float64(mm)/1000) * d.cellM * d.cellM
		}
	}
	return sum
}

// Adding up cells errs in a V by +q²/2 with the thalweg on a centre, and by −q²/4 midway between two, derived from the sum of a triangle's ordinates.
// On the same grids the fitted sections stay within 2 %, and cells do not. Midway cells reach 2 % only above q 0.28.
func TestSumOfCellsFailsWhereSectionsHold(t *testing.T) {
	for _, c := range []struct{ cellM, side, heightM float64 }{
		{.5, 2, .9}, {.5, 2, .85}, {.25, 1.5, .6}, {1, 2.5, 1.4}, {.5, 2, .6},
	} {
		d := gully{side: c.side, bankM: c.heightM + .4, cellM: c.cellM}
		grid, g := d.ground(t, 1)
		coarse := c.cellM / (c.side * c.heightM)
		want := prismM3(0, c.side, c.heightM)
		axisRow := grid.Rows - 1 - int(12/c.cellM)
		// The lower edge of a row lies half a cell beyond its centres.
		axisBedM := 100 - gullySlope*(float64(axisRow)+.5-float64(grid.Rows-1)/2)*c.cellM
		cells := d.cellSumM3(grid, axisRow, axisBedM+c.heightM)/want - 1
		if math.Abs(cells-coarse*coarse/2) > 0.006 { // the rest is the ragged upper end
			t.Errorf("%+v: cells are off by %+.2f %%, derived %+.2f", c, 100*cells, 100*coarse*coarse/2)
		}
		if math.Abs(cells) <= 0.02 {
			t.Errorf("%+v: cells are off by %+.2f %% only", c, 100*cells)
		}
		if off := g.pond(15, c.heightM).SedimentM3/want - 1; !(math.Abs(off) <= 0.02) {
			t.Errorf("%+v: sections are off by %+.2f %%", c, 100*off)
		}
	}
}

func TestTooCoarseToMeasure(t *testing.T) {
	for _, c := range []struct {
		cellM, bedM, side, bankM, heightM float64
		want                              string
	}{
		// 1/(2·0.3) = 1.7; 0.5/(1.5·0.2) = 1.7, of Vs that are deep enough to be resolved.
		{.5, 0, 2, 1.5, .15, "cells of 0.5 m are too coarse: the bed is"},
		{.25, 0, 1.5, 1.5, .12, "cells of 0.25 m are too coarse: the bed is"},
		{1, 0, 1, 1, .6, "no cross-section with banks is resolved within 7.5 m of the axis"},
	} {
		for _, w := range ways {
			_, g := gully{bedM: c.bedM, side: c.side, bankM: c.bankM, cellM: c.cellM, way: w}.ground(t, 1)
			for _, axisM := range axesM {
				m := g.pond(axisM, c.heightM)
				if !math.IsNaN(m.PondM3) || !math.IsNaN(m.SedimentM3) || !math.IsNaN(m.SedimentLowM3) || !strings.HasPrefix(m.Why, c.want[:20]) {
					t.Errorf("%+v, %+v, station %g: %+v", c, w, axisM, m)
				}
				if w == ways[0] && !strings.HasPrefix(m.Why, c.want) {
					t.Errorf("%+v: %s", c, m.Why)
				}
			}
		}
	}
}

func TestMirroredGullyHoldsTheSame(t *testing.T) {
	d := gully{bedM: 2, side: 1.5, bankM: 1, cellM: .5, way: way{20, 30}, shift: [2]float64{.3, .1}}
	_, g := d.ground(t, 1)
	d.way, d.shift[0] = way{-20, -30}, -.3
	_, mirrored := d.ground(t, 1)
	for _, axisM := range axesM {
		if a, b := g.pond(axisM, .8).SedimentM3, mirrored.pond(axisM, .8).SedimentM3; !(math.Abs(b/a-1) <= 0.01) { // D8 breaks ties by its own order, and the line with it
			t.Errorf("station %g: %.3f m³, mirrored %.3f", axisM, a, b)
		}
	}
}
