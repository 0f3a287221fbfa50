package chart

import (
	"cmp"
	"math"
	"slices"

	"siltstep/hydro/checkdam"

	"gonum.org/v1/plot"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
)

// Lines of a dam across its channel.
var (
	bodyLine  = draw.LineStyle{Color: ink, Width: vg.Points(1.6)}
	hatchLine = draw.LineStyle{Color: ink, Width: vg.Points(0.4)}
	keyLine   = draw.LineStyle{Color: ink, Width: vg.Points(0.9), Dashes: []vg.Length{4, 2.5}}
	levelLine = draw.LineStyle{Color: midGrey, Width: vg.Points(0.6), Dashes: []vg.Length{1, 2}}
)

// hatchPitch is the distance between the lines of a hatch, measured across the page, points.
const hatchPitch = 5

// Plot implements plot.Plotter.
func (d acrossDam) Plot(c draw.Canvas, a *plot.Plot) {
	tx, ty := a.Transforms(&c)
	unit := d.system.LengthScale()
	at := func(p checkdam.Point) vg.Point {
		return vg.Point{X: tx(unit.Value(p.OffsetM)), Y: ty(unit.Value(p.LevelM))}
	}
	d.levels(c, at)
	d.bodies(c, at)
	d.keys(c, at)
	d.widths(c, at)
	d.groundLine(c, at)
	left, right := d.banks()
	topMark(c, at(left))
	topMark(c, at(right))
	d.bankNames(c, left.LevelM-d.Site.BedM, right.LevelM-d.Site.BedM)
}

// bodies draws the dam under its crest.
func (d acrossDam) bodies(c draw.Canvas, at func(checkdam.Point) vg.Point) {
	for _, stretch := range d.body {
		var crest, foot []vg.Point
		for _, r := range stretch {
			crest = append(crest, at(checkdam.Point{OffsetM: r.OffsetM, LevelM: r.CrestM}))
			foot = append(foot, at(checkdam.Point{OffsetM: r.OffsetM, LevelM: r.GroundM}))
		}
		first, last := foot[0], foot[len(foot)-1]
		slices.Reverse(foot)
		hatched(c, slices.Concat(crest, foot), hatchPitch)
		c.StrokeLines(bodyLine, slices.Concat([]vg.Point{first}, crest, []vg.Point{last})) // upright where the dam ends in the air
	}
	points := make([]vg.Point, len(d.section))
	for i, p := range d.section {
		points[i] = at(p)
	}
	c.StrokeLines(groundLine, points)
}

// groundLine draws the ground as far as the axes go, broken where there is no data.
func (d acrossDam) groundLine(c draw.Canvas, at func(checkdam.Point) vg.Point) {
	var run []vg.Point
	for i, p := range d.Ground {
		known := !math.IsNaN(p.LevelM)
		if known {
			run = append(run, at(p))
		}
		if !known || i == len(d.Ground)-1 {
			c.StrokeLines(bedLine, c.ClipLinesXY(run)...)
			run = nil
		}
	}
}

// keys draws how far the dam goes into bed and banks: its outline in the ground, moved outwards.
func (d acrossDam) keys(c draw.Canvas, at func(checkdam.Point) vg.Point) {
	if len(d.body) == 0 {
		return
	}
	section, f := d.Dam.Request.Section, d.Dam.Found
	bedLeftM, bedRightM := section.BedMiddleM()-section.BedWidthM()/2, section.BedMiddleM()+section.BedWidthM()/2
	var outline []vg.Point
	add := func(offsetM, levelM float64) {
		outline = append(outline, at(checkdam.Point{OffsetM: offsetM, LevelM: levelM}))
	}
	from := d.body[0][0]
	add(from.OffsetM, from.GroundM)
	for _, r := range d.body[0] {
		if r.OffsetM < bedLeftM {
			add(r.OffsetM-f.KeyBankM, r.GroundM)
		}
	}
	add(bedLeftM-f.KeyBankM, checkdam.LevelAt(d.section, bedLeftM))
	add(bedLeftM, d.Site.BedM-f.KeyBedM)
	add(bedRightM, d.Site.BedM-f.KeyBedM)
	add(bedRightM+f.KeyBankM, checkdam.LevelAt(d.section, bedRightM))
	last := d.body[len(d.body)-1]
	for _, r := range last {
		if r.OffsetM > bedRightM {
			add(r.OffsetM+f.KeyBankM, r.GroundM)
		}
	}
	to := last[len(last)-1]
	add(to.OffsetM, to.GroundM)
	c.StrokeLines(keyLine, c.ClipLinesXY(outline)...)
}

// levels writes the elevations of sill and top at the edges, with lines to the dam.
func (d acrossDam) levels(c draw.Canvas, at func(checkdam.Point) vg.Point) {
	sty := style(8, ink)
	middle := d.Dam.Request.Section.BedMiddleM()
	sill := at(checkdam.Point{OffsetM: middle, LevelM: d.Site.SillM})
	c.StrokeLine2(levelLine, c.Min.X, sill.Y, sill.X, sill.Y)
	c.FillText(sty, vg.Point{X: c.Min.X + 3, Y: sill.Y + 2}, "sill "+d.system.Length(d.Site.SillM, 2))
	if d.Dam.Notch == nil || len(d.body) == 0 {
		return
	}
	words := "top " + d.system.Length(d.topM(), 2)
	last := d.body[len(d.body)-1]
	top := at(checkdam.Point{OffsetM: last[len(last)-1].OffsetM, LevelM: d.topM()})
	c.StrokeLine2(levelLine, top.X, top.Y, c.Max.X, top.Y)
	c.FillText(sty, vg.Point{X: c.Max.X - 3 - fontSlack*sty.Width(words), Y: top.Y + 2}, words)
}

// widths draws the width of the notch above the dam, and those of bed, crest and channel below.
func (d acrossDam) widths(c draw.Canvas, at func(checkdam.Point) vg.Point) {
	section := d.Dam.Request.Section
	between := func(leftM, rightM float64, y vg.Length, words string, lift vg.Length) {
		from, to := at(checkdam.Point{OffsetM: leftM}), at(checkdam.Point{OffsetM: rightM})
		from.Y, to.Y = y, y
		crossSection{system: d.system}.across(c, from, to, words, lift)
	}
	middle := section.BedMiddleM()
	if n := d.Dam.Notch; n != nil {
		y := at(checkdam.Point{LevelM: d.topM()}).Y + 8
		where := " at the sill"
		if n.Shape == checkdam.Parabolic {
			where = " at the top"
		}
		between(middle-n.WidthM/2, middle+n.WidthM/2, y, "notch "+d.system.Length(n.WidthM, 2)+where, 4)
	}
	left, right := d.banks()
	y := c.Min.Y + 3*dimensionPitch - 4
	between(middle-section.BedWidthM()/2, middle+section.BedWidthM()/2, y, "bed "+d.system.Length(section.BedWidthM(), 2), 3)
	if len(d.body) > 0 {
		last := d.body[len(d.body)-1]
		from, to := d.body[0][0].OffsetM, last[len(last)-1].OffsetM
		between(from, to, y-dimensionPitch, "crest "+d.system.Length(to-from, 2), 3)
	}
	between(left.OffsetM, right.OffsetM, y-2*dimensionPitch, "bank to bank "+d.system.Length(right.OffsetM-left.OffsetM, 2), 3)
}

// bankNames names the banks at the top, with their heights above the bed.
func (d acrossDam) bankNames(c draw.Canvas, leftM, rightM float64) {
	sty := style(8.5, ink)
	c.FillText(sty, vg.Point{X: c.Min.X + 4, Y: c.Max.Y - 12}, "left bank, "+d.system.Length(leftM, 2)+" high")
	words := "right bank, " + d.system.Length(rightM, 2) + " high"
	c.FillText(sty, vg.Point{X: c.Max.X - 4 - fontSlack*sty.Width(words), Y: c.Max.Y - 12}, words)
}

// hatched fills an outline with a pale tone and with lines that rise to the right at 45° on the page, a pitch (points) apart.
func hatched(c draw.Canvas, outline []vg.Point, pitch float64) {
	c.FillPolygon(paleGrey, outline)
	var lines vg.Path
	lowest, highest := math.Inf(1), math.Inf(-1)
	for _, p := range outline {
		lowest, highest = min(lowest, float64(p.Y-p.X)), max(highest, float64(p.Y-p.X))
	}
	for k := math.Ceil(lowest / pitch); k*pitch < highest; k++ {
		rise := vg.Length(k * pitch) // the line y = x + rise
		var cuts []vg.Point
		for i, p := range outline {
			q := outline[(i+1)%len(outline)]
			a, b := p.Y-p.X-rise, q.Y-q.X-rise
			if (a < 0) != (b < 0) {
				x := p.X + (q.X-p.X)*a/(a-b)
				cuts = append(cuts, vg.Point{X: x, Y: x + rise})
			}
		}
		slices.SortFunc(cuts, func(p, q vg.Point) int { return cmp.Compare(p.X, q.X) })
		for i := 1; i < len(cuts); i += 2 {
			lines.Move(cuts[i-1])
			lines.Line(cuts[i])
		}
	}
	c.SetLineStyle(hatchLine)
	c.Stroke(lines)
}
