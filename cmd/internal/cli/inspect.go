package cli

import (
	"fmt"

	"github.com/urfave/cli/v2"

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
	job.begin("read")
	grid, err := dem.ReadOwn(ctx.Context, job.part)
	if err != nil {
		return err
	}
	job.cells = len(grid.MM)
	job.begin("judge")
	found := judge(grid, dem.Info().GridCellM)
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
	line("Voids", "%d cells, %.2f %%; marked by %s", voids, 100*float64(voids)/float64(found.cells), info.NoData)
	c.printf("\nDecisions\n")
	for _, decision := range info.Decisions {
		c.printf("  - %s\n", decision)
	}
	c.printf("\nWhat it means for siting\n")
	if !info.Kept {
		c.printf("Read from the data's own %d x %d cells, before the warp.\n", info.Cols, info.Rows)
	}
	remarks := fitness{found, c.units}.remarks()
	for _, r := range remarks {
		line(r.name, "%s", r.found)
		line("", "%s", r.means)
	}
	c.printf("\n")
	line("Verdict", "%s", verdict(remarks))
}
