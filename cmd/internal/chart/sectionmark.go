package chart

import (
	"math"

	"siltstep/cmd/internal/units"
	"siltstep/hydro/channel"

	"gonum.org/v1/plot"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
)

// Lines of a cross-section.
var (
	fitLine       = draw.LineStyle{Color: ink, Width: vg.Points(0.9), Dashes: []vg.Length{4, 2.5}}
	dimensionLine = draw.LineStyle{Color: midGrey, Width: vg.Points(0.6)}
	markLine      = draw.LineStyle{Color: ink, Width: vg.Points(1)}
)

// toeMark is a filled disc.
func toeMark(c draw.Canvas, at vg.Point) {
	var disc vg.Path
	disc.Move(vg.Point{X: at.X + 2, Y: at.Y})
	disc.Arc(at, 2, 0, 2*math.Pi)
	disc.Close()
	c.SetColor(ink)
	c.Fill(disc)
}

// topMark is an open square.
func topMark(c draw.Canvas, at vg.Point) {
	const r = 2.4
	corners := []vg.Point{{X: at.X - r, Y: at.Y - r}, {X: at.X + r, Y: at.Y - r}, {X: at.X + r, Y: at.Y + r}, {X: at.X - r, Y: at.Y + r}, {X: at.X - r, Y: at.Y - r}}
	c.FillPolygon(white, corners)
	c.StrokeLines(markLine, corners)
}

// crossSection is the ground across a channel and what was read from it.
type crossSection struct {
	channel.Section
	system units.System
}

// Plot implements plot.Plotter.
func (s crossSection) Plot(c draw.Canvas, a *plot.Plot) {
	tx, ty := a.Transforms(&c)
	unit := s.system.LengthScale()
	at := func(offsetM, z float64) vg.Point { return vg.Point{X: tx(unit.Value(offsetM)), Y: ty(unit.Value(z))} }
	s.sides(c)
	if hasBanks(s.Section) {
		s.dimensions(c, at)
	}
	for _, run := range groundRuns(s.Section) {
		points := make([]vg.Point, len(run))
		for i, p := range run {
			points[i] = at(p.offsetM, p.z)
		}
		c.StrokeLines(bedLine, points)
	}
	if !hasBanks(s.Section) {
		return
	}
	if t := s.trapezoid(); t != nil {
		points := make([]vg.Point, len(t))
		for i, p := range t {
			points[i] = at(p.offsetM, p.z)
		}
		c.StrokeLines(fitLine, points)
	}
	for _, b := range []channel.Bank{s.Left, s.Right} {
		if !math.IsNaN(b.TopM + b.HeightM) {
			topMark(c, at(b.TopM, s.BedM+b.HeightM))
		}
		if !math.IsNaN(b.ToeM) {
			toeMark(c, at(b.ToeM, s.BedM))
		}
	}
}

// sides names the banks at the top.
func (s crossSection) sides(c draw.Canvas) {
	sty := style(8.5, ink)
	c.FillText(sty, vg.Point{X: c.Min.X + 4, Y: c.Max.Y - 12}, "left bank")
	c.FillText(sty, vg.Point{X: c.Max.X - 4 - fontSlack*sty.Width("right bank"), Y: c.Max.Y - 12}, "right bank")
}

// trapezoid returns the corners of the fitted shape, from the left, m; nil where it is not known.
func (s crossSection) trapezoid() []offsetPoint {
	half, run := s.Fit.BedWidthM/2, s.Fit.SideSlope*s.Fit.DepthM
	top := s.BedM + s.Fit.DepthM
	mid := (s.Left.ToeM + s.Right.ToeM) / 2
	if left, right, ok := s.edges(); ok {
		mid = (left + right) / 2
	}
	if math.IsNaN(mid+half+run+top) || s.Fit.DepthM <= 0 {
		return nil
	}
	return []offsetPoint{{mid - half - run, top}, {mid - half, s.BedM}, {mid + half, s.BedM}, {mid + half + run, top}}
}

// dimensions draws bed width below the bed, top width at the level of the lower top, and depth in the bank
// that is the lower one.
func (s crossSection) dimensions(c draw.Canvas, at func(offsetM, z float64) vg.Point) {
	if !math.IsNaN(s.BedWidthM + s.Left.ToeM + s.Right.ToeM + s.BedM) {
		from, to := at(s.Left.ToeM, s.BedM), at(s.Right.ToeM, s.BedM)
		from.Y, to.Y = from.Y-9, to.Y-9
		s.across(c, from, to, "bed width "+s.system.Length(s.BedWidthM, 2), -11)
	}
	top := s.BedM + s.DepthM
	left, right, ok := s.edges()
	if !ok {
		return
	}
	s.across(c, at(left, top), at(right, top), "top width "+s.system.Length(s.TopWidthM, 2), 5)
	s.depth(c, at(left, s.BedM), at(right, top))
}

// depth draws the depth beside the lower bank, in the ground, with a line from the bed to it. from and to
// are the corners of the box around bed and lower top.
func (s crossSection) depth(c draw.Canvas, from, to vg.Point) {
	const off, overhang = 16, 4
	words := "depth " + s.system.Length(s.DepthM, 2)
	sty := style(8, ink)
	sty.YAlign = draw.YCenter
	room := off + overhang + vg.Length(fontSlack)*sty.Width(words)
	x, text := to.X+off, to.X+off+overhang
	if isLeft := s.Left.HeightM < s.Right.HeightM; isLeft && from.X-room > c.Min.X || to.X+room > c.Max.X {
		x, text = from.X-off, from.X-room
	}
	near := (from.X + to.X) / 2
	c.StrokeLine2(dimensionLine, near, from.Y, x, from.Y)
	c.StrokeLine2(dimensionLine, x, from.Y, x, to.Y)
	for _, y := range []vg.Length{from.Y, to.Y} {
		c.StrokeLine2(dimensionLine, x-3, y, x+3, y)
	}
	c.FillText(sty, vg.Point{X: text, Y: (from.Y + to.Y) / 2}, words)
}

// edges returns the offsets of the banks at the level of the lower top: that top, and the top width from it.
func (s crossSection) edges() (left, right float64, ok bool) {
	if s.Left.HeightM < s.Right.HeightM {
		left, right = s.Left.TopM, s.Left.TopM+s.TopWidthM
	} else {
		left, right = s.Right.TopM-s.TopWidthM, s.Right.TopM
	}
	return left, right, !math.IsNaN(left + right)
}

// across draws a dimension from left to right, its text above or below the middle.
func (s crossSection) across(c draw.Canvas, from, to vg.Point, words string, lift vg.Length) {
	c.StrokeLine2(dimensionLine, from.X, from.Y, to.X, to.Y)
	for _, end := range []vg.Point{from, to} {
		c.StrokeLine2(dimensionLine, end.X, end.Y-3, end.X, end.Y+3)
	}
	sty := style(8, ink)
	half := vg.Length(fontSlack) * sty.Width(words) / 2
	x := min(max((from.X+to.X)/2-half, c.Min.X+2), c.Max.X-2*half-2)
	c.FillText(sty, vg.Point{X: x, Y: from.Y + lift}, words)
}
