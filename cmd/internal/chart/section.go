package chart

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"math"
	"strconv"
	"strings"

	"siltstep/cmd/internal/units"
	"siltstep/hydro/channel"
	"siltstep/raster"

	"gonum.org/v1/plot"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
	"gonum.org/v1/plot/vg/vgsvg"
)

// Size of the page of a cross-section and room around what is drawn, points.
const (
	sectionWidth  = 540
	sectionHeight = 340
	sectionAbove  = 30
	sectionBelow  = 26
	leastSectionM = 0.5 // least range of the elevation axis, m
)

// SectionNote says what a cross-section does not tell, under every drawing.
const SectionNote = "Read from the elevation model. Planning aid, not an engineered design: measure on site before building."

// WriteSection draws a cross-section as SVG, looking downstream, left at the left: ground, bed, toes and
// tops of the banks, the fitted trapezoid dashed, and dimensions. title names drainage and section: "D07,
// deepest cross-section". The vertical exaggeration is printed as measured on the finished axes. Of a
// section that is not resolved only the ground is drawn, and why is said; likewise where there are no banks.
// Toes are marked at the level of the bed and tops at their height over it: estimates, that need not lie on
// the ground as sampled. The trapezoid stands midway between the banks at the level of the lower top. A
// value that is not known is neither drawn nor printed. Errors: fewer than two samples with data; w failed.
func WriteSection(w io.Writer, s channel.Section, title string, system units.System) error {
	if len(groundRuns(s)) == 0 {
		return fmt.Errorf("section %s: %w", title, errNoGround)
	}
	svg := vgsvg.New(sectionWidth, sectionHeight)
	page := draw.New(svg)
	page.SetColor(white)
	page.Fill(page.Rectangle.Path())
	body := draw.Crop(page, margin, -margin, footerHeight, -headerHeight)
	a := sectionAxes(s, system)
	lo, hi := sectionRangeM(s)
	unit := system.LengthScale()
	exaggeration := fitY(a, body, unit.Value(lo), unit.Value(max(hi, lo+leastSectionM)), sectionAbove, sectionBelow)
	a.Draw(body)
	sectionHeader(draw.Crop(page, margin, -margin, sectionHeight-headerHeight, 0), s, title, system, exaggeration)
	sectionFooter(page, s)
	var raw bytes.Buffer
	if _, err := svg.WriteTo(&raw); err != nil {
		return fmt.Errorf("section %s: %w", title, err)
	}
	if _, err := w.Write(tidy(raw.Bytes(), describeSection(s, title, system))); err != nil {
		return fmt.Errorf("section %s: %w", title, err)
	}
	return nil
}

var errNoGround = errors.New("fewer than two samples with data, so there is nothing to draw")

// sectionAxes returns axes with all marks.
func sectionAxes(s channel.Section, system units.System) *plot.Plot {
	unit := system.LengthScale()
	a := emptyAxes("Offset from the thalweg, looking downstream: left negative ("+unit.Unit+")", "Elevation ("+unit.Unit+")")
	a.X.Min, a.X.Max = unit.Value(s.FirstM), unit.Value(s.FirstM+s.StepM*float64(len(s.MM)-1))
	a.Add(rules{}, crossSection{s, system})
	return a
}

// offsetPoint is a point of the ground across a channel, m.
type offsetPoint struct{ offsetM, z float64 }

// groundRuns returns the ground of a section, a run of at least two points for each stretch with data.
func groundRuns(s channel.Section) [][]offsetPoint {
	var out [][]offsetPoint
	var run []offsetPoint
	end := func() {
		if len(run) > 1 {
			out = append(out, run)
		}
		run = nil
	}
	for i, mm := range s.MM {
		if mm == raster.VoidMM {
			end()
			continue
		}
		run = append(run, offsetPoint{s.FirstM + float64(i)*s.StepM, float64(mm) / 1000})
	}
	end()
	return out
}

// sectionRangeM returns the lowest and highest elevation drawn, m.
func sectionRangeM(s channel.Section) (lo, hi float64) {
	lo, hi = math.Inf(1), math.Inf(-1)
	for _, run := range groundRuns(s) {
		for _, p := range run {
			lo, hi = min(lo, p.z), max(hi, p.z)
		}
	}
	if hasBanks(s) {
		for _, z := range []float64{s.BedM, s.BedM + s.Left.HeightM, s.BedM + s.Right.HeightM} {
			if !math.IsNaN(z) {
				lo, hi = min(lo, z), max(hi, z)
			}
		}
	}
	return lo, hi
}

// hasBanks reports whether banks were found, so that there is a shape to draw.
func hasBanks(s channel.Section) bool { return s.Resolved && s.DepthM > 0 }

// sectionFigures returns what is known of a section, for its header.
func sectionFigures(s channel.Section, system units.System, exaggeration float64) []string {
	var out []string
	if hasBanks(s) {
		for _, f := range []struct {
			name string
			m    float64
		}{{"depth", s.DepthM}, {"bed width", s.BedWidthM}, {"top width", s.TopWidthM}} {
			if !math.IsNaN(f.m) {
				out = append(out, f.name+" "+system.Length(f.m, 2))
			}
		}
	}
	return append(out, "vertical exaggeration "+strconv.FormatFloat(exaggeration, 'g', 3, 64)+" : 1")
}

// sectionHeader writes title, figures and the key.
func sectionHeader(c draw.Canvas, s channel.Section, title string, system units.System, exaggeration float64) {
	c.FillText(style(13, ink), vg.Point{X: c.Min.X, Y: c.Max.Y - 24}, title+": station "+system.Length(s.StationM, 1)+", looking downstream")
	c.FillText(style(9, ink), vg.Point{X: c.Min.X, Y: c.Max.Y - 38}, strings.Join(sectionFigures(s, system, exaggeration), "  ·  "))
	if !hasBanks(s) {
		c.FillText(style(9, ink), vg.Point{X: c.Min.X, Y: c.Max.Y - 51}, noShape(s))
		return
	}
	k := keyRow{c, c.Min.X, c.Max.Y - 51}
	k.entry("ground in the elevation model", func(x, y vg.Length) { c.StrokeLine2(bedLine, x, y, x+keySwatch, y) })
	k.entry("toe", func(x, y vg.Length) { toeMark(c, vg.Point{X: x + keySwatch/2, Y: y}) })
	k.entry("top of the bank", func(x, y vg.Length) { topMark(c, vg.Point{X: x + keySwatch/2, Y: y}) })
	k.entry("fitted trapezoid", func(x, y vg.Length) { c.StrokeLine2(fitLine, x, y, x+keySwatch, y) })
}

// sectionFooter writes what the drawing does not tell.
func sectionFooter(page draw.Canvas, s channel.Section) {
	sty := style(7.5, ink)
	page.FillText(sty, vg.Point{X: margin, Y: 18}, SectionNote)
	if hasBanks(s) {
		page.FillText(sty, vg.Point{X: margin, Y: 7}, "Cells blur steep banks: toes and tops are estimates.")
	}
}

// noShape says why there is no shape to draw.
func noShape(s channel.Section) string {
	switch {
	case s.Resolved:
		return "No banks: the bed does not lie below the land beside it."
	case s.Why == "":
		return "Banks and widths are not resolved by this elevation model."
	}
	return "Not resolved: " + strings.TrimSuffix(s.Why, ".") + "."
}

// describeSection says in words what is drawn, for readers that cannot see it.
func describeSection(s channel.Section, title string, system units.System) string {
	text := title + ": station " + system.Length(s.StationM, 1) + ", looking downstream"
	if !hasBanks(s) {
		return text + ". " + noShape(s)
	}
	known := sectionFigures(s, system, 1)
	return text + ", " + strings.Join(known[:len(known)-1], ", ") + "."
}
