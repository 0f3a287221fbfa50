package cli

import (
	"context"
	"fmt"
	"maps"
	"math"
	"os"
	"slices"
	"strings"

	"siltstep/raster"
	"siltstep/raster/gdal"
	"siltstep/raster/rastertest"
)

// utm is the coordinate system of the drawn elevations; their place in it is invented.
const utm = "EPSG:32613"

// elevations writes small elevation models for scripts, by kind.
var elevations = map[string]func(path string) error{
	// Gully, 47 x 403 cells of 1 m: bed slope 5 %, five cells wide at the bed and 1.2 m deep in a valley
	// whose sides rise by 0.2 over the edge of the data, so that its drainage is truncated.
	"valley": func(path string) error { return gdal.WriteDEM(context.Background(), path, valley(1), utm) },
	// The same with a bank across it in row 200, 2.5 m above the bed.
	"banked": func(path string) error {
		g := valley(1)
		rastertest.RaiseRow(g, 200, g.At(23, 200)+2500)
		return gdal.WriteDEM(context.Background(), path, g, utm)
	},
	// A cone of 60 x 60 cells of 1 m, falling 0.1 to every side: nothing flows in.
	"hill": func(path string) error {
		g := rastertest.Surface(60, 60, 1, func(col, row int) int32 { return int32(100_000 - 100*math.Hypot(float64(col)-29.5, float64(row)-29.5)) })
		g.Transform.OriginX, g.Transform.OriginY = 548000, 4126000
		return gdal.WriteDEM(context.Background(), path, g, utm)
	},
	// The same with cells of 20 m: too coarse to site a dam.
	"coarse": func(path string) error { return gdal.WriteDEM(context.Background(), path, valley(20), utm) },
	// The valley as a GeoTIFF of which the second half is missing.
	"halved": func(path string) error {
		if err := gdal.WriteDEM(context.Background(), path, valley(1), utm); err != nil {
			return err
		}
		info, err := os.Stat(path)
		if err != nil {
			return err
		}
		return os.Truncate(path, info.Size()/2)
	},
	"void": func(path string) error {
		g := valley(1)
		for i := range g.MM {
			g.MM[i] = raster.VoidMM
		}
		return gdal.WriteDEM(context.Background(), path, g, utm)
	},
	// A text grid, which cannot state its coordinate system.
	"unplaced": func(path string) error { return os.WriteFile(path, []byte(asciiGrid(valley(1))), 0o666) },
	// In a state plane system of US survey feet (Colorado North), heights unlabelled.
	"feet": func(path string) error { return gdal.WriteDEM(context.Background(), path, valley(3), "EPSG:2231") },
	// A slope of 120 x 160 m with a tree 5 m high every 20 m: a model of the surface, not of the ground.
	"wooded": func(path string) error { return gdal.WriteDEM(context.Background(), path, wooded(), utm) },
	// A slope of 160 x 200 m of which everything south of row 90 lies 0.15 m lower, in steps of 5 cm, with two holes.
	"patched": func(path string) error { return gdal.WriteDEM(context.Background(), path, patched(), utm) },
	// Four tiles of the valley, named path with 1 to 4 for its star.
	"tiles": func(path string) error {
		for k, w := range quarters(valley(1)) {
			if err := gdal.WriteDEM(context.Background(), strings.Replace(path, "*", fmt.Sprint(k+1), 1), w, utm); err != nil {
				return err
			}
		}
		return nil
	},
}

func elevationKinds() []string { return slices.Sorted(maps.Keys(elevations)) }

// valley returns a V channel of 47 x 403 cells with a gully along it. Of cells of 1 m, those beside the middle
// one lie 0.13 m above it, so that each row drains to the middle on its own, the next 0.26 m, and the
// next, at the top of the banks, 1.46 m.
func valley(cellM float64) *raster.Grid {
	g := rastertest.Channel(47, 403, cellM, 200, 0.05, 0.2)
	raiseMM := [...]int32{0, 130 - 200, 260 - 400, 1460 - 600}
	for i := range g.MM {
		col, _ := g.ColRow(i)
		g.MM[i] += raiseMM[min(abs(col-23), 3)]
	}
	g.Transform.OriginX, g.Transform.OriginY = 548000, 4126000
	return g
}

// tilted returns a plane that falls by 8 % to the south and 3 % to the east.
func tilted(cols, rows int) *raster.Grid {
	g := rastertest.Plane(cols, rows, 1_500_000, 30, 80)
	g.Transform.OriginX, g.Transform.OriginY = 548000, 4126000
	return g
}

// wooded sets pyramids on a slope, each 5 cells across.
func wooded() *raster.Grid {
	g := tilted(120, 160)
	for i := range g.MM {
		col, row := g.ColRow(i)
		if off := max(abs(col%20-10), abs(row%20-10)); off <= 2 {
			g.MM[i] += int32(5000 - 1500*off)
		}
	}
	return g
}

func abs(n int) int { return max(n, -n) }

// patched spoils a slope.
func patched() *raster.Grid {
	g := tilted(160, 200)
	for i := range g.MM {
		if _, row := g.ColRow(i); row >= 90 {
			g.MM[i] -= 150
		}
		g.MM[i] = (g.MM[i] + 25) / 50 * 50
	}
	rastertest.Hole(g, raster.Window{Col: 20, Row: 20, Cols: 2, Rows: 3})
	return rastertest.Hole(g, raster.Window{Col: 100, Row: 150, Cols: 8, Rows: 8})
}

// quarters cuts a grid into four that meet without overlap, at no round place.
func quarters(g *raster.Grid) []*raster.Grid {
	col, row := g.Cols/3, g.Rows/2+1
	var out []*raster.Grid
	for _, w := range [][4]int{{0, 0, col, row}, {col, 0, g.Cols, row}, {0, row, col, g.Rows}, {col, row, g.Cols, g.Rows}} {
		out = append(out, piece(g, w[0], w[1], w[2], w[3]))
	}
	return out
}

// piece returns the cells of a grid from one column and row up to, not including, others.
func piece(g *raster.Grid, fromCol, fromRow, toCol, toRow int) *raster.Grid {
	t := g.Transform
	t.OriginX += float64(fromCol) * t.CellM
	t.OriginY -= float64(fromRow) * t.CellM
	out := raster.New(toCol-fromCol, toRow-fromRow, t)
	for row := range out.Rows {
		copy(out.MM[row*out.Cols:][:out.Cols], g.MM[(fromRow+row)*g.Cols+fromCol:])
	}
	return out
}

// asciiGrid returns a grid as the text that GIS programs call an ASCII grid.
func asciiGrid(g *raster.Grid) string {
	var text strings.Builder
	t := g.Transform
	fmt.Fprintf(&text, "ncols %d\nnrows %d\nxllcorner %f\nyllcorner %f\ncellsize %f\nNODATA_value -9999\n",
		g.Cols, g.Rows, t.OriginX, t.OriginY-float64(g.Rows)*t.CellM, t.CellM)
	for row := range g.Rows {
		for col := range g.Cols {
			fmt.Fprintf(&text, "%.3f ", float64(g.At(col, row))/1000)
		}
		text.WriteByte('\n')
	}
	return text.String()
}
