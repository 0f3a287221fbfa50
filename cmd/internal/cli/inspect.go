package cli

import (
	"fmt"
	"math"

	"github.com/urfave/cli/v2"

	"siltstep/hydro/siting"
	"siltstep/raster/gdal"
)

func inspectCommand(c *console) *cli.Command {
	return &cli.Command{
		Name:        "inspect",
		Usage:       "say what an elevation model is and what it is fit for",
		ArgsUsage:   "DEM...",
		Description: "Reads the whole model and writes nothing. Several DEM files are one mosaic.",
		Flags:       elevationFlags(),
		Action:      c.inspect,
	}
}

func (c *console) inspect(ctx *cli.Context) error {
	elevation, err := elevationRequest(ctx)
	if err != nil {
		return err
	}
	dem, err := gdal.Open(ctx.Context, elevation)
	if err != nil {
		return err
	}
	job := c.watch(2)
	defer job.close()
	grid, err := readElevation(ctx.Context, dem, job)
	if err != nil {
		return err
	}
	job.begin("judge")
	found := judge(grid)
	job.close()
	c.printInspection(dem.Info(), found)
	return nil
}

func (c *console) printInspection(info gdal.Info, found quality) {
	line := func(name, format string, args ...any) { c.printf("%-12s%s\n", name, fmt.Sprintf(format, args...)) }
	length := func(m float64) string { return c.units.Length(m, 1) }
	wide, high := float64(info.GridCols)*info.GridCellM, float64(info.GridRows)*info.GridCellM
	line("Files", "%d, %s, %s", len(info.Paths), info.Driver, info.BandType)
	line("Size", "%d x %d cells, %s x %s, %s", info.GridCols, info.GridRows, length(wide), length(high), c.units.Area(wide*high, 1))
	line("Cell", "%s", c.units.Length(info.GridCellM, 2))
	line("CRS", "%s, from %s", info.CRSName, info.CRSFrom)
	line("Position", "longitude %.5f to %.5f, latitude %.5f to %.5f", info.West, info.East, info.South, info.North)
	line("Heights", "in %s, from %s", info.HeightUnit, info.HeightUnitFrom)
	low, top := float64(found.lowMM)/1000, float64(found.highMM)/1000
	line("Relief", "%s, from %s to %s", length(top-low), length(low), length(top))
	voids := found.cells - found.valid
	corners := ""
	if !info.Kept {
		corners = "; the warp leaves corners empty"
	}
	line("Voids", "%d cells, %.2f %%; marked by %s%s", voids, 100*float64(voids)/float64(found.cells), info.NoData, corners)
	line("Noise", "%s", c.noise(found))
	c.printf("\nDecisions\n")
	for _, decision := range info.Decisions {
		c.printf("  - %s\n", decision)
	}
	c.printf("\nFit for\n")
	for _, sentence := range fitness(info.GridCellM, found) {
		c.printf("  - %s\n", sentence)
	}
}

// noise tells how far a single height can be trusted.
func (c *console) noise(found quality) string {
	text := "cannot be told"
	if !math.IsNaN(found.noiseM) {
		text = "at most " + c.units.Length(found.noiseM, 3) + " a cell (standard deviation; the land's own curvature counts as noise here)"
	}
	if found.stepMM >= coarseStepMM {
		text += fmt.Sprintf("; heights come in steps of %g m", float64(found.stepMM)/1000)
	}
	return text
}

// coarseStepMM is the step of heights from which it is worth a remark, mm: a sixth of the
// lowest common dam.
const coarseStepMM = 100

// gullyCells is how many cells across a gully must be for its depth to show. Common
// practice: two samples on the banks and one on the bed.
const gullyCells = 3

// noisyM is the noise from which the bed of a gully is in doubt, m: half of the least
// incision of 0.3 m that counts as a gully (Wilkinson 2015). On cells over siting.BestCellM
// the land's own curvature outweighs noise, and nothing is said.
const noisyM = 0.15

// fitness says what the data can be used for.
func fitness(cellM float64, found quality) (sentences []string) {
	say := func(format string, args ...any) { sentences = append(sentences, fmt.Sprintf(format, args...)) }
	switch {
	case cellM > siting.MaxSiteCellM:
		say("Screening only: cells of %.4g m can screen drainages but cannot site check dams. Plans on it hold no dams without --allow-coarse.", cellM)
	case cellM > siting.BestCellM:
		say("Screening, and dams at lower confidence: cells of %.4g m, over %g m, blur banks and steps.", cellM, siting.BestCellM)
	default:
		say("Screening and siting: cells of %.4g m show the bed of all but narrow gullies.", cellM)
	}
	say("Gullies narrower than about %.4g m (%d cells) do not show their full depth.", gullyCells*cellM, gullyCells)
	if found.noiseM > noisyM && cellM <= siting.BestCellM {
		say("Heights scatter by up to %.2f m a cell: expect false steps in the bed; measure spacing and drop on the ground.", found.noiseM)
	}
	if found.stepMM >= coarseStepMM {
		say("Heights in steps of %g m hide the bed slope over short reaches.", float64(found.stepMM)/1000)
	}
	if found.valid < found.cells {
		say("Flow ends at a hole, and what enters from one is unknown: fill holes near the drainages that matter.")
	}
	say("Drainages whose head lies outside the data are marked truncated: have a margin around the property.")
	return sentences
}
