package cli

import (
	"context"
	"fmt"

	"github.com/urfave/cli/v2"

	"siltstep/cmd/internal/report"
	"siltstep/raster"
	"siltstep/raster/gdal"
)

// elevationFlags say what an elevation model does not say of itself.
func elevationFlags() []cli.Flag {
	return []cli.Flag{
		&cli.StringFlag{Name: "crs", Usage: "take `CODE`, such as EPSG:32613, for data that states no coordinate system"},
		&cli.StringFlag{Name: "elevation-unit", Usage: "take `UNIT`, which is m, ft or us-ft, for heights of data that states none"},
	}
}

// elevationRequest takes files and flags from the command line.
func elevationRequest(ctx *cli.Context) (gdal.Request, error) {
	if !ctx.Args().Present() {
		return gdal.Request{}, requestf("no elevation model is named; give one or more files, as in siltstep %s dem.tif", ctx.Command.Name)
	}
	return gdal.Request{
		Paths:         ctx.Args().Slice(),
		CRS:           ctx.String("crs"),
		ElevationUnit: ctx.String("elevation-unit"),
	}, nil
}

// readElevation reads all heights, as a stage of its own.
func readElevation(ctx context.Context, dem *gdal.DEM, job *stages) (*raster.Grid, error) {
	job.begin("read")
	grid, err := dem.Read(ctx, job.part)
	if err != nil {
		return nil, err
	}
	job.cells = len(grid.MM)
	return grid, nil
}

// bridgeHoles closes the small holes of a grid, and says so in a sentence where there are any.
func bridgeHoles(grid *raster.Grid) (decisions []string) {
	if holes, cells := grid.Bridge(raster.SmallHoleCells); holes > 0 {
		decisions = append(decisions, fmt.Sprintf("Small holes in the data are bridged from the ground around them: %d holes, %d cells, at most %d cells each. "+
			"The ground there is a guess.", holes, cells, raster.SmallHoleCells))
	}
	return decisions
}

// elevationInputs returns the checksums of the files and of those beside them that GDAL
// heeds.
func elevationInputs(paths []string) ([]report.Input, error) {
	var inputs []report.Input
	for _, path := range paths {
		for _, file := range append([]string{path}, gdal.Sidecars(path)...) {
			input, err := inputOf("elevation", file)
			if err != nil {
				return nil, err
			}
			inputs = append(inputs, input)
		}
	}
	return inputs, nil
}

func inputOf(role, path string) (report.Input, error) {
	sum, err := gdal.Checksum(path)
	if err != nil {
		return report.Input{}, fmt.Errorf("%s: %w", path, err)
	}
	return report.Input{Role: role, Path: path, SHA256: sum.SHA256}, nil
}
