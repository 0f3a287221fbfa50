package chart

import (
	"math"
	"slices"

	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
)

// Dots of silt. Our own choices, points.
const (
	dotPitch = 2.6 // between rows, and between dots along a row
	dotSize  = 0.8
)

// stippled fills an outline with a pale tone and with dots in rows, every other row moved by half a pitch. Dots hang on the page, so
// that those of neighbours fall in line.
func stippled(c draw.Canvas, outline []vg.Point) {
	c.FillPolygon(silt, outline)
	lowest, highest := math.Inf(1), math.Inf(-1)
	for _, p := range outline {
		lowest, highest = min(lowest, float64(p.Y)), max(highest, float64(p.Y))
	}
	var dots vg.Path
	for row := math.Ceil(lowest / dotPitch); row*dotPitch < highest; row++ {
		y := vg.Length(row * dotPitch)
		cuts := crossings(outline, y)
		shift := 0.5 * math.Mod(math.Abs(row), 2)
		for i := 1; i < len(cuts); i += 2 {
			for k := math.Ceil((cuts[i-1]+dotSize/2)/dotPitch - shift); (k+shift)*dotPitch < cuts[i]-dotSize/2; k++ {
				x := vg.Length((k + shift) * dotPitch)
				dots.Move(vg.Point{X: x - dotSize/2, Y: y})
				dots.Line(vg.Point{X: x + dotSize/2, Y: y})
			}
		}
	}
	if len(dots) > 0 {
		c.SetLineStyle(draw.LineStyle{Color: siltHatch, Width: dotSize})
		c.Stroke(dots)
	}
}

// crossings returns where a level line crosses an outline, from the left.
func crossings(outline []vg.Point, y vg.Length) []float64 {
	var out []float64
	for i, p := range outline {
		q := outline[(i+1)%len(outline)]
		if (p.Y < y) != (q.Y < y) {
			out = append(out, float64(p.X+(q.X-p.X)*(y-p.Y)/(q.Y-p.Y)))
		}
	}
	slices.Sort(out)
	return out
}
