package chart

import (
	"cmp"
	"fmt"
	"image/color"
	"math"
	"slices"
	"strconv"

	"siltstep/cmd/internal/units"
	"siltstep/hydro/erosion"

	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
)

// Strip with the incision, points.
const (
	stripHeight = 112
	stripHead   = 20 // its key
	stripFoot   = 10 // under the deepest value
)

// leastDeepM is the least depth that the strip is scaled to, m, so that sound land looks sound. Our own
// choice.
const leastDeepM = 1.0

var (
	deep       = color.Gray{0xd2}
	deepLine   = draw.LineStyle{Color: ink, Width: vg.Points(0.9)}
	topHatLine = draw.LineStyle{Color: ink, Width: vg.Points(0.8), Dashes: []vg.Length{1, 2}}
	zeroLine   = draw.LineStyle{Color: ink, Width: vg.Points(0.5)}
	stemLine   = draw.LineStyle{Color: midGrey, Width: vg.Points(0.5)}
)

// judged reports whether there is an incision to draw.
func (p Profile) judged() bool { return len(p.IncisionM) > 0 || len(p.TopHatM) > 0 }

// oneEach checks that what is given for the stations has a value for each.
func (p Profile) oneEach() error {
	for _, of := range []struct {
		name   string
		values []float64
	}{{"incision", p.IncisionM}, {"top-hat", p.TopHatM}} {
		if n := len(of.values); n > 0 && n != len(p.Stations) {
			return fmt.Errorf("%s has %d values for %d stations; give one for each", of.name, n, len(p.Stations))
		}
	}
	return nil
}

// deepestM returns the largest incision, m; NaN where none is known.
func (p Profile) deepestM() float64 {
	out := math.NaN()
	for _, v := range p.IncisionM {
		if known(v) && !(v <= out) {
			out = v
		}
	}
	return out
}

// incision is the strip under the bed: depth hanging from the land beside the channel.
type incision struct {
	Profile
	unit   units.Scale
	deepM  float64 // lower end of the scale, m
	system units.System
}

// newIncision fits the scale of the strip to its values.
func newIncision(p Profile, system units.System) incision {
	s := incision{p, system.LengthScale(), leastDeepM, system}
	for _, values := range [][]float64{p.IncisionM, p.TopHatM} {
		for _, v := range values {
			if known(v) {
				s.deepM = max(s.deepM, 1.05*v)
			}
		}
	}
	return s
}

// draw draws the strip on a canvas as wide as the axes above.
func (s incision) draw(c draw.Canvas) {
	x := func(i int) vg.Length {
		return c.Min.X + (c.Max.X-c.Min.X)*vg.Length(s.Stations[i].StationM/s.lengthM())
	}
	y := func(m float64) vg.Length { return c.Max.Y - (c.Max.Y-c.Min.Y)*vg.Length(max(m, 0)/s.deepM) }
	s.scale(c, y)
	for _, run := range knownRuns(s.IncisionM) {
		top := []vg.Point{}
		for i := run[0]; i <= run[1]; i++ {
			top = append(top, vg.Point{X: x(i), Y: y(s.IncisionM[i])})
		}
		outline := append([]vg.Point{{X: x(run[0]), Y: c.Max.Y}}, top...)
		if run[0] == run[1] { // one station alone has no width
			c.StrokeLine2(deepLine, top[0].X, c.Max.Y, top[0].X, top[0].Y)
			continue
		}
		c.FillPolygon(deep, append(outline, vg.Point{X: x(run[1]), Y: c.Max.Y}))
		c.StrokeLines(deepLine, top)
	}
	for _, run := range knownRuns(s.TopHatM) {
		var points []vg.Point
		for i := run[0]; i <= run[1]; i++ {
			points = append(points, vg.Point{X: x(i), Y: y(s.TopHatM[i])})
		}
		c.StrokeLines(topHatLine, points)
	}
	c.StrokeLine2(zeroLine, c.Min.X, c.Max.Y, c.Max.X, c.Max.Y)
	s.headcuts(c)
	s.key(c)
}

// known reports whether a value is a number.
func known(v float64) bool { return !math.IsNaN(v) && !math.IsInf(v, 0) }

// knownRuns returns the first and last index of each stretch of known values.
func knownRuns(values []float64) [][2]int {
	var out [][2]int
	for i, v := range values {
		switch {
		case !known(v):
		case i > 0 && known(values[i-1]):
			out[len(out)-1][1] = i
		default:
			out = append(out, [2]int{i, i})
		}
	}
	return out
}

// scale draws the depths at the left and pale lines across.
func (s incision) scale(c draw.Canvas, y func(float64) vg.Length) {
	number := style(8, ink)
	number.XAlign, number.YAlign = draw.XRight, draw.YCenter
	step := roundLength(s.unit.Value(s.deepM) / 2)
	for k := 0.0; k*step <= s.unit.Value(s.deepM)*(1+1e-9); k++ {
		at := y(k * step * s.unit.One)
		c.StrokeLine2(ruleLine, c.Min.X, at, c.Max.X, at)
		c.StrokeLine2(zeroLine, c.Min.X-7, at, c.Min.X-3, at)
		c.FillText(number, vg.Point{X: c.Min.X - 9, Y: at}, strconv.FormatFloat(k*step, 'g', -1, 64))
	}
	c.StrokeLine2(zeroLine, c.Min.X-3, c.Max.Y, c.Min.X-3, c.Min.Y)
}

// headcuts marks the headcuts at the foot of the strip, with their heights as far as there is room, the
// highest first.
func (s incision) headcuts(c draw.Canvas) {
	const beside, below = 4, 7
	sty := style(labelSize, ink)
	order := slices.Clone(s.Headcuts)
	slices.SortStableFunc(order, func(a, b erosion.Headcut) int { return cmp.Compare(b.HeightM, a.HeightM) })
	var taken []box // across only
	at := func(h erosion.Headcut) float64 {
		return float64(c.Min.X + (c.Max.X-c.Min.X)*vg.Length(h.StationM/s.lengthM()))
	}
	for _, h := range order {
		x := at(h)
		c.StrokeLine2(stemLine, vg.Length(x), c.Max.Y, vg.Length(x), c.Min.Y)
		headcutMark(c, vg.Point{X: vg.Length(x), Y: c.Min.Y})
		taken = append(taken, box{x - 3, 0, x + 3, 1})
	}
	for _, h := range order {
		words := s.system.Length(h.HeightM, 2)
		width := fontSlack * float64(sty.Width(words))
		for _, x := range []float64{at(h) + beside, at(h) - beside - width} {
			b := box{x, 0, x + width, 1}
			if b.x0 < float64(c.Min.X) || b.x1 > float64(c.Max.X)+margin || slices.ContainsFunc(taken, b.overlaps) {
				continue
			}
			c.FillText(sty, vg.Point{X: vg.Length(x), Y: c.Min.Y - below}, words)
			taken = append(taken, b)
			break
		}
	}
}

// key explains the strip above it.
func (s incision) key(c draw.Canvas) {
	k := keyRow{c, c.Min.X, c.Max.Y + 6}
	k.say("Incision (" + s.unit.Unit + "):")
	k.x += 8
	if len(s.IncisionM) > 0 {
		k.entry("bed below the land beside it", func(x, y vg.Length) {
			c.FillPolygon(deep, []vg.Point{{X: x, Y: y - 3}, {X: x, Y: y + 4}, {X: x + keySwatch, Y: y + 4}, {X: x + keySwatch, Y: y - 3}})
			c.StrokeLine2(deepLine, x, y-3, x+keySwatch, y-3)
		})
	}
	if len(s.TopHatM) > 0 {
		k.entry("by the black top-hat", func(x, y vg.Length) { c.StrokeLine2(topHatLine, x, y, x+keySwatch, y) })
	}
	if slices.ContainsFunc(s.IncisionM, func(v float64) bool { return !known(v) }) {
		k.say("gap: cannot be told")
		k.x += 12
	}
	if len(s.Headcuts) > 0 {
		k.entry("headcut; height where there is room", func(x, y vg.Length) { headcutMark(c, vg.Point{X: x + keySwatch/2, Y: y + 3}) })
	}
}
