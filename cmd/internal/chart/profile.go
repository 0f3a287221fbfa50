package chart

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"slices"

	"siltstep/cmd/internal/units"
	"siltstep/hydro/channel"
	"siltstep/hydro/erosion"
	"siltstep/hydro/siting"

	"gonum.org/v1/plot"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
	"gonum.org/v1/plot/vg/vgsvg"
)

// Size of the page and of the strips above and below the axes, points.
const (
	pageWidth    = 720
	pageHeight   = 380
	margin       = 14
	headerHeight = 56
	footerHeight = 34
)

// Profile is a longitudinal profile to draw.
type Profile struct {
	Title        string // "D07"
	Stations     []channel.Station
	Sites        []siting.Site // by station from the lower end; may be empty
	DepositRatio float64       // deposit slope over bed slope, as in the plan
	Truncated    bool          // the catchment reaches beyond the data

	IncisionM []float64         // depth of the bed below the land beside it at each station, m; NaN where not known; nil draws no incision
	TopHatM   []float64         // the same by the black top-hat alone, m; may be nil
	Headcuts  []erosion.Headcut // may be empty
}

// WriteProfile draws a profile as SVG: ground, bed, dams from the side, sediment wedges, axes, scale, direction of flow and
// what was not judged; with incision, a strip under the bed with it and with the heights of headcuts. The
// vertical exaggeration is a round number where the drawing can be
// fitted to one, and is printed as measured on the finished axes. Errors: fewer than two
// stations; w failed.
func WriteProfile(w io.Writer, p Profile, system units.System) error {
	if len(p.Stations) < 2 {
		return fmt.Errorf("profile %s: %w", p.Title, errTooShort)
	}
	if err := p.oneEach(); err != nil {
		return fmt.Errorf("profile %s: %w", p.Title, err)
	}
	height, below := vg.Length(pageHeight), vg.Length(footerHeight)
	if p.judged() {
		height, below = height+stripHeight, below+stripHeight
	}
	svg := vgsvg.New(pageWidth, height)
	page := draw.New(svg)
	page.SetColor(white)
	page.Fill(page.Rectangle.Path())
	body := draw.Crop(page, margin, -margin, below, -headerHeight)
	axes, scale := fit(p, system, body)
	axes.Draw(body)
	if p.judged() {
		strip := axes.DataCanvas(body)
		strip.Min.Y, strip.Max.Y = footerHeight+stripFoot, footerHeight+stripHeight-stripHead
		newIncision(p, system).draw(strip)
	}
	head := draw.Crop(page, margin, -margin, height-headerHeight, 0)
	header(head, p, system, scale)
	box := axes.DataCanvas(body).Size()
	rule(head, system.LengthScale(), float64(box.X)/(axes.X.Max-axes.X.Min), float64(box.Y)/(axes.Y.Max-axes.Y.Min))
	footer(draw.Crop(page, margin, -margin, 0, footerHeight-height), p, countLabelled(p, system, axes.DataCanvas(body), axes))
	var raw bytes.Buffer
	if _, err := svg.WriteTo(&raw); err != nil {
		return fmt.Errorf("profile %s: %w", p.Title, err)
	}
	if _, err := w.Write(tidy(raw.Bytes(), describe(p, system))); err != nil {
		return fmt.Errorf("profile %s: %w", p.Title, err)
	}
	return nil
}

var errTooShort = errors.New("fewer than two stations, so there is nothing to draw")

// lengthM returns the length drawn, m.
func (p Profile) lengthM() float64 { return channel.Profile{Stations: p.Stations}.LengthM() }

// hidesBed reports whether the ground of some station is not the bed.
func (p Profile) hidesBed() bool {
	return slices.ContainsFunc(p.Stations, func(s channel.Station) bool { return s.NoBed })
}

// dropM returns the fall of the bed, m.
func (p Profile) dropM() float64 { return channel.Profile{Stations: p.Stations}.DropM() }

// rangeM returns the lowest and highest elevation drawn, m.
func (p Profile) rangeM() (lo, hi float64) {
	lo, hi = p.Stations[0].BedM, p.Stations[0].BedM
	for _, s := range p.Stations {
		lo, hi = min(lo, s.BedM, s.GroundM), max(hi, s.BedM, s.GroundM)
	}
	for _, s := range p.Sites {
		hi = max(hi, s.SillM)
	}
	return lo, hi
}

// newAxes returns empty axes in the units of the system, marks added.
func newAxes(p Profile, system units.System) *plot.Plot {
	unit := system.LengthScale()
	a := emptyAxes("Station along the channel, from the lower end ("+unit.Unit+")", "Elevation ("+unit.Unit+")")
	a.X.Max = unit.Value(p.lengthM())
	a.Add(rules{}, wedges{p, unit}, line{p.Stations, unit, ground}, line{p.Stations, unit, bed}, dams{p, unit}, lips{p, unit})
	return a
}

// emptyAxes returns axes with their labels, in the style of all drawings.
func emptyAxes(across, up string) *plot.Plot {
	a := plot.New()
	a.BackgroundColor = white
	a.X.Label.Text, a.Y.Label.Text = across, up
	for _, axis := range []*plot.Axis{&a.X, &a.Y} {
		axis.Label.TextStyle.Font = sans(9)
		axis.Label.TextStyle.Color = ink
		axis.Tick.Label.Font = sans(8)
		axis.Tick.Label.Color = ink
		axis.Tick.Length = 4
		axis.LineStyle.Color, axis.Tick.LineStyle.Color = ink, ink
		axis.Padding = vg.Points(3)
	}
	a.X.Tick.Marker, a.Y.Tick.Marker = plot.TickerFunc(ticks), plot.TickerFunc(inner)
	return a
}
