package gdal

import (
	"context"
	"fmt"
	"math"
	"strconv"
	"sync"

	"github.com/airbusgeo/godal"

	"siltstep/raster"
)

// warpVoid marks voids on the way through a warp: exact in every number type used, and no
// height in millimetres.
const warpVoid = float64(raster.VoidMM)

// warp resamples the data to the target grid. The files are first read into one raster in
// memory, in millimetres and with one mark for every kind of void, so that masks, undeclared
// marks, scales and mosaics are settled before cells are mixed. That raster is then read
// through a virtual warped one, in strips, through a handle for each reader. Positions are
// exact for every cell (no approximation along a scan line) and the bilinear kernel has a
// fixed width, so the result does not depend on how it is cut into strips.
func (d *DEM) warp(ctx context.Context, watch *counter) (*raster.Grid, error) {
	flat := memoryName("source.tif")
	defer unlink(flat)
	if err := d.flatten(ctx, flat, watch); err != nil {
		return nil, err
	}
	virtual := memoryName("warped.vrt")
	defer unlink(virtual)
	if err := d.describeWarp(flat, virtual); err != nil {
		return nil, err
	}
	g := raster.New(d.target.cols, d.target.rows, d.target.transform)
	height := max(1, min(stripRows, stripCells/g.Cols))
	open := func() (strips, error) { return openWarped(virtual, g.Cols) }
	err := runStrips(ctx, g.Cols, g.Rows, height, d.handles, open, func(from, rows int, mm []float64) error {
		round(g.MM[from*g.Cols:(from+rows)*g.Cols], mm)
		watch.add(rows)
		return nil
	})
	return g, err
}

// workType is the number type of the warp: float32 resolves 0.13 mm at 2000 m, and is used
// where the file is no finer.
func (d *DEM) workType() (name string, kind godal.DataType) {
	switch d.source.tiles[0].band {
	case godal.Float64, godal.Int32, godal.UInt32:
		return "Float64", godal.Float64
	}
	return "Float32", godal.Float32
}

// flatten writes the mosaic, in its own cells, to a file in memory.
func (d *DEM) flatten(ctx context.Context, name string, watch *counter) error {
	m := &d.source
	_, kind := d.workType()
	out, err := godal.Create(godal.GTiff, name, 1, kind, m.cols, m.rows,
		godal.CreationOption("TILED=YES", "BLOCKXSIZE=512", "BLOCKYSIZE=512", "BIGTIFF=IF_SAFER"), godal.ErrLogger(strict))
	if err != nil {
		return fmt.Errorf("room in memory for %d x %d cells to warp: %w", m.cols, m.rows, err)
	}
	var j journal
	if err := out.SetGeoTransform(m.geo, godal.ErrLogger(strict)); err != nil {
		_ = out.Close(godal.ErrLogger(j.note))
		return fmt.Errorf("placing the data to warp: %w", err)
	}
	band := out.Bands()[0]
	var lock sync.Mutex
	err = runStrips(ctx, m.cols, m.rows, d.stripHeight(), d.handles, d.openSource, func(from, rows int, mm []float64) error {
		for i, v := range mm {
			if v != v {
				mm[i] = warpVoid
			}
		}
		lock.Lock()
		defer lock.Unlock()
		watch.add(rows)
		return band.Write(0, from, mm, m.cols, rows, godal.ErrLogger(strict))
	})
	if shut := out.Close(godal.ErrLogger(strict)); err == nil && shut != nil {
		err = fmt.Errorf("room in memory for the data to warp: %w", shut)
	}
	return err
}

// describeWarp writes the virtual warped raster. Its extent lies on whole cells already, so
// the library is not asked to align it: doing that again can add a row through rounding.
func (d *DEM) describeWarp(flat, virtual string) error {
	var j journal
	source, err := godal.Open(flat, godal.RasterOnly(), godal.ErrLogger(j.note))
	if err != nil {
		return fmt.Errorf("opening the data to warp: %w", err)
	}
	defer source.Close(godal.ErrLogger(j.note))
	t := d.target.transform
	kind, _ := d.workType()
	void := strconv.FormatFloat(warpVoid, 'f', 0, 64)
	cell := number(t.CellM)
	switches := []string{
		"-of", "VRT", "-s_srs", d.source.system.horizontal, "-t_srs", d.target.wkt,
		"-te", number(t.OriginX), number(t.OriginY - float64(d.target.rows)*t.CellM), number(t.OriginX + float64(d.target.cols)*t.CellM), number(t.OriginY),
		"-tr", cell, cell, "-r", "bilinear", "-et", "0", "-novshift",
		"-srcnodata", void, "-dstnodata", void, "-ot", kind, "-wt", kind,
		"-wo", "XSCALE=1", "-wo", "YSCALE=1",
	}
	warped, err := godal.Warp(virtual, []*godal.Dataset{source}, switches, godal.ErrLogger(j.note))
	if err != nil {
		return fmt.Errorf("warping from %q to %q: %s", d.source.system.name, d.target.name, j.said(err))
	}
	defer warped.Close(godal.ErrLogger(j.note))
	s := warped.Structure()
	if s.SizeX != d.target.cols || s.SizeY != d.target.rows {
		return fmt.Errorf("warping from %q to %q: %d x %d cells came where %d x %d were asked for", d.source.system.name, d.target.name,
			s.SizeX, s.SizeY, d.target.cols, d.target.rows)
	}
	return nil
}

func number(v float64) string { return strconv.FormatFloat(v, 'f', -1, 64) }

// warpedStrips reads the virtual warped raster through a handle of its own.
type warpedStrips struct {
	ds   *godal.Dataset
	cols int
}

func openWarped(name string, cols int) (strips, error) {
	var j journal
	ds, err := godal.Open(name, godal.RasterOnly(), godal.SiblingFiles(), godal.ErrLogger(j.note))
	if err != nil {
		return nil, fmt.Errorf("opening the warped data: %w", err)
	}
	return &warpedStrips{ds: ds, cols: cols}, nil
}

func (s *warpedStrips) close() {
	var j journal
	_ = s.ds.Close(godal.ErrLogger(j.note))
}

func (s *warpedStrips) read(from, rows int, mm []float64) error {
	var j journal
	if err := s.ds.Bands()[0].Read(0, from, mm, s.cols, rows, godal.ErrLogger(j.note)); err != nil {
		return fmt.Errorf("warping rows %d to %d: %s", from, from+rows-1, j.said(err))
	}
	for i, v := range mm {
		if v == warpVoid {
			mm[i] = math.NaN()
		}
	}
	return nil
}
