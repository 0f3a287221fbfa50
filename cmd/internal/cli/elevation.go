package cli

import (
	"context"
	"errors"
	"fmt"
	"io/fs"
	"os"

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

// settle closes small holes of a grid and takes a collar as void, and says so in a sentence each.
func settle(grid *raster.Grid) (decisions []string) {
	if mm, cells := grid.DropCollar(); cells > 0 {
		decisions = append(decisions, fmt.Sprintf("%d cells hold exactly %g m, over %d m below all others: taken as void. Declare that value as nodata.",
			cells, float64(mm)/1000, raster.CollarGapM))
	}
	if holes, cells := grid.Bridge(raster.SmallHoleCells); holes > 0 {
		decisions = append(decisions, fmt.Sprintf("Small holes in the data, of at most %d cells each, are bridged from the ground around them (holes: %d, cells: %d). "+
			"The ground there is a guess.", raster.SmallHoleCells, holes, cells))
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

// inputOf returns a file with its checksum; a name that only GDAL understands, such as that of a file in
// an archive, has none.
func inputOf(role, path string) (report.Input, error) {
	if _, err := os.Stat(path); errors.Is(err, fs.ErrNotExist) {
		return report.Input{Role: role, Path: path, SHA256: "none: not a plain file"}, nil
	}
	sum, err := gdal.Checksum(path)
	if err != nil {
		return report.Input{}, err
	}
	return report.Input{Role: role, Path: path, SHA256: sum.SHA256}, nil
}
