package cli

import (
	"context"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"strings"
	"sync"

	"github.com/paulmach/orb"

	"siltstep/cmd/internal/chart"
	"siltstep/cmd/internal/units"
	"siltstep/hydro"
	"siltstep/hydro/erosion"
	"siltstep/raster"
	"siltstep/raster/gdal"
)

// mapPixels is the longest side of the shaded relief inside the map, pixels: 150 an inch on a
// page of 8 inches. Our own choice.
const mapPixels = 1200

// maps lists the files of the map, which have one relief.
func (w planWriter) maps(ctx context.Context) []textFile {
	drawn := sync.OnceValues(func() (chart.Map, error) { return w.mapDrawn(ctx) })
	by := func(write func(io.Writer, chart.Map, units.System) error) func(io.Writer) error {
		return func(to io.Writer) error {
			m, err := drawn()
			if err != nil {
				return err
			}
			return write(to, m, w.units)
		}
	}
	return []textFile{{"map.svg", by(chart.WriteMap)}, {"map.png", by(chart.WriteMapPNG)}}
}

// mapDrawn returns the map with its relief and property line.
func (w planWriter) mapDrawn(ctx context.Context) (chart.Map, error) {
	shade, err := shadeOf(ctx, w.record.Plan.Grid)
	if err != nil {
		return chart.Map{}, err
	}
	m := mapOf(w.record.Plan)
	m.Title, m.CRS, m.Shade, m.Property = w.title, w.record.CRS, shade, w.property
	return m, nil
}

// shadeOf returns shaded relief of a grid as a PNG.
func shadeOf(ctx context.Context, g *raster.Grid) ([]byte, error) {
	dir, err := os.MkdirTemp("", "siltstep-")
	if err != nil {
		return nil, err
	}
	defer os.RemoveAll(dir)
	path := filepath.Join(dir, "shade.png")
	if err := gdal.Hillshade(ctx, path, g, mapPixels); err != nil {
		return nil, err
	}
	return os.ReadFile(path)
}

// mapOf returns what a map shows of a plan: drainages that have a line, headcuts that no road or
// pond explains, dams.
func mapOf(p *hydro.Plan) chart.Map {
	m := chart.Map{Extent: extentOf(p.Grid)}
	for i, d := range p.Network.Drainages {
		line := d.Profile.Line()
		if len(line) < 2 {
			continue
		}
		s := p.Erosion[i].Severity
		m.Drainages = append(m.Drainages, chart.MapDrainage{ID: d.ID, Line: line, CatchmentM2: d.CatchmentM2, Class: s.Class, Truncated: d.Truncated, Rank: s.Rank})
	}
	for _, j := range p.Erosion {
		for _, h := range j.Headcuts {
			if h.Cause == erosion.CauseHeadcut {
				m.Headcuts = append(m.Headcuts, orb.Point{h.X, h.Y})
			}
		}
	}
	for _, l := range p.Layouts {
		for _, s := range l.Sites {
			m.Dams = append(m.Dams, orb.Point{s.X, s.Y})
		}
	}
	return m
}

func extentOf(g *raster.Grid) orb.Bound {
	t := g.Transform
	return orb.Bound{
		Min: orb.Point{t.OriginX, t.OriginY - float64(g.Rows)*t.CellM},
		Max: orb.Point{t.OriginX + float64(g.Cols)*t.CellM, t.OriginY},
	}
}

// titleOf names what was analysed by its files.
func titleOf(paths []string) string {
	name := filepath.Base(paths[0])
	name = strings.TrimSuffix(name, filepath.Ext(name))
	if more := len(paths) - 1; more > 0 {
		name += fmt.Sprintf(" and %d more", more)
	}
	return name
}
