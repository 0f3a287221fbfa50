package cli

import (
	"math"
	"strings"
	"testing"

	"siltstep/cmd/internal/units"
	"siltstep/raster"
)

// good is a model of 100 ha without a fault.
func good() quality {
	return quality{cellM: 1, cells: 1_000_000, valid: 1_000_000, groundM2: 1_000_000, noiseM: 0.03, step: raster.Step{MM: 1, Distinct: 100_000, Share: 1}, seamsTold: true}
}

// One measure at a time departs from a good model, on either side of each limit.
func TestFitness(t *testing.T) {
	nan := math.NaN()
	for _, row := range []struct {
		name   string
		change func(q *quality)
		want   fit
		heed   string // in the verdict; empty: nothing found
	}{
		{"good", func(*quality) {}, fitToSite, ""},
		{"2 m", func(q *quality) { q.cellM = 2 }, fitToSite, ""},
		{"3 m", func(q *quality) { q.cellM = 3 }, fitToSite, "cells of 3.0 m blur"},
		{"5 m is sited still", func(q *quality) { q.cellM = 5 }, fitToSite, "cells of 5.0 m blur"},
		{"20 m", func(q *quality) { q.cellM = 20 }, fitToScreen, "cells of 20.0 m, over 5.0 m"},
		{"40 m: 4 ha are 25 cells", func(q *quality) { q.cellM = 40 }, fitToScreen, "cells of 40.0 m"},
		{"41 m: 4 ha are 23.8 cells", func(q *quality) { q.cellM = 41 }, unfit, "4.0 ha, holds 23.8"},
		{"0.2 ha of data", func(q *quality) { q.groundM2 = 2000 }, unfit, "less ground than the least catchment of a dam, 0.25 ha"},
		{"small holes", func(q *quality) { q.holes = raster.Holes{Small: 3, SmallCells: 40} }, fitToSite, ""},
		{"one large hole", func(q *quality) { q.holes = raster.Holes{Large: 1, LargeCells: 26} }, fitToSite, "1 large hole in the data"},
		{"a tenth in holes", func(q *quality) { q.holes = raster.Holes{Large: 2, LargeCells: 110_000} }, fitToScreen, "2 large holes in the data"},
		{"corners", func(q *quality) { q.holes = raster.Holes{EdgeCells: 500_000} }, fitToSite, ""},
		{"lakes", func(q *quality) { q.levelShare = 0.3 }, fitToSite, ""},
		{"half level", func(q *quality) { q.levelShare = 0.6 }, fitToScreen, "60 % of the ground is level"},
		{"all level", func(q *quality) { q.levelShare = 1 }, unfit, "100 % of the ground is level"},
		{"noise under half a gully", func(q *quality) { q.noiseM = 0.15 }, fitToSite, ""},
		{"noise over it", func(q *quality) { q.noiseM = 0.16 }, fitToScreen, "noise of 0.160 m"},
		{"noise over a dam", func(q *quality) { q.noiseM = 0.61 }, unfit, "noise of 0.610 m, higher than a dam"},
		{"land that counts as noise", func(q *quality) { q.cellM, q.noiseM = 20, 3 }, fitToScreen, "cells of 20.0 m"},
		{"noise not known", func(q *quality) { q.noiseM = nan }, fitToSite, ""},
		{"centimetres", func(q *quality) { q.step.MM = 10 }, fitToSite, ""},
		{"half decimetres", func(q *quality) { q.step.MM = 50 }, fitToSite, "steps of 0.050 m"},
		{"decimetres", func(q *quality) { q.step.MM = 100 }, fitToScreen, "steps of 0.100 m"},
		{"noise that steps make", func(q *quality) { q.step.MM, q.noiseM = 1000, 0.33 }, fitToScreen, "steps of 1.000 m"},
		{"noise over steps", func(q *quality) { q.step.MM, q.noiseM = 100, 0.7 }, unfit, "noise of 0.700 m"},
		{"weak stripes", func(q *quality) { q.stripeRowsM = 0.02 }, fitToSite, ""},
		{"stripes", func(q *quality) { q.stripeColsM = 0.03 }, fitToSite, "stripes of 0.03 m"},
		{"strong stripes", func(q *quality) { q.stripeRowsM = 0.10 }, fitToScreen, "stripes of 0.10 m"},
		{"a seam", func(q *quality) { q.seams = []raster.Seam{{After: 9, JumpM: 0.1}} }, fitToSite, "1 seam of up to 0.10 m"},
		{"high seams", func(q *quality) { q.seams = []raster.Seam{{After: 9, JumpM: 0.3}, {Columns: true, JumpM: 0.1}} }, fitToScreen, "2 seams of up to 0.30 m"},
		{"a shed", func(q *quality) { q.rough.TopsPerHa = 0.2 }, fitToSite, "some trees or roofs"},
		{"an orchard", func(q *quality) { q.rough.TopsPerHa = 5 }, fitToScreen, "a surface model: 5.0 a hectare"},
		{"a forest", func(q *quality) { q.rough = raster.Roughness{SteepShare: 0.4, TopsPerHa: 50} }, unfit, "a surface model: 50.0 a hectare"},
		{"badlands", func(q *quality) { q.rough.SteepShare = 0.2 }, fitToSite, ""},
		{"cover not known", func(q *quality) { q.rough = raster.Roughness{SteepShare: nan, TopsPerHa: nan} }, fitToSite, ""},
	} {
		t.Run(row.name, func(t *testing.T) {
			q := good()
			row.change(&q)
			got := verdict(fitness{q, units.Metric}.remarks())
			heed := row.heed
			if heed == "" {
				heed = "nothing found"
			}
			if !strings.HasPrefix(got, row.want.String()) || !strings.Contains(got, heed) {
				t.Errorf("%q, want %s with %q", got, row.want, heed)
			}
		})
	}
}

// 11 heights 1 m apart: 11·(121 − 1)/12 = 110, so 1/√110 = 0.09535 for each metre of error; 6 heights 2 m apart:
// 1/(2·√(6·35/12)) = 0.1195; on cells of 10 m two heights, 1/(10·√(2·3/12)) = 0.1414.
func TestSlopeError(t *testing.T) {
	for _, row := range [][2]float64{{1, 0.09535}, {2, 0.11952}, {10, 0.14142}} {
		if got := slopeError(row[0]); math.Abs(got-row[1]) > 1e-5 {
			t.Errorf("cells of %g m: got %g, want %g", row[0], got, row[1])
		}
	}
}

// What cannot be told is said, and not taken for a clean bill.
func TestFitnessSaysWhatIsNotKnown(t *testing.T) {
	q := judge(raster.New(2, 3, raster.Transform{CellM: 10}), 10)
	for _, r := range (fitness{q, units.Metric}).remarks() {
		want := map[string]string{"Level": "cannot be told", "Noise": "cannot be told", "Steps": "cannot be told",
			"Stripes": "too few cells to tell", "Seams": "too few cells to tell", "Cover": "cannot be told"}[r.name]
		if !strings.Contains(r.found, want) {
			t.Errorf("%s: %q, want %q in it", r.name, r.found, want)
		}
	}
	q = good()
	q.noiseM, q.step.MM = 0.04, 50
	if r := (fitness{q, units.Metric}).noise(); !strings.Contains(r.found, "hidden") {
		t.Errorf("noise under the step: %q", r.found)
	}
	q.noiseM, q.step.MM = 0.0004, 1
	if r := (fitness{q, units.Metric}).noise(); !strings.Contains(r.means, "smoothed or drawn") {
		t.Errorf("no noise: %q", r.means)
	}
}

// All faults at once, the gravest first and each use's in the order of the table.
func TestVerdict(t *testing.T) {
	got := verdict([]remark{{heed: "a"}, {fit: fitToScreen, heed: "b"}, {}, {fit: unfit, heed: "c"}, {fit: fitToScreen, heed: "d"}})
	if want := "unfit: c; b; d; a"; got != want {
		t.Errorf("%q, want %q", got, want)
	}
}
