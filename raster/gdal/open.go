package gdal

import (
	"context"
	"fmt"
	"math"
	"slices"
	"strings"
	"sync"

	"github.com/paulmach/orb"

	"siltstep/raster"
)

// Request names an elevation model and what its files do not say themselves.
type Request struct {
	Paths         []string // one or more files; several are one mosaic
	CRS           string   // coordinate system of files without one, such as "EPSG:32613"; empty: the files state it
	ElevationUnit string   // "m", "ft" or "us-ft" for files that state none; empty: see Open
}

// Info is what the headers tell, and what was decided from them.
type Info struct {
	Paths                    []string
	Driver                   string // short name of the format, of the first file
	Cols, Rows               int    // of all files together
	BandType                 string
	BlockCols, BlockRows     int     // block layout of the first file
	CellX, CellY             float64 // cell sides in map units
	MapUnit                  string  // "metre", "degree", "US survey foot" …
	CellEastM, CellNorthM    float64 // ground size of the middle cell along a row and a column, m
	CRSName, CRSWKT          string  // as stated by the file or the request
	CRSFrom                  string  // "the file" or "--crs"
	HeightUnit               string  // "m", "ft", "us-ft" …
	HeightUnitM              float64 // metres in it
	HeightUnitFrom           string
	NoData                   string  // how voids are marked, of the first file
	Scale, Offset            float64 // of the first file; 1 and 0 where none
	West, South, East, North float64 // of the data, degrees of WGS 84

	Kept        bool   // the analysis grid is the data's own
	WarpedWhy   string // why not; empty where kept
	GridCRSName string
	GridCols    int
	GridRows    int
	GridCellM   float64
	Decisions   []string // every choice, as sentences for the user
}

// DEM is an elevation model whose headers have been read. It holds no open file. It is not
// safe for several goroutines.
type DEM struct {
	source  mosaic
	target  target
	unit    heightUnit
	info    Info
	handles int        // readers that Read starts
	lock    sync.Mutex // of voids, while readers run
	voids   tally      // found by the last Read
}

// Open reads the headers and decides on coordinate system, height unit and grid; no height
// is read, so that damage inside a file shows only in Read. The unit of heights is what the
// coordinate system or the band states, else ElevationUnit, else metres where map positions
// are in metres or degrees. Errors (ErrInput): a file that is missing, empty, damaged, not
// one band of heights or without a place on the Earth; files that do not fit together; a
// coordinate system or unit that is missing or contradicted; fewer than 3 x 3 cells.
func Open(ctx context.Context, req Request) (d *DEM, err error) {
	defer guard(&err)
	start()
	if len(req.Paths) == 0 {
		return nil, wrong("no elevation model is named: give one or more files")
	}
	tiles := make([]tile, 0, len(req.Paths))
	for _, path := range req.Paths {
		if err := ctx.Err(); err != nil {
			return nil, err
		}
		t, err := readHeader(path)
		if err != nil {
			return nil, err
		}
		tiles = append(tiles, t)
	}
	system, from, err := chooseSystem(tiles, req.CRS)
	if err != nil {
		return nil, err
	}
	source, err := assemble(tiles, system)
	if err != nil {
		return nil, err
	}
	if float64(source.cols)*float64(source.rows) > raster.MaxCells {
		return nil, wrong("the data has %d x %d cells, over the limit of %d: give fewer files or a smaller piece", source.cols, source.rows, raster.MaxCells)
	}
	unit, unitFrom, err := chooseUnit(tiles[0].path, system, tiles[0].unitText, req.ElevationUnit)
	if err != nil {
		return nil, err
	}
	d = &DEM{source: source, unit: unit, handles: 2}
	if err := d.decide(); err != nil {
		return nil, fmt.Errorf("%s: %w", tiles[0].path, err)
	}
	d.info.CRSFrom, d.info.HeightUnitFrom = from, unitFrom
	d.describe()
	return d, nil
}

// Inspect is Open for those who want only the header: what the data is and what was
// decided. Errors are those of Open.
func Inspect(ctx context.Context, req Request) (Info, error) {
	d, err := Open(ctx, req)
	if err != nil {
		return Info{}, err
	}
	return d.Info(), nil
}

// chooseSystem takes the coordinate system of the file, else the one of the request. One
// that contradicts the file is an error: the file would lie elsewhere.
func chooseSystem(tiles []tile, flag string) (c crs, from string, err error) {
	stated := tiles[0].wkt
	if flag == "" && stated == "" {
		return c, "", wrong("%s: the file does not state its coordinate system: name it with --crs, for instance --crs EPSG:32613", tiles[0].path)
	}
	if flag == "" {
		c, err = parseCRS(stated)
		if err != nil {
			return c, "", fmt.Errorf("%s: %w", tiles[0].path, err)
		}
		return c, "the file", nil
	}
	if c, err = parseCRS(flag); err != nil {
		return c, "", fmt.Errorf("--crs: %w", err)
	}
	if stated == "" {
		return c, "--crs", nil
	}
	if !sameCRS(stated, c.full) {
		return c, "", wrong("%s: --crs %s contradicts the file, which states %q: leave the option out, or correct the file if its label is wrong",
			tiles[0].path, flag, firstQuoted(stated))
	}
	return c, "the file", nil
}

// decide measures the data on the ground and chooses the analysis grid.
func (d *DEM) decide() error {
	m := &d.source
	p, err := newProjector(m.system.horizontal, lonLat)
	if err != nil {
		return err
	}
	defer p.close()
	mid := [2]float64{float64(m.cols) / 2, float64(m.rows) / 2}
	edge, err := p.points(append(outline(m.geo, m.cols, m.rows), mapPoint(m.geo, mid[0], mid[1])))
	if err != nil {
		return fmt.Errorf("the data's corners: %w", err)
	}
	centre := edge[len(edge)-1]
	if m.system.geographic && math.Abs(centre[1]) > 90 {
		return wrong("positions such as (%g, %g) are no degrees, which %q takes them for: check the coordinate system", m.geo[0], m.geo[3], m.system.name)
	}
	bound := orb.MultiPoint(edge).Bound()
	d.info.West, d.info.South, d.info.East, d.info.North = bound.Min[0], bound.Min[1], bound.Max[0], bound.Max[1]
	if d.info.CellEastM, d.info.CellNorthM, err = cellGround(p, m.geo, mid[0], mid[1]); err != nil {
		return err
	}
	d.target, err = chooseTarget(m, centre, p)
	return err
}

// describe fills the rest of the info and writes the decisions.
func (d *DEM) describe() {
	i, m, first := &d.info, &d.source, &d.source.tiles[0]
	for _, t := range m.tiles {
		i.Paths = append(i.Paths, t.path)
	}
	i.Driver, i.Cols, i.Rows, i.BandType = first.driver, m.cols, m.rows, first.band.String()
	i.BlockCols, i.BlockRows = first.blockCols, first.blockRows
	i.CellX, i.CellY = math.Hypot(m.geo[1], m.geo[4]), math.Hypot(m.geo[2], m.geo[5])
	i.MapUnit, i.CRSName, i.CRSWKT = m.system.unitName, m.system.name, m.system.full
	i.HeightUnit, i.HeightUnitM = d.unit.name, d.unit.metres()
	i.NoData, i.Scale, i.Offset = first.noDataText(), first.scale, first.offset
	i.Kept, i.WarpedWhy = d.target.kept, d.target.why
	i.GridCRSName, i.GridCols, i.GridRows, i.GridCellM = d.target.name, d.target.cols, d.target.rows, d.target.transform.CellM
	i.Decisions = d.sentences()
}

// sentences writes each decision of the header stage.
func (d *DEM) sentences() []string {
	i, m := &d.info, &d.source
	var out []string
	say := func(format string, args ...any) { out = append(out, fmt.Sprintf(format, args...)) }
	if len(m.tiles) > 1 {
		say("%d files are taken as one elevation model of %d x %d cells.", len(m.tiles), m.cols, m.rows)
	}
	if m.overlaps {
		say("Files overlap: where they do, the one named first counts.")
	}
	if m.gaps {
		say("The files do not cover their whole rectangle: cells in no file are void.")
	}
	say("Coordinate system %q, from %s.", i.CRSName, i.CRSFrom)
	say("Heights are in %s (%.10g m), from %s.", i.HeightUnit, i.HeightUnitM, i.HeightUnitFrom)
	if i.Scale != 1 || i.Offset != 0 {
		say("Scale %g and offset %g of the band are applied to its values.", i.Scale, i.Offset)
	}
	if d.target.kept {
		say("The data's own grid is kept: %d x %d cells of %g m.", i.GridCols, i.GridRows, i.GridCellM)
	} else {
		say("The data is warped because %s: to %q, %d x %d cells of %g m, bilinear; its cells measure %.3f x %.3f m on the ground.",
			i.WarpedWhy, i.GridCRSName, i.GridCols, i.GridRows, i.GridCellM, i.CellEastM, i.CellNorthM)
	}
	for _, t := range m.tiles {
		for _, w := range t.warnings {
			say("%s: a warning while opening: %s.", t.path, strings.TrimSuffix(w, "."))
		}
	}
	switch code := m.system.baseCode; {
	case code == "4326", m.system.base != "" && sameCRS(m.system.base, "EPSG:4326"):
	case code == "4267":
		say("Positions are on the old datum %q: turned to WGS 84 they may be several metres off; check them on site.", m.system.baseName)
	default:
		if m.system.base != "" {
			say("Positions are on the datum %q: turned to WGS 84 they may differ by a metre or two.", m.system.baseName)
		}
	}
	return out
}

// Info returns what is known so far; after Read it tells of voids found in the data too.
func (d *DEM) Info() Info {
	out := d.info
	out.Paths, out.Decisions = slices.Clone(d.info.Paths), slices.Clone(d.info.Decisions)
	return out
}

// WKT returns the coordinate system of the analysis grid as text, in metres and without a
// vertical part.
func (d *DEM) WKT() string { return d.target.wkt }

// Transform returns the place of the analysis grid.
func (d *DEM) Transform() raster.Transform { return d.target.transform }
