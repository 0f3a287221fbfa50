package chart

import (
	"bytes"
	"cmp"
	"encoding/base64"
	"errors"
	"fmt"
	"image/png"
	"io"
	"slices"

	"siltstep/cmd/internal/units"
	"siltstep/hydro/erosion"

	"github.com/paulmach/orb"
)

// Map is a property seen from above with its drainages by severity. Positions are metres of one
// coordinate system.
type Map struct {
	Title     string        // "Larkspindle Ranch"
	Shade     []byte        // PNG of shaded relief that covers Extent, north up; nil for none; 1,600 pixels across are enough
	Extent    orb.Bound     // what is shown, m
	CRS       string        // name of the coordinate system: "WGS 84 / UTM zone 13N"
	Property  []orb.Polygon // m; may be empty
	Drainages []MapDrainage
	Headcuts  []orb.Point // lips, m
	Dams      []orb.Point // m
}

// MapDrainage is a drainage on a map.
type MapDrainage struct {
	ID          string
	Line        orb.LineString // downstream, m
	CatchmentM2 float64        // makes the width of the line; NaN draws the narrowest
	Class       erosion.Class  // makes colour and stroke; empty where not judged
	Truncated   bool           // the catchment reaches beyond the data
	Rank        int            // 1 is the worst and is labelled first; 0 where not ranked: labelled last, by catchment
}

// WriteMap draws a map as SVG: shaded relief, property line, drainages by severity and catchment,
// headcuts, dams, labels as far as there is room, grid, scale, north, and what the map does not tell.
// The scale is a round number that is true when the page is printed at full size. Positions that are
// not finite are passed over. Errors: an extent without size; a shade that is not a PNG; w failed.
func WriteMap(w io.Writer, m Map, system units.System) error {
	if !(m.Extent.Max[0] > m.Extent.Min[0] && m.Extent.Max[1] > m.Extent.Min[1]) || !finite(m.Extent.Min) || !finite(m.Extent.Max) {
		return fmt.Errorf("map %s: %w", m.Title, errNoExtent)
	}
	if m.Shade != nil {
		if _, err := png.DecodeConfig(bytes.NewReader(m.Shade)); err != nil {
			return fmt.Errorf("map %s: shaded relief: %w", m.Title, err)
		}
	}
	d := drawMap(m, system)
	if _, err := w.Write(d.pen.Bytes()); err != nil {
		return fmt.Errorf("map %s: %w", m.Title, err)
	}
	return nil
}

var errNoExtent = errors.New("the extent has no size, so there is nothing to draw")

// mapDrawing is a map on its way to the page.
type mapDrawing struct {
	Map
	system units.System
	sheet
	pen    pen
	lines  []mapLine // those that can be drawn, worst first
	weight float64   // of lines and marks, 1 or less
	placed []label
}

// drawMap draws a whole map.
func drawMap(m Map, system units.System) *mapDrawing {
	d := &mapDrawing{Map: m, system: system, sheet: fitSheet(m.Extent, system)}
	d.lines, d.weight = m.mapLines(d.sheet)
	d.placed = d.labels()
	d.pen.open(d.width, d.height, d.describe())
	d.defs()
	d.pen.put("<g clip-path=\"url(#frame)\">\n")
	d.ground()
	d.strokes()
	d.marks()
	d.names()
	d.pen.put("</g>\n")
	d.grid()
	d.header()
	d.legend()
	d.footer()
	d.pen.put("</svg>\n")
	return d
}

// defs writes the frame to clip to, and the marks.
func (d *mapDrawing) defs() {
	d.pen.put("<defs>\n<clipPath id=\"frame\"><rect ", d.frame.attributes(), "/></clipPath>\n")
	d.markShapes()
	for i, l := range d.lines {
		d.pen.put("<path id=\"p", i, "\" d=\"")
		d.pen.path(l.points, false)
		d.pen.put("\"/>\n")
	}
	d.pen.put("</defs>\n")
}

// shadeOpacity keeps shaded relief pale: black becomes the grey of 60 % white. Our own choice.
const shadeOpacity = 0.4

// ground draws the relief, paler outside the property, and the property line.
func (d *mapDrawing) ground() {
	if d.Shade != nil {
		d.pen.put("<image ", d.frame.attributes(), " preserveAspectRatio=\"none\" opacity=\"", shadeOpacity, "\" xlink:href=\"data:image/png;base64,",
			base64.StdEncoding.EncodeToString(d.Shade), "\"/>\n")
	}
	var rings bytes.Buffer
	for _, polygon := range d.Property {
		for _, ring := range polygon {
			if points := d.simplified(orb.LineString(ring)); len(points) > 2 {
				appendPath(&rings, points, true)
			}
		}
	}
	if rings.Len() == 0 {
		return
	}
	d.pen.put("<path fill=\"#fff\" fill-opacity=\"0.45\" fill-rule=\"evenodd\" d=\"")
	d.pen.path(d.frame.corners(), true)
	d.pen.put(rings.String(), "\"/>\n")
	d.pen.put("<g fill=\"none\" stroke-linejoin=\"round\"><path stroke=\"#fff\" stroke-width=\"2.4\" d=\"", rings.String(), "\"/><path ",
		propertyStroke, " d=\"", rings.String(), "\"/></g>\n")
}

// ranked returns the order of labels: by rank, then by catchment, the largest first.
func ranked(a, b MapDrainage) int {
	if (a.Rank > 0) != (b.Rank > 0) {
		if a.Rank > 0 {
			return -1
		}
		return 1
	}
	return cmp.Or(cmp.Compare(a.Rank, b.Rank), cmp.Compare(b.CatchmentM2, a.CatchmentM2))
}

// byRank returns the drainages in the order of labels; equal ones stay in theirs.
func (m Map) byRank() []MapDrainage {
	out := slices.Clone(m.Drainages)
	slices.SortStableFunc(out, ranked)
	return out
}
