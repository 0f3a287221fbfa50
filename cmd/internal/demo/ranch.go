package demo

import (
	"fmt"
	"math"
	"runtime"

	"github.com/paulmach/orb"
	"golang.org/x/sync/errgroup"

	"siltstep/raster"
)

// Name is what the invented ranch is called.
const Name = "Larkspindle Ranch"

// CRS is the coordinate system of every ranch. The place in it is invented too.
const CRS = "EPSG:32613"

// North-west corner of the data in CRS, m.
const (
	westM  = 548000.0
	northM = 4126000.0
)

// DefaultSeed is the seed of the ranch that the demo command makes.
const DefaultSeed uint64 = 20

// Size is the extent of a ranch.
type Size struct {
	Cols, Rows int
	CellM      float64 // 0.25 to 4 m
}

// DefaultSize is the ranch that the demo command makes: 2 by 1.5 km on cells of 1 m.
var DefaultSize = Size{Cols: 2000, Rows: 1500, CellM: 1}

// leastM is the least width and height of a ranch that holds everything promised, m.
const leastM = 1200.0

// Ranch is an invented ranch and what is known of it.
type Ranch struct {
	Grid     *raster.Grid
	Property orb.Polygon    // in CRS, m; outer ring counterclockwise
	Road     orb.LineString // in CRS, m
	Truth    Truth
}

// Generate makes the ranch that belongs to a size and a seed: always the same for the same
// two, whatever the number of processors. Errors: a size out of range; a seed whose country
// has no place for the road fill, the stock pond or the drainage that enters. Time and
// memory grow with the number of cells.
func Generate(size Size, seed uint64) (*Ranch, error) {
	if err := size.validate(); err != nil {
		return nil, err
	}
	b := &builder{size: size}
	w, h := float64(size.Cols)*size.CellM, float64(size.Rows)*size.CellM
	var err error
	if b.land, err = shapeLand(frame{w, h}, seed); err != nil {
		return nil, fmt.Errorf("ranch: %w", err)
	}
	if b.routing, err = route(b.land.ground, noise{}, 0); err != nil {
		return nil, fmt.Errorf("ranch: %w", err)
	}
	b.stems = findStems(b.routing)
	b.spread()
	for _, lay := range []func() error{b.layGullies, b.layProperty, b.layRoad, b.roughen, b.layPond} {
		if err := lay(); err != nil {
			return nil, fmt.Errorf("ranch of seed %d: %w", seed, err)
		}
	}
	return b.finish(seed), nil
}

func (s Size) validate() error {
	if s.CellM < 0.25 || s.CellM > 4 {
		return fmt.Errorf("ranch: cells of %g m; must be 0.25 to 4 m", s.CellM)
	}
	if w, h := float64(s.Cols)*s.CellM, float64(s.Rows)*s.CellM; w < leastM || h < leastM {
		return fmt.Errorf("ranch: %g x %g m; must be at least %g m each way", w, h, leastM)
	}
	if s.Cols > raster.MaxCells/s.Rows {
		return fmt.Errorf("ranch: %d x %d cells; at most %d in all", s.Cols, s.Rows, raster.MaxCells)
	}
	return nil
}

// builder holds a ranch in the making.
type builder struct {
	size     Size
	land     *land
	routing  *routing
	stems    []stem
	taken    []bool // stems that carry a trench
	canvas   *canvas
	gullies  []*gully
	limits   limits
	road     *crossing
	roadLine []spot
	pond     *pond
}

// groundM returns the ground at a place, within the data or around it, m.
func (b *builder) groundM(p spot) float64 {
	if b.canvas.holds(p, 0) {
		return b.canvas.heightM(p)
	}
	return b.land.ground.heightM(p)
}

// mapPoint returns a ranch place in map coordinates.
func mapPoint(p spot) orb.Point { return orb.Point{westM + p.e, northM - p.s} }

// spread lays the coarse ground out on the cells of the data.
func (b *builder) spread() {
	s, z := b.land.ground, b.size
	g := raster.New(z.Cols, z.Rows, raster.Transform{OriginX: westM, OriginY: northM, CellM: z.CellM})
	b.canvas = &canvas{g}
	across := tapsAlong(0, z.CellM, z.Cols, s.west, s.cellM, s.cols)
	down := tapsAlong(0, z.CellM, z.Rows, s.north, s.cellM, s.rows)
	eachBand(z.Rows, func(from, to int) {
		row := make([]float64, s.cols)
		for r := from; r < to; r++ {
			s.mixRow(row, down[r])
			out := g.MM[r*z.Cols:][:z.Cols]
			for c := range out {
				out[c] = int32(math.Round(1000 * mixAt(row, &across[c])))
			}
		}
	})
}

// eachBand shares rows out among the processors. What is done to a row must depend on
// nothing but the row.
func eachBand(rows int, do func(from, to int)) {
	const band = 64
	var g errgroup.Group
	g.SetLimit(runtime.GOMAXPROCS(0))
	for from := 0; from < rows; from += band {
		g.Go(func() error {
			do(from, min(from+band, rows))
			return nil
		})
	}
	_ = g.Wait() // the work returns no error
}
