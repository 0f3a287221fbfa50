package gdal

import (
	"fmt"
	"math"

	"github.com/paulmach/orb"

	"siltstep/raster"
)

// scaleLimit is how far the local scale of a kept system may lie from 1, both ways.
const scaleLimit = 0.002

// target is the grid on which the analysis runs.
type target struct {
	wkt        string // full text, or EPSG:n, of a system in metres
	name       string
	transform  raster.Transform
	cols, rows int
	kept       bool
	why        string // why the data is warped; empty where it is kept
}

// chooseTarget keeps the grid of the data where it is metric, square, north-up and true to
// scale, and else lays a grid over it in the UTM zone of its centre.
func chooseTarget(m *mosaic, centre orb.Point, toLonLat *projector) (target, error) {
	why, err := whyWarp(m, toLonLat)
	if err != nil {
		return target{}, err
	}
	if why == "" {
		return target{
			wkt: m.system.horizontal, name: m.system.name, kept: true, cols: m.cols, rows: m.rows,
			transform: raster.Transform{OriginX: m.geo[0], OriginY: m.geo[3], CellM: m.geo[1]},
		}, nil
	}
	zone, south, err := utmZone(centre[0], centre[1])
	if err != nil {
		return target{}, err
	}
	text := utmText(m.system, zone, south)
	utm, err := parseCRS(text)
	if err != nil {
		return target{}, fmt.Errorf("UTM zone %d: %w", zone, err)
	}
	along, down, err := cellGround(toLonLat, m.geo, float64(m.cols)/2, float64(m.rows)/2)
	if err != nil {
		return target{}, err
	}
	t := target{wkt: utm.horizontal, name: utm.name, why: why}
	t.transform.CellM = roundCell((along + down) / 2)
	return t, t.cover(m)
}

// roundCell rounds a cell size to 0.1 m, or to 0.01 m below 1 m; never to nothing.
func roundCell(m float64) float64 {
	if m < 1 {
		return max(1, math.Round(m*100)) / 100
	}
	return math.Round(m*10) / 10
}

// cover lays the grid over the whole outline of the data, its corners on whole cells.
func (t *target) cover(m *mosaic) error {
	p, err := newProjector(m.system.horizontal, t.wkt)
	if err != nil {
		return err
	}
	defer p.close()
	pts, err := p.points(outline(m.geo, m.cols, m.rows))
	if err != nil {
		return fmt.Errorf("the edge of the data in %s: %w", t.name, err)
	}
	c := t.transform.CellM
	bound := orb.MultiPoint(pts).Bound()
	west, east := math.Floor(bound.Min[0]/c), math.Ceil(bound.Max[0]/c)
	south, north := math.Floor(bound.Min[1]/c), math.Ceil(bound.Max[1]/c)
	t.transform.OriginX, t.transform.OriginY = west*c, north*c
	if (east-west)*(north-south) > raster.MaxCells {
		return wrong("the warped grid would have %.0f x %.0f cells, over the limit of %d: give fewer files or a smaller piece",
			east-west, north-south, raster.MaxCells)
	}
	t.cols, t.rows = int(east-west), int(north-south)
	if t.cols < 3 || t.rows < 3 {
		return wrong("the data covers %d x %d cells on the ground; an elevation model needs at least 3 x 3", t.cols, t.rows)
	}
	return nil
}

// whyWarp returns the reason why the data's own grid cannot be kept, or nothing.
func whyWarp(m *mosaic, toLonLat *projector) (string, error) {
	dx, dy := m.geo[1], -m.geo[5]
	switch {
	case m.geo[2] != 0 || m.geo[4] != 0:
		return "its grid is rotated", nil
	case dy < 0:
		return "its rows run from south to north", nil
	case dx < 0:
		return "its columns run from east to west", nil
	case m.system.geographic:
		return "its positions are in degrees", nil
	case math.Abs(m.system.unitM-1) > 1e-9:
		return fmt.Sprintf("its positions are in %q, not metres", m.system.unitName), nil
	case math.Abs(dx-dy)*float64(max(m.cols, m.rows)) > phaseCells*dx:
		return fmt.Sprintf("its cells are not square (%g x %g m)", dx, dy), nil
	}
	w, h := float64(m.cols), float64(m.rows)
	worst := 0.0
	for _, at := range [][2]float64{{w / 2, h / 2}, {0.5, 0.5}, {w - 0.5, 0.5}, {0.5, h - 0.5}, {w - 0.5, h - 0.5}} {
		along, down, err := cellGround(toLonLat, m.geo, at[0], at[1])
		if err != nil {
			return "", err
		}
		for _, off := range []float64{dx/along - 1, dy/down - 1} {
			if math.Abs(off) > math.Abs(worst) {
				worst = off
			}
		}
	}
	if math.Abs(worst) > scaleLimit {
		return fmt.Sprintf("lengths in %q are %.1f %% off there, over 0.2 %%", m.system.name, worst*100), nil
	}
	return "", nil
}
