package gdal

import (
	"context"
	"fmt"
	"os"
	"path/filepath"

	"github.com/airbusgeo/godal"

	"siltstep/raster"
)

// Sheet is the size, place and coordinate system of a raster to write.
type Sheet struct {
	Cols, Rows int
	Transform  raster.Transform
	CRS        string // WKT or user text such as "EPSG:32613"
}

// SheetOf returns the sheet of a grid in a coordinate system.
func SheetOf(g *raster.Grid, crs string) Sheet {
	return Sheet{Cols: g.Cols, Rows: g.Rows, Transform: g.Transform, CRS: crs}
}

// demVoid marks voids in elevation models that WriteDEM writes, m.
const demVoid = -9999

// WriteFloat writes a one-band float32 GeoTIFF, tiled and compressed without loss. fill is
// called once for each row, from north to south, and fills buf, one value for each column;
// nodata marks voids. The file appears under its name only when complete, and the same
// input gives the same bytes. Errors: a coordinate system that is not known (ErrInput); a
// folder that cannot be written, a full disk; ctx cancelled. It panics where the sheet has
// no cells.
func WriteFloat(ctx context.Context, path string, s Sheet, nodata float64, fill func(row int, buf []float32)) error {
	return writeBand(ctx, path, s, godal.Float32, nodata, "PREDICTOR=3", fill)
}

// WriteInt16 is WriteFloat for whole numbers.
func WriteInt16(ctx context.Context, path string, s Sheet, nodata int16, fill func(row int, buf []int16)) error {
	return writeBand(ctx, path, s, godal.Int16, float64(nodata), "PREDICTOR=2", fill)
}

// WriteDEM writes a grid as an elevation model in metres, float32, voids -9999. Heights
// within ±8 km come back to the same millimetre. Errors are those of WriteFloat.
func WriteDEM(ctx context.Context, path string, g *raster.Grid, crs string) error {
	return WriteFloat(ctx, path, SheetOf(g, crs), demVoid, func(row int, buf []float32) {
		for i, mm := range g.MM[row*g.Cols : (row+1)*g.Cols] {
			buf[i] = demVoid
			if mm != raster.VoidMM {
				buf[i] = float32(float64(mm) / 1000)
			}
		}
	})
}

// writeBand writes strips of one row of blocks to a file beside the target and renames it.
func writeBand[T float32 | int16](ctx context.Context, path string, s Sheet, kind godal.DataType, nodata float64, predictor string, fill func(row int, buf []T)) (err error) {
	defer guard(&err)
	if s.Cols <= 0 || s.Rows <= 0 {
		panic(fmt.Sprintf("gdal: a sheet of %d x %d cells cannot be written", s.Cols, s.Rows))
	}
	c, err := parseCRS(s.CRS)
	if err != nil {
		return err
	}
	part := partName(path)
	ds, err := godal.Create(godal.GTiff, part, 1, kind, s.Cols, s.Rows,
		godal.CreationOption("TILED=YES", "BLOCKXSIZE=512", "BLOCKYSIZE=512", "COMPRESS=DEFLATE", predictor, "ZLEVEL=6", "BIGTIFF=IF_SAFER"),
		godal.ErrLogger(strict))
	if err != nil {
		return fmt.Errorf("%s cannot be written: %w", path, err)
	}
	err = writeRows(ctx, ds, s, c.horizontal, nodata, fill)
	var j journal
	if shut := ds.Close(godal.ErrLogger(j.note)); err == nil {
		err = shut // a full disk may show only now
	}
	if err == nil {
		err = os.Rename(part, path)
	}
	if err != nil {
		os.Remove(part)
		return fmt.Errorf("%s was not written: %w", path, err)
	}
	return nil
}

func writeRows[T float32 | int16](ctx context.Context, ds *godal.Dataset, s Sheet, wkt string, nodata float64, fill func(row int, buf []T)) error {
	t := s.Transform
	if err := ds.SetGeoTransform([6]float64{t.OriginX, t.CellM, 0, t.OriginY, 0, -t.CellM}, godal.ErrLogger(strict)); err != nil {
		return err
	}
	if err := ds.SetProjection(wkt, godal.ErrLogger(strict)); err != nil {
		return err
	}
	band := ds.Bands()[0]
	if err := band.SetNoData(nodata, godal.ErrLogger(strict)); err != nil {
		return err
	}
	buf := make([]T, min(stripRows, s.Rows)*s.Cols)
	for from := 0; from < s.Rows; from += stripRows {
		if err := ctx.Err(); err != nil {
			return err
		}
		rows := min(stripRows, s.Rows-from)
		for r := range rows {
			fill(from+r, buf[r*s.Cols:(r+1)*s.Cols])
		}
		if err := band.Write(0, from, buf, s.Cols, rows, godal.ErrLogger(strict)); err != nil {
			return err
		}
	}
	return nil
}

// partName returns the name of the unfinished file beside the target.
func partName(path string) string {
	return filepath.Join(filepath.Dir(path), fmt.Sprintf(".%s.%d.part", filepath.Base(path), os.Getpid()))
}
