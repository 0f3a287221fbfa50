package chart

import (
	"math"
	"strings"

	"siltstep/cmd/internal/units"
	"siltstep/hydro/erosion"

	"github.com/paulmach/orb"
)

// classStyle is how the drainages of a class are drawn. Each class is darker than the one before and
// has a stroke of its own, from dots to a line with ticks across, so that colour is never needed.
type classStyle struct {
	class  erosion.Class
	name   string
	colour string
	dashes []float64 // stroke and gap by turns, line widths; nil is unbroken
	ticks  bool      // short strokes across, as for a raw bank
}

// classStyles are in the order of drawing: what comes later lies above. Colours are our own choice: in
// grey, and to eyes that see no red or no green, they differ by how dark they are.
var classStyles = []classStyle{
	{class: "", name: "not judged", colour: "#858585", dashes: []float64{5, 2, 1, 2}},
	{class: erosion.Sound, name: "sound", colour: "#5b93b0", dashes: []float64{0, 1.9}},
	{class: erosion.Watch, name: "watch", colour: "#9c6a17", dashes: []float64{3.2, 2}},
	{class: erosion.Eroding, name: "eroding", colour: "#8f3210"},
	{class: erosion.Severe, name: "severe", colour: "#2e0a26", ticks: true},
}

// styleOf returns the style of a class; of one that is not known, that of none.
func styleOf(class erosion.Class) classStyle {
	for _, s := range classStyles {
		if s.class == class {
			return s
		}
	}
	return classStyles[0]
}

// Sizes of lines, points. Our own choices.
const (
	narrowest, widest = 1.0, 3.6
	widthPerDecade    = 0.7  // for each tenfold catchment
	narrowestHa       = 0.25 // drawn as narrowest
	casing            = 1.3  // white beside a line, on each side
	tickReach         = 1.7  // of a tick beside the line, on each side
	tickWidth         = 0.8
	tickPitch         = 4.2
)

// Most of the frame that lines may take before all of them, and the marks, are drawn thinner, and how
// thin at the least. Our own choices.
const (
	mostInk  = 0.09
	thinnest = 0.45
)

// lineWidth returns the width of a line by its catchment, points, where there is room.
func lineWidth(catchmentM2 float64) float64 {
	w := narrowest + widthPerDecade*math.Log10(catchmentM2/units.HectareM2/narrowestHa)
	if !(w > narrowest) {
		return narrowest
	}
	return min(w, widest)
}

// mapLine is a drainage ready to draw.
type mapLine struct {
	MapDrainage
	points []orb.Point
	style  classStyle
	width  float64
}

// reach returns how far a line goes to each side of its middle, points.
func (l mapLine) reach(weight float64) float64 {
	if l.style.ticks {
		return l.width/2 + tickReach*weight
	}
	return l.width / 2
}

// mapLines returns the drainages that can be drawn, by rank, and how heavy lines and marks are: 1
// where there is room, less on a crowded map.
func (m Map) mapLines(s sheet) (lines []mapLine, weight float64) {
	var ink float64
	for _, drainage := range m.byRank() {
		points := s.simplified(drainage.Line)
		if len(points) < 2 {
			continue
		}
		l := mapLine{drainage, points, styleOf(drainage.Class), lineWidth(drainage.CatchmentM2)}
		ink += lengthOf(points) * l.width
		lines = append(lines, l)
	}
	weight = 1
	if most := mostInk * s.frame.width() * s.frame.height(); ink > most {
		weight = max(thinnest, most/ink)
	}
	for i := range lines {
		lines[i].width *= weight
	}
	return lines, weight
}

// strokes draws the lines: white casings below all, then class by class, the worst on top.
func (d *mapDrawing) strokes() {
	d.pen.put("<g fill=\"none\" stroke-linejoin=\"round\" stroke-linecap=\"round\">\n<g stroke=\"#fff\">\n")
	for i, l := range d.lines {
		d.pen.put("<use xlink:href=\"#p", i, "\" stroke-width=\"", l.width+2*casing*d.weight, "\"/>\n")
	}
	d.pen.put("</g>\n")
	for _, style := range classStyles {
		d.class(style)
	}
	d.pen.put("</g>\n")
	d.cutShort()
}

// class draws the lines of a class, the worst last.
func (d *mapDrawing) class(style classStyle) {
	begun := false
	for i := len(d.lines) - 1; i >= 0; i-- {
		l := d.lines[i]
		if l.style.class != style.class {
			continue
		}
		if !begun {
			d.pen.put("<g ", style.stroke(), ">\n")
			begun = true
		}
		d.pen.put("<use xlink:href=\"#p", i, "\"", style.strokeOf(l.width), "><title>", escape(l.says(d.system)), "</title></use>\n")
		if style.ticks {
			d.pen.put("<use xlink:href=\"#p", i, "\"", tickStroke(l.width, d.weight), "/>\n")
		}
	}
	if begun {
		d.pen.put("</g>\n")
	}
}

// stroke returns the attributes of every line of the class.
func (s classStyle) stroke() string {
	out := "stroke=\"" + s.colour + "\""
	if len(s.dashes) > 0 && s.dashes[0] > 0 {
		out += " stroke-linecap=\"butt\"" // a dash of no length is a round dot
	}
	return out
}

// strokeOf returns the attributes of one line of the class.
func (s classStyle) strokeOf(width float64) string {
	out := " stroke-width=\"" + tenth(width) + "\""
	if len(s.dashes) > 0 {
		var dashes []string
		for _, n := range s.dashes {
			dashes = append(dashes, tenth(n*width))
		}
		out += " stroke-dasharray=\"" + strings.Join(dashes, " ") + "\""
	}
	return out
}

// tickStroke returns the attributes of a stroke that leaves ticks across a line: wide and very short
// dashes.
func tickStroke(width, weight float64) string {
	return " stroke-linecap=\"butt\" stroke-width=\"" + tenth(width+2*tickReach*weight) +
		"\" stroke-dasharray=\"" + tenth(tickWidth*weight) + " " + tenth((tickPitch-tickWidth)*weight) + "\""
}

// says describes a line in words.
func (l mapLine) says(system units.System) string {
	area := system.Area(l.CatchmentM2, 1)
	if l.Truncated {
		area = "at least " + area
	}
	return l.ID + ": " + l.style.name + ", " + area
}
