package cli

import (
	"fmt"
	"math"
	"strings"

	"siltstep/cmd/internal/units"
	"siltstep/hydro/siting"
	"siltstep/raster"
)

// noise tells how far a single height can be trusted. A step hides the noise that is not larger.
func (f fitness) noise() remark {
	r := remark{name: "Noise"}
	told := f.units.Length(f.noiseM, 3)
	switch {
	case math.IsNaN(f.noiseM):
		r.found, r.means = "cannot be told", "Too few cells in a row hold data that is not level. Measure spacing and drop on the ground."
	case f.steppedMM()/1000 > f.noiseM:
		r.found, r.means = "hidden by the steps of heights", "Measure spacing and drop on the ground."
	case f.noiseM < noiselessM:
		r.found, r.means = "none", "No ground is measured that well: the data was smoothed or drawn, and small steps may be gone."
	case f.cellM > siting.MaxSiteCellM:
		r.found = told + " a cell, standard deviation on the smoothest quarter of the ground"
		r.means = "The shape of the land counts as noise on cells this large; a bed reads no finer than that."
	default:
		r.found = told + " a cell, standard deviation on the smoothest quarter of the ground"
		r.means = fmt.Sprintf("The drop from dam to dam reads to about %s, bed slope over %s to %s; errors that neighbouring cells share come on top.",
			f.units.Length(math.Sqrt2*f.noiseM, 2), f.units.Length(slopeReachM, 0), f.units.Slope(f.noiseM*slopeError(f.cellM), 1))
		switch {
		case f.noiseM > siting.Defaults().HeightM:
			r.fit, r.heed = unfit, fmt.Sprintf("noise of %s, higher than a dam", told)
		case f.noiseM > noisyM:
			r.fit, r.heed = fitToScreen, fmt.Sprintf("noise of %s makes false steps in beds", told)
		}
	}
	return r
}

// slopeError returns the standard error, in 1/m, of a least-squares slope through heights a cell apart over slopeReachM
// that each err by one: 1/(c·√(n(n² − 1)/12)) for n of them.
func slopeError(cellM float64) float64 {
	n := max(2, math.Floor(slopeReachM/cellM)+1)
	return 1 / (cellM * math.Sqrt(n*(n*n-1)/12))
}

func (f fitness) steps() remark {
	r := remark{name: "Steps"}
	step := f.units.Length(f.step.MM/1000, 3)
	switch {
	case math.IsNaN(f.step.MM):
		r.found, r.means = "cannot be told", "All heights are equal."
	case f.step.MM < 1.5:
		r.found, r.means = "none: heights come to the millimetre", "Fine enough for any bed."
	case f.steppedMM() == 0:
		r.found, r.means = "heights come in steps of "+step, "Fine enough for beds and dams."
	default:
		r.found = fmt.Sprintf("heights come in steps of %s: %d different ones, %.2g %% of what there could be", step, f.step.Distinct, 100*f.step.Share)
		r.means = fmt.Sprintf("A bed of %s stays level over %s and then falls by a step.", f.units.Slope(siting.Defaults().SlopeMin, 0),
			f.units.Length(f.step.MM/1000/siting.Defaults().SlopeMin, 1))
		r.heed = "heights in steps of " + step
		if f.step.MM >= hidingStepMM {
			r.fit = fitToScreen
		}
	}
	return r
}

func (f fitness) stripes() remark {
	r := remark{name: "Stripes"}
	var found []string
	worst := 0.0
	for _, way := range []struct {
		name    string
		offsetM float64
	}{{"rows", f.stripeRowsM}, {"columns", f.stripeColsM}} {
		switch {
		case math.IsNaN(way.offsetM):
			found = append(found, "too few cells to tell of "+way.name)
		case way.offsetM > 0:
			found = append(found, fmt.Sprintf("%s stand %s above and below each other", way.name, f.units.Length(way.offsetM, 3)))
			worst = max(worst, way.offsetM)
		}
	}
	r.found = strings.Join(found, ", ")
	if math.IsNaN(f.stripeRowsM) && math.IsNaN(f.stripeColsM) {
		r.found = "too few cells to tell"
	}
	switch {
	case worst > 0:
		r.means = "They look like small steps in beds that cross them."
	case r.found == "":
		r.found, r.means = "none found", "Rows and columns do not stand out; stripes that run aslant would not be seen."
	default:
		r.means = "Look at the shaded relief for them."
	}
	if worst >= stripeHeedM {
		r.heed = fmt.Sprintf("stripes of %s", f.units.Length(worst, 2))
	}
	if worst >= stripeHideM {
		r.fit = fitToScreen
	}
	return r
}

func (f fitness) seamLines() remark {
	r := remark{name: "Seams", found: "none found", means: "No full row or column of the data steps up or down; jumps lower than the noise would not be seen."}
	if !f.seamsTold {
		r.found, r.means = "too few cells to tell", "Look at the shaded relief for straight lines."
	}
	if len(f.seams) == 0 {
		return r
	}
	var told []string
	for _, s := range f.seams[:min(len(f.seams), seamsListed)] {
		line := "row"
		if s.Columns {
			line = "column"
		}
		told = append(told, fmt.Sprintf("%s after %s %d", f.units.Length(s.JumpM, 2), line, s.After))
	}
	if more := len(f.seams) - seamsListed; more > 0 {
		told = append(told, fmt.Sprintf("%d more", more))
	}
	r.found = "the ground jumps by " + strings.Join(told, ", ")
	r.means = "Tiles disagree there: a bed that crosses shows a false headcut or a dam. Trust no site beside it."
	r.heed = fmt.Sprintf("%s of up to %s", counted(len(f.seams), "seam"), f.units.Length(f.seams[0].JumpM, 2))
	if f.seams[0].JumpM >= leastIncisionM {
		r.fit = fitToScreen
	}
	return r
}

// cover tells whether trees and roofs stand on the ground.
func (f fitness) cover() remark {
	r := remark{name: "Cover"}
	if math.IsNaN(f.rough.TopsPerHa) {
		r.found = fmt.Sprintf("trees and roofs cannot be told on cells over %s", f.units.Length(raster.RoughCellM, 1))
		r.means = "Make sure that the data is bare earth (terrain), not tops of trees and roofs (surface)."
		return r
	}
	tops, high := fmt.Sprintf("%.1f a hectare", f.rough.TopsPerHa), "2 to 25 m"
	if f.units == units.US {
		tops, high = fmt.Sprintf("%.1f an acre", f.rough.TopsPerHa*units.AcreM2/units.HectareM2), "7 to 82 ft"
	}
	r.found = fmt.Sprintf("things %s high that fall off on all sides: %s; steeper than 45° in high relief: %.2f %% of cells", high, tops, 100*f.rough.SteepShare)
	switch t := f.rough.TopsPerHa; {
	case t >= topsSurface:
		r.fit, r.heed = fitToScreen, "a surface model: "+tops+" stand on the ground"
		if t >= topsForest {
			r.fit = unfit
		}
		r.means = "Trees and roofs are left in: they dam flow and hide beds. Ask for bare-earth (terrain) data."
	case t >= topsSome:
		r.heed = "some trees or roofs left in"
		r.means = "Some trees, roofs or rocks are left in: look at the shaded relief where a drainage turns without reason."
	case f.rough.SteepShare > steepHeed:
		r.means = "Walls of gullies or cliffs; little stands on the ground."
	default:
		r.means = "Reads as bare ground."
	}
	return r
}
