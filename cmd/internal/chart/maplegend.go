package chart

import (
	"math"
	"slices"
	"strconv"
	"strings"

	"siltstep/cmd/internal/units"
	"siltstep/hydro/erosion"

	"github.com/paulmach/orb"
)

// mapNotes says what a map does not tell, under every map.
var mapNotes = []string{
	"Severity is siltstep's own judgement from the elevation model: soil, rock and what changed since the survey are not in it.",
	"Planning aid, not an engineered design: walk every site. True to scale when printed at full size.",
}

// inkText is the colour of what is written on a map.
const inkText = `fill="#1c1c1c"`

// count returns how many drainages are of a class.
func (m Map) count(class erosion.Class) int {
	n := 0
	for _, d := range m.Drainages {
		if styleOf(d.Class).class == class {
			n++
		}
	}
	return n
}

// figures returns the numbers under the title.
func (d *mapDrawing) figures() []string {
	out := []string{counted(len(d.Drainages), "drainage")}
	for i := len(classStyles) - 1; i >= 0; i-- {
		if n := d.count(classStyles[i].class); n > 0 {
			out = append(out, strconv.Itoa(n)+" "+classStyles[i].name)
		}
	}
	if n := len(d.Headcuts); n > 0 {
		out = append(out, counted(n, "headcut"))
	}
	if n := len(d.Dams); n > 0 {
		out = append(out, counted(n, "dam"))
	}
	return out
}

// counted writes a number and its noun.
func counted(n int, noun string) string {
	if n == 1 {
		return "1 " + noun
	}
	return strconv.Itoa(n) + " " + noun + "s"
}

// first returns the ids of the first ranks.
func (d *mapDrawing) first() []string {
	var out []string
	for _, r := range d.byRank() {
		if r.Rank >= 1 && r.Rank <= firstRanks {
			out = append(out, r.ID)
		}
	}
	return out
}

// header writes the title, the figures and who comes first.
func (d *mapDrawing) header() {
	d.pen.put("<g ", inkText, ">\n")
	const topic = ": drainages by severity"
	room := d.width - 2*mapMargin
	d.pen.text(mapMargin, 20, 13, shortened(d.Title, 13, room-textWidth(topic, 13))+topic, "")
	d.pen.text(mapMargin, 32, 9, strings.Join(d.figures(), "  ·  "), "")
	words := "Severity not judged: labels by drainage area, the largest first."
	if len(d.Drainages) == 0 {
		words = "No drainage was found."
	}
	if ids := d.first(); len(ids) > 0 {
		words = "Worst first: " + strings.Join(ids, ", ")
	}
	d.pen.text(mapMargin, 43, 9, shortened(words, 9, room), "")
	d.pen.put("</g>\n")
}

// footer writes what is left out and what the map does not tell.
func (d *mapDrawing) footer() {
	var left []string
	if n := len(d.lines) - len(d.placed); n > 0 {
		left = append(left, "Without a label, for room: "+strconv.Itoa(n)+" of "+counted(len(d.lines), "drainage")+".")
	}
	if n := len(d.Drainages) - len(d.lines); n > 0 {
		left = append(left, "Not drawn, for want of a line: "+counted(n, "drainage")+".")
	}
	d.pen.put("<g ", inkText, ">\n")
	y := d.height - mapFooter + 10
	for _, words := range append(slices.Clone(mapNotes), strings.Join(left, " ")) {
		if words != "" {
			d.pen.text(mapMargin, y, 7.5, words, "")
		}
		y += 10
	}
	d.pen.put("</g>\n")
}

// Columns and rows of the legend, points.
const (
	legendRow    = 11.5
	legendSwatch = 26
	legendText   = 7.5
)

// legend explains lines and marks, in columns under the frame.
func (d *mapDrawing) legend() {
	top := d.frame.y1 + mapBelow + 14
	spread := (d.width - 2*mapMargin - 512) / 3 // what a page has over the narrowest
	x := [4]float64{mapMargin, mapMargin + 106 + spread, mapMargin + 222 + 2*spread, mapMargin + 352 + 3*spread}
	d.pen.put("<g ", inkText, " stroke-linejoin=\"round\">\n")
	d.classes(x[0], top)
	d.widths(x[1], top)
	d.symbols(x[2], top)
	d.bar(x[3], top)
	d.pen.put("</g>\n")
}

// entry writes a row of the legend and returns the middle of its swatch.
func (d *mapDrawing) entry(x, top float64, row int, words string) float64 {
	y := top + float64(row)*legendRow
	d.pen.text(x+legendSwatch+6, y, legendText, words, "")
	return y - 2.6
}

// sample draws a short line of a style.
func (d *mapDrawing) sample(style classStyle, x, y, width float64) {
	width *= d.weight
	from := " d=\"M" + tenth(x) + " " + tenth(y) + "h" + tenth(legendSwatch) + "\""
	end := " stroke-linecap=\"round\""
	if len(style.dashes) > 0 && style.dashes[0] > 0 {
		end = ""
	}
	d.pen.put("<path fill=\"none\" ", style.stroke(), end, style.strokeOf(width), from, "/>\n")
	if style.ticks {
		d.pen.put("<path fill=\"none\" ", style.stroke(), tickStroke(width, d.weight), from, "/>\n")
	}
}

// classes explains the strokes, the worst first.
func (d *mapDrawing) classes(x, top float64) {
	d.pen.text(x, top, legendText, "Severity", "font-weight=\"bold\"")
	row := 1
	for i := len(classStyles) - 1; i >= 0; i-- {
		style := classStyles[i]
		if style.class == "" && d.count("") == 0 {
			continue
		}
		d.sample(style, x, d.entry(x, top, row, style.name), 1.8)
		row++
	}
}

// widths explains the widths of lines, in ha or ac.
func (d *mapDrawing) widths(x, top float64) {
	d.pen.text(x, top, legendText, "Drainage area", "font-weight=\"bold\"")
	for i, n := range []float64{1, 10, 100} {
		area := n * units.HectareM2
		if d.system == units.US {
			area = n * units.AcreM2
		}
		d.sample(styleOf(erosion.Eroding), x, d.entry(x, top, i+1, d.system.Area(area, 0)), lineWidth(area))
	}
	if len(d.first()) > 0 {
		y := d.entry(x, top, 4, "first ten by rank")
		d.pen.text(x, y+2.6, firstText, "D01", "font-weight=\"bold\"")
	}
}

// symbols explains the marks that are on the map.
func (d *mapDrawing) symbols(x, top float64) {
	d.pen.text(x, top, legendText, "Marks", "font-weight=\"bold\"")
	row := 1
	next := func(words string) orb.Point {
		y := d.entry(x, top, row, words)
		row++
		return orb.Point{x + legendSwatch/2, y}
	}
	if len(d.Headcuts) > 0 {
		d.mark("headcut", next("headcut"))
	}
	if len(d.Dams) > 0 {
		d.mark("dam", next("check dam"))
	}
	if slices.ContainsFunc(d.lines, func(l mapLine) bool { return l.Truncated }) {
		at := next("more flows in from")
		d.entry(x, top, row, "beyond the data")
		row++
		d.pen.put("<g fill=\"none\" stroke=\"#1c1c1c\" stroke-width=\"0.9\">\n")
		d.chevron(orb.Point{at[0] + 2, at[1]}, 0)
		d.pen.put("</g>\n")
	}
	if len(d.Property) > 0 {
		at := next("property line")
		d.pen.put("<path fill=\"none\" ", propertyStroke, " d=\"M", x, " ", at[1], "h", legendSwatch*1.0, "\"/>\n")
	}
}

// describe says in words what is drawn, for readers that cannot see it.
func (d *mapDrawing) describe() string {
	text := d.Title + ": map of drainages by severity, scale " + d.scaleText(d.system) + ": " + strings.Join(d.figures(), ", ")
	if ids := d.first(); len(ids) > 0 {
		text += "; the worst first " + strings.Join(ids, ", ")
	}
	return text + "."
}

// roundLength returns the longest length of 1, 2 or 5 times a power of ten not above a limit.
func roundLength(limit float64) float64 {
	decade := math.Pow(10, math.Floor(math.Log10(limit)+1e-9))
	for _, k := range []float64{5, 2} {
		if k*decade <= limit*(1+1e-9) {
			return k * decade
		}
	}
	return decade
}
