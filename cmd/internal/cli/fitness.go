package cli

import (
	"fmt"
	"math"
	"strings"

	"siltstep/cmd/internal/units"
	"siltstep/hydro/siting"
	"siltstep/raster"
)

// Where a measure begins to matter. Source: our own choices, but for those of another source.
const (
	gullyCells     = 3     // cells across a gully for its depth to show: two on the banks and one on the bed (common practice)
	leastIncisionM = 0.3   // m; least depth that counts as a gully (Wilkinson 2015)
	noiselessM     = 0.001 // m; less than any survey of ground
	noisyM         = 0.15  // m; noise from which the bed is in doubt: half of leastIncisionM
	catchmentCells = 25    // cells of the largest catchment of a dam for its drainage to show
	coarseStepMM   = 50    // step of heights worth a remark, mm: a sixth of leastIncisionM
	hidingStepMM   = 100   // step that hides the bed, mm: a third of leastIncisionM
	stripeHeedM    = 0.03  // m; offset of lines to heed: a tenth of leastIncisionM
	stripeHideM    = 0.10  // m; offset that looks like steps in a bed: a third of leastIncisionM
	holeShare      = 0.05  // share of the data in large holes that breaks drainages
	levelHeed      = 0.001 // share of level cells worth a word
	levelHalf      = 0.5   // share of level cells with which most drainages are nominal
	levelMost      = 0.9   // share with which there is no drainage
	topsSome       = 0.1   // things a hectare that stand on the ground: a shed or a few trees left in
	topsSurface    = 1.0   // a model of the surface, not of the ground
	topsForest     = 20.0  // a closed cover: nothing of the ground is left
	steepHeed      = 0.01  // share of cliffs, gully walls or eaves worth a word
	slopeReachM    = 10.0  // m; length over which the bed slope is read
	seamsListed    = 3     // seams listed one by one
)

// fitness puts measures into words in the units that people read.
type fitness struct {
	quality
	units units.System
}

// remarks says of each measure what was found and what it means.
func (f fitness) remarks() []remark {
	return []remark{f.extent(), f.resolution(), f.voids(), f.level(), f.noise(), f.steps(), f.stripes(), f.seamLines(), f.cover()}
}

func (f fitness) extent() remark {
	least := siting.Defaults().CatchmentMinM2
	r := remark{
		name: "Extent", found: f.units.Area(f.groundM2, 1) + " of data",
		means: "Drainages whose head lies outside are marked truncated: have a margin around the property.",
	}
	if f.groundM2 < least {
		r.fit, r.heed = unfit, fmt.Sprintf("less ground than the least catchment of a dam, %s", f.units.Area(least, 2))
	}
	return r
}

func (f fitness) resolution() remark {
	cell := f.units.Length(f.cellM, 1)
	most := siting.Defaults().CatchmentMaxM2
	held := most / (f.cellM * f.cellM)
	r := remark{name: "Resolution", found: fmt.Sprintf("gullies narrower than about %s (%d cells) do not show their full depth", f.units.Length(gullyCells*f.cellM, 1), gullyCells)}
	switch {
	case held < catchmentCells:
		r.fit, r.heed = unfit, fmt.Sprintf("cells of %s, of which the largest catchment of a dam, %s, holds %.1f", cell, f.units.Area(most, 1), held)
		r.means = "Drainages of the size that check dams are for do not show."
	case f.cellM > siting.MaxSiteCellM:
		r.fit, r.heed = fitToScreen, fmt.Sprintf("cells of %s, over %s", cell, f.units.Length(siting.MaxSiteCellM, 1))
		r.means = "Drainages can be screened. Plans hold no dams without --allow-coarse."
	case f.cellM > siting.BestCellM:
		r.heed = fmt.Sprintf("cells of %s blur banks and steps", cell)
		r.means = "Dams can be sited at lower confidence: banks and steps are blurred."
	default:
		r.means = "Beds and steps of all but narrow gullies show."
	}
	return r
}

func (f fitness) voids() remark {
	h := f.holes
	r := remark{name: "Holes", means: "Flow is not broken inside the data."}
	var found []string
	if h.EdgeCells > 0 {
		found = append(found, fmt.Sprintf("%d empty cells around the data", h.EdgeCells))
	}
	if h.Small > 0 {
		found = append(found, fmt.Sprintf("%s of at most %d cells (%d cells in all)", counted(h.Small, "small hole"), raster.SmallHoleCells, h.SmallCells))
		r.means = "Small holes are bridged from the ground around them, which is a guess there."
	}
	if h.Large > 0 {
		found = append(found, fmt.Sprintf("%s (%d cells)", counted(h.Large, "large hole"), h.LargeCells))
		r.means = "Flow ends at a large hole, and what enters from one is unknown: fill those near the drainages that matter."
		r.heed = counted(h.Large, "large hole") + " in the data"
		if float64(h.LargeCells) > holeShare*float64(f.valid+h.LargeCells) {
			r.fit = fitToScreen
		}
	}
	if r.found = strings.Join(found, ", "); r.found == "" {
		r.found = "none"
	}
	return r
}

func (f fitness) level() remark {
	r := remark{name: "Level", found: fmt.Sprintf("%.2f %% of cells are level with all their neighbours", 100*f.levelShare)}
	switch share := f.levelShare; {
	case math.IsNaN(share):
		r.found, r.means = "cannot be told", "No cell has eight neighbours with data."
	case share < levelHeed:
		r.means = "The ground itself tells where water goes."
	default:
		r.means = "Lakes, or ground that was filled in: lines of flow across them are nominal."
		if share > levelHalf {
			r.fit, r.heed = fitToScreen, fmt.Sprintf("%.0f %% of the ground is level", 100*share)
		}
		if share > levelMost {
			r.fit, r.means = unfit, "There is no slope for a drainage to follow."
		}
	}
	return r
}

// counted returns a number of things, "1 hole" or "2 holes".
func counted(n int, thing string) string {
	if n != 1 {
		thing += "s"
	}
	return fmt.Sprintf("%d %s", n, thing)
}
