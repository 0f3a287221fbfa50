package cli

import (
	"context"
	"fmt"

	"siltstep/hydro/erosion"
	"siltstep/hydro/flow"
	"siltstep/raster/gdal"
)

// rasterVoid marks cells without data in rasters of real numbers.
const rasterVoid = -9999

const squareMetresPerHectare = 10_000

// rasters writes what was computed for every cell: the conditioned ground in metres, the catchment in
// hectares, the depth below the land around in metres, and the bearing of flow in whole degrees.
func (w planWriter) rasters(ctx context.Context) error {
	plan := w.record.Plan
	f, cols := plan.Flow, plan.Grid.Cols
	sheet := gdal.SheetOf(plan.Grid, w.crs)
	cellHa := plan.Grid.Transform.CellM * plan.Grid.Transform.CellM / squareMetresPerHectare
	real := func(name string, value func(cell int) float64) error {
		return w.raster(name, func(path string) error {
			return gdal.WriteFloat(ctx, path, sheet, rasterVoid, func(row int, buf []float32) {
				for col := range buf {
					buf[col] = rasterVoid
					if cell := row*cols + col; f.Valid(cell) {
						buf[col] = float32(value(cell))
					}
				}
			})
		})
	}
	if err := real("conditioned", func(cell int) float64 { return float64(f.FilledMM[cell]) / 1000 }); err != nil {
		return err
	}
	if err := real("catchment_ha", func(cell int) float64 { return float64(f.Cells[cell]) * cellHa }); err != nil {
		return err
	}
	depthMM := erosion.TopHatMM(plan.Grid, plan.Config.Erosion.WindowM, plan.Config.Flow.Workers)
	if err := real("incision", func(cell int) float64 { return float64(depthMM[cell]) / 1000 }); err != nil {
		return err
	}
	return w.raster("bearing", func(path string) error {
		return gdal.WriteInt16(ctx, path, sheet, flow.VoidBearing, func(row int, buf []int16) {
			for col := range buf {
				buf[col] = f.BearingDeg(row*cols + col)
			}
		})
	})
}

func (w planWriter) raster(name string, write func(path string) error) error {
	path, err := w.out.path("rasters/" + name + ".tif")
	if err != nil {
		return fmt.Errorf("rasters/%s.tif: %w", name, err)
	}
	return write(path)
}
