package gdal

import (
	"context"
	"errors"
	"fmt"
	"math"
	"sync"
	"sync/atomic"

	"github.com/airbusgeo/godal"
	"golang.org/x/sync/errgroup"

	"siltstep/raster"
)

// Strips are about stripRows high, so that blocks of 512 rows are decoded once, and hold
// at most stripCells, which bounds the memory of a reader.
const (
	stripRows  = 512
	stripCells = 1 << 23
)

// strips reads pieces of a raster as millimetres, not rounded; NaN is void. One goroutine.
type strips interface {
	// read fills mm with rows complete rows from the given one.
	read(from, rows int, mm []float64) error
	close()
}

// Read returns the heights on the analysis grid, in whole millimetres. It reads with two
// handles; the result does not depend on which finished first. progress, if not nil, is
// called with the rows done and to do, never from two goroutines at once. Any failure
// discards everything. Errors: damage inside a file, a value that is no height, no valid
// cell at all (ErrInput); ctx cancelled.
func (d *DEM) Read(ctx context.Context, progress func(done, total int)) (g *raster.Grid, err error) {
	defer guard(&err)
	d.voids = tally{}
	total := d.source.rows
	if !d.target.kept {
		total += d.target.rows
	}
	watch := counter{total: total, report: progress}
	if d.target.kept {
		g, err = d.keep(ctx, &watch)
	} else {
		g, err = d.warp(ctx, &watch)
	}
	if err != nil {
		return nil, err
	}
	if _, _, ok := g.RangeMM(); !ok {
		return nil, wrong("%s: every cell is void: check that the right file was given", d.source.tiles[0].path)
	}
	d.info.Decisions = append(d.sentences(), d.voids.sentences()...)
	return g, nil
}

// keep reads the data onto its own grid.
func (d *DEM) keep(ctx context.Context, watch *counter) (*raster.Grid, error) {
	g := raster.New(d.target.cols, d.target.rows, d.target.transform)
	err := runStrips(ctx, g.Cols, g.Rows, d.stripHeight(), d.handles, d.openSource, func(from, rows int, mm []float64) error {
		round(g.MM[from*g.Cols:(from+rows)*g.Cols], mm)
		watch.add(rows)
		return nil
	})
	return g, err
}

// stripHeight is a whole number of the first file's blocks where that is not much.
func (d *DEM) stripHeight() int {
	limit := max(1, stripCells/d.source.cols)
	block := d.source.tiles[0].blockRows
	if block < 1 || block > limit {
		return min(stripRows, limit)
	}
	return max(1, min(stripRows, limit)/block) * block
}

// round puts millimetres into the grid, rounded half away from zero; NaN becomes void.
func round(dst []int32, mm []float64) {
	for i, v := range mm {
		if v != v {
			dst[i] = raster.VoidMM
			continue
		}
		dst[i] = int32(math.Round(v))
	}
}

// counter adds up rows for the progress report.
type counter struct {
	mu          sync.Mutex
	done, total int
	report      func(done, total int)
}

func (c *counter) add(rows int) {
	c.mu.Lock()
	defer c.mu.Unlock()
	c.done += rows
	if c.report != nil {
		c.report(c.done, c.total)
	}
}

// runStrips hands out strips from north to south to several readers, each with a source
// of its own, and gives each strip to sink, which must be safe for several goroutines.
func runStrips(ctx context.Context, cols, rows, height, handles int, open func() (strips, error), sink func(from, rows int, mm []float64) error) error {
	var next atomic.Int64
	group, ctx := errgroup.WithContext(ctx)
	for range max(1, min(handles, (rows+height-1)/height)) {
		group.Go(func() (err error) {
			defer guard(&err)
			source, err := open()
			if err != nil {
				return err
			}
			defer source.close()
			mm := make([]float64, cols*min(height, rows))
			for {
				from := int(next.Add(1)-1) * height
				if from >= rows {
					return nil
				}
				if err := ctx.Err(); err != nil {
					return err
				}
				n := min(height, rows-from)
				if err := source.read(from, n, mm[:n*cols]); err != nil {
					return err
				}
				if err := sink(from, n, mm[:n*cols]); err != nil {
					return err
				}
			}
		})
	}
	return group.Wait()
}

// fileStrips reads the files of a mosaic in their own cells, each file through a handle
// that no other reader has, open only while the strips cross it.
type fileStrips struct {
	dem   *DEM
	open  map[int]*godal.Dataset // by tile
	raw   []float64
	mask  []byte
	voids tally
}

func (d *DEM) openSource() (strips, error) {
	return &fileStrips{dem: d, open: map[int]*godal.Dataset{}}, nil
}

func (s *fileStrips) close() {
	for k := range s.open {
		s.release(k)
	}
	s.dem.lock.Lock()
	defer s.dem.lock.Unlock()
	s.dem.voids.merge(s.voids)
}

func (s *fileStrips) release(k int) {
	var j journal
	_ = s.open[k].Close(godal.ErrLogger(j.note)) // read only: nothing can be lost
	delete(s.open, k)
}

func (s *fileStrips) read(from, rows int, mm []float64) error {
	for i := range mm {
		mm[i] = math.NaN()
	}
	for k := range s.dem.source.tiles {
		t := &s.dem.source.tiles[k]
		top, bottom := max(from, t.row), min(from+rows, t.row+t.rows)
		if top < bottom {
			if err := s.readTile(k, top, bottom, from, mm); err != nil {
				return err
			}
		}
		if _, held := s.open[k]; held && t.row+t.rows <= from+rows {
			s.release(k)
		}
	}
	return nil
}

// readTile reads the rows [top, bottom) of the mosaic that lie in a file.
func (s *fileStrips) readTile(k, top, bottom, from int, mm []float64) error {
	m := &s.dem.source
	t := &m.tiles[k]
	ds := s.open[k]
	if ds == nil {
		var err error
		if ds, _, err = openRaster(t.path); err != nil {
			return err
		}
		s.open[k] = ds
	}
	rows := bottom - top
	if n := rows * t.cols; len(s.raw) < n {
		s.raw, s.mask = make([]float64, n), make([]byte, n)
	}
	var mask []byte
	if err := s.readBand(ds, t, top-t.row, rows); err != nil {
		return err
	}
	c := conversion{path: t.path, scale: t.scale, offset: t.offset, num: s.dem.unit.num, den: s.dem.unit.den}
	for r := range rows {
		if !t.allValid {
			mask = s.mask[r*t.cols : (r+1)*t.cols]
		}
		at := (top-from+r)*m.cols + t.col
		if err := c.row(mm[at:at+t.cols], s.raw[r*t.cols:(r+1)*t.cols], mask, 0, top-t.row+r, &s.voids); err != nil {
			return err
		}
	}
	return nil
}

// readBand reads raw values, and the mask where the file has one. After a failure the
// buffers hold rubbish, so the whole read is given up.
func (s *fileStrips) readBand(ds *godal.Dataset, t *tile, line, rows int) error {
	bands := ds.Bands()
	if len(bands) != 1 || bands[0].Structure().SizeX != t.cols || bands[0].Structure().SizeY != t.rows {
		return wrong("%s: the file has changed while it was being read: try again", t.path)
	}
	var j journal
	err := bands[0].Read(0, line, s.raw, t.cols, rows, godal.ErrLogger(j.note))
	if err == nil && !t.allValid {
		err = bands[0].MaskBand().Read(0, line, s.mask, t.cols, rows, godal.ErrLogger(j.note))
	}
	if err != nil {
		return wrong("%s: rows %d to %d cannot be read: the file is damaged or cut short, or a source of it is missing: fetch it again (%w)",
			t.path, line, line+rows-1, errors.New(j.said(err)))
	}
	return nil
}

// String names the model in messages of the program.
func (d *DEM) String() string {
	if len(d.info.Paths) == 1 {
		return d.info.Paths[0]
	}
	return fmt.Sprintf("%s and %d more", d.info.Paths[0], len(d.info.Paths)-1)
}
