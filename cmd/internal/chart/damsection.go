package chart

import (
	"bytes"
	"fmt"
	"io"
	"math"
	"slices"
	"strconv"
	"strings"

	"siltstep/cmd/internal/units"
	"siltstep/hydro/checkdam"
	"siltstep/hydro/siting"

	"gonum.org/v1/plot"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
	"gonum.org/v1/plot/vg/vgsvg"
)

// DamSection is a dam in the cross-section of its channel, to draw.
type DamSection struct {
	Site   siting.Site
	Dam    *checkdam.Design
	Ground []checkdam.Point // elevations from left to right, the bed at the level of that at the axis; NaN where there is no data
	AwayM  float64          // how far upstream of the axis the ground was read, m, below it negative; NaN where not known
}

// Body returns the dam as it stands in its section, as elevations: see checkdam.Design.Across.
func (s DamSection) Body() [][]checkdam.Rise {
	body := s.Dam.Across()
	for _, stretch := range body {
		for i := range stretch {
			stretch[i].GroundM += s.Site.BedM
			stretch[i].CrestM += s.Site.BedM
		}
	}
	return body
}

// Room around what is drawn, and of what is shown beside the banks.
const (
	damPageHeight  = 412
	damHeader      = headerHeight + 12 // points: one line more than other sections have
	damAbove       = 40                // points
	damBelow       = 56                // points, for three dimensions
	besideM        = 2.0               // least width of land beside each bank, m
	besideShare    = 0.4               // and least share of the width between the banks
	dimensionPitch = 15                // points
)

// WriteDamSection draws a dam in its cross-section as SVG, looking downstream, left at the left: ground, the body hatched under its
// crest with the notch, keys dashed in the ground, levels of sill and top, and the widths of bed, crest and channel. Levels are
// those of the plan: the ground is drawn as the design takes it, with its bed at the level of the bed at the axis, and where it was read is
// said. Keys are drawn as far into bed and banks as they are to be dug. The vertical exaggeration is printed as measured
// on the finished axes. Where no notch is known the body ends at the sill, and that is said; likewise where the dam
// must not be built as designed. Errors: fewer than two places with data; w failed.
func WriteDamSection(w io.Writer, s DamSection, system units.System) error {
	d := acrossDam{DamSection: s, system: system, body: s.Body(), section: s.Dam.Request.Section.Points()}
	for i := range d.section {
		d.section[i].LevelM += s.Site.BedM
	}
	d.solid = slices.DeleteFunc(slices.Clone(s.Ground), func(p checkdam.Point) bool { return math.IsNaN(p.LevelM) })
	if len(d.solid) < 2 {
		return fmt.Errorf("section at %s: %w", s.Site.ID, errNoGround)
	}
	svg := vgsvg.New(sectionWidth, damPageHeight)
	page := draw.New(svg)
	page.SetColor(white)
	page.Fill(page.Rectangle.Path())
	canvas := draw.Crop(page, margin, -margin, footerHeight, -damHeader)
	a := d.axes()
	lo, hi := d.rangeM()
	unit := system.LengthScale()
	exaggeration := fitY(a, canvas, unit.Value(lo), unit.Value(max(hi, lo+leastSectionM)), damAbove, damBelow)
	a.Draw(canvas)
	d.header(draw.Crop(page, margin, -margin, damPageHeight-damHeader, 0), exaggeration)
	d.footer(page)
	var raw bytes.Buffer
	if _, err := svg.WriteTo(&raw); err != nil {
		return fmt.Errorf("section at %s: %w", s.Site.ID, err)
	}
	if _, err := w.Write(tidy(raw.Bytes(), d.title()+". "+strings.Join(d.figures(), ", ")+".")); err != nil {
		return fmt.Errorf("section at %s: %w", s.Site.ID, err)
	}
	return nil
}

// acrossDam is a dam section with what is worked out for the drawing.
type acrossDam struct {
	DamSection
	system  units.System
	solid   []checkdam.Point  // ground with data
	section []checkdam.Point  // ground as the design takes it, from bank to bank, elevations
	body    [][]checkdam.Rise // elevations
}

// banks returns the tops of the banks as the design takes them, elevations.
func (d acrossDam) banks() (left, right checkdam.Point) {
	return d.section[0], d.section[len(d.section)-1]
}

// topM returns the elevation of the top of the body, m: of the wings, or of the sill where no notch is known.
func (d acrossDam) topM() float64 {
	if d.Dam.Notch == nil {
		return d.Site.SillM
	}
	return d.Site.SillM + d.Dam.Notch.DepthM
}

// axes returns axes with all marks, as wide as the channel and some land beside it.
func (d acrossDam) axes() *plot.Plot {
	unit := d.system.LengthScale()
	a := emptyAxes("Offset from the thalweg, looking downstream: left negative ("+unit.Unit+")", "Elevation ("+unit.Unit+")")
	left, right := d.banks()
	beside := max(besideM, besideShare*(right.OffsetM-left.OffsetM), 2*d.Dam.Found.KeyBankM)
	first, last := d.solid[0].OffsetM, d.solid[len(d.solid)-1].OffsetM
	a.X.Min, a.X.Max = unit.Value(max(first, left.OffsetM-beside)), unit.Value(min(last, right.OffsetM+beside))
	a.Add(rules{}, d)
	return a
}

// rangeM returns the lowest and highest elevation drawn, m. Ground beyond the tops of the banks counts to a bank's height above them.
func (d acrossDam) rangeM() (lo, hi float64) {
	left, right := d.banks()
	lo, hi = d.Site.BedM-d.Dam.Found.KeyBedM, max(left.LevelM, right.LevelM, d.topM())
	for _, p := range d.solid {
		if p.OffsetM >= left.OffsetM && p.OffsetM <= right.OffsetM {
			lo, hi = min(lo, p.LevelM), max(hi, p.LevelM)
		}
	}
	return lo, hi
}

func (d acrossDam) title() string {
	return d.Site.ID + ": check dam at station " + d.system.Length(d.Site.StationM, 1) + ", looking downstream"
}

// figures returns what is known of the dam.
func (d acrossDam) figures() []string {
	out := []string{"effective height " + d.system.Length(d.Dam.Request.HeightM, 2)}
	if n := d.Dam.Notch; n != nil {
		out = append(out, "notch "+d.system.Length(n.WidthM, 2)+" wide, "+d.system.Length(n.DepthM, 2)+" deep")
	} else {
		out = append(out, "notch not sized: no storm peak")
	}
	f := d.Dam.Found
	return append(out, "key "+d.system.Length(f.KeyBedM, 2)+" into the bed, "+d.system.Length(f.KeyBankM, 2)+" into each bank")
}

// doNotBuild stands at a dam that cannot be built as designed.
const doNotBuild = "DO NOT BUILD AS DESIGNED: read its cautions"

// header writes title, figures and the key to the marks.
func (d acrossDam) header(c draw.Canvas, exaggeration float64) {
	c.FillText(style(13, ink), vg.Point{X: c.Min.X, Y: c.Max.Y - 24}, d.title())
	c.FillText(style(9, ink), vg.Point{X: c.Min.X, Y: c.Max.Y - 38}, strings.Join(d.figures(), "  ·  "))
	scale := "vertical exaggeration " + strconv.FormatFloat(exaggeration, 'g', 3, 64) + " : 1"
	if !d.Dam.Buildable {
		scale += "  ·  " + doNotBuild
	}
	c.FillText(style(9, ink), vg.Point{X: c.Min.X, Y: c.Max.Y - 50}, scale)
	k := keyRow{c, c.Min.X, c.Max.Y - 63}
	k.entry("ground in the data", func(x, y vg.Length) { c.StrokeLine2(bedLine, x, y, x+keySwatch, y) })
	k.entry("banks as estimated", func(x, y vg.Length) { c.StrokeLine2(groundLine, x, y, x+keySwatch, y) })
	k.entry("dam", func(x, y vg.Length) {
		box := []vg.Point{{X: x, Y: y - 3}, {X: x + keySwatch, Y: y - 3}, {X: x + keySwatch, Y: y + 4}, {X: x, Y: y + 4}}
		hatched(c, box, hatchPitch)
		c.StrokeLines(bodyLine, append(box, box[0]))
	})
	k.entry("keys in the ground", func(x, y vg.Length) { c.StrokeLine2(keyLine, x, y, x+keySwatch, y) })
	k.entry("top of the bank", func(x, y vg.Length) { topMark(c, vg.Point{X: x + keySwatch/2, Y: y}) })
}

// footer writes where the ground was read and what the drawing does not tell.
func (d acrossDam) footer(page draw.Canvas) {
	sty := style(7.5, ink)
	page.FillText(sty, vg.Point{X: margin, Y: 18}, SectionNote)
	var notes []string
	if away := math.Abs(d.AwayM); away >= 0.05 {
		where := " upstream"
		if d.AwayM < 0 {
			where = " downstream"
		}
		notes = append(notes, "Ground read "+d.system.Length(away, 1)+where+" of the axis, set to the bed there.")
	}
	page.FillText(sty, vg.Point{X: margin, Y: 7}, strings.Join(append(notes, "Cells blur steep banks: their tops are estimates."), " "))
}
