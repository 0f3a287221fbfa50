package chart

import (
	"math"
	"strconv"

	"siltstep/cmd/internal/units"
)

// gridPitch is the least distance between the ticks of the grid, points.
const gridPitch = 80

// grid draws the frame, ticks with coordinates around it, and small crosses where they meet.
func (d *mapDrawing) grid() {
	const tick, arm = 4.0, 2.5
	pt := d.scale * pointM
	step := roundLength(gridPitch * pt)
	for _, k := range []float64{1, 2, 2.5, 5} { // the least round step that is not below the pitch
		if k*step >= gridPitch*pt*(1-1e-9) {
			step *= k
			break
		}
	}
	xs, ys := gridLines(d.extent.Min[0], d.extent.Max[0], step), gridLines(d.extent.Min[1], d.extent.Max[1], step)
	f := d.frame
	d.pen.put("<g fill=\"none\" stroke=\"#6e6e6e\" stroke-width=\"0.5\">\n<path d=\"")
	for _, x := range xs {
		px := f.x0 + (x-d.extent.Min[0])/pt
		d.pen.put("M", px, " ", f.y1, "v", tick, "M", px, " ", f.y0, "v", -tick)
		for _, y := range ys {
			py := f.y1 - (y-d.extent.Min[1])/pt
			d.pen.put("M", px-arm, " ", py, "h", 2*arm, "M", px, " ", py-arm, "v", 2*arm)
		}
	}
	for _, y := range ys {
		py := f.y1 - (y-d.extent.Min[1])/pt
		d.pen.put("M", f.x0, " ", py, "h", -tick, "M", f.x1, " ", py, "h", tick)
	}
	d.pen.put("\"/>\n<rect ", f.attributes(), " stroke=\"#1c1c1c\"/>\n</g>\n<g ", inkText, " text-anchor=\"middle\">\n")
	for _, x := range xs {
		d.pen.text(between(f.x0+(x-d.extent.Min[0])/pt, f.x0+20, f.x1-20), f.y1+11, 6.5, coordinate(x, step)+" E", "")
	}
	for _, y := range ys {
		py := between(f.y1-(y-d.extent.Min[1])/pt, f.y0+20, f.y1-20)
		at := "transform=\"translate(" + tenth(f.x0-5.5) + " " + tenth(py) + ") rotate(-90)\""
		d.pen.text(0, 0, 6.5, coordinate(y, step)+" N", at)
	}
	d.pen.put("</g>\n")
}

// between keeps v in a range; where the range is empty, its middle.
func between(v, lo, hi float64) float64 {
	if lo > hi {
		return (lo + hi) / 2
	}
	return min(max(v, lo), hi)
}

// gridLines returns the multiples of a step in a range.
func gridLines(lo, hi, step float64) []float64 {
	var out []float64
	for k := math.Ceil(lo/step - 1e-9); k*step <= hi+1e-9*step; k++ {
		out = append(out, k*step)
	}
	return out
}

// coordinate writes a coordinate with the decimals of its step.
func coordinate(v, step float64) string {
	decimals := max(0, int(-math.Floor(math.Log10(step)+1e-9)))
	return strconv.FormatFloat(v+0, 'f', decimals, 64)
}

// barLength is the most room for the scale bar, points.
const barLength = 120

// bar draws the scale, a line with metres to one side and feet to the other, north, and the grid in words.
func (d *mapDrawing) bar(x, top float64) {
	pt := d.scale * pointM
	upper, lower := units.Metric.LengthScale(), units.US.LengthScale()
	if d.system == units.US {
		upper, lower = lower, upper
	}
	d.pen.text(x, top, legendText, "Scale "+d.scaleText(d.system), "font-weight=\"bold\"")
	y := top + 2.1*legendRow
	d.pen.put("<path fill=\"none\" stroke=\"#1c1c1c\" stroke-width=\"0.8\" d=\"")
	type end struct {
		x     float64
		y     float64
		words string
	}
	var ends []end
	for i, unit := range []units.Scale{upper, lower} {
		length := roundLength(barLength * pt / unit.One)
		size := length * unit.One / pt
		side := []float64{-5, 5}[i]
		if i == 0 {
			d.pen.put("M", x, " ", y-5, "v", 10.0)
		}
		d.pen.put("M", x, " ", y, "h", size, "v", side, "M", x+size/2, " ", y, "v", side*0.6)
		ends = append(ends, end{x + size + 3, y + []float64{-2, 7.4}[i], grouped(length) + " " + unit.Unit})
	}
	d.pen.put("\"/>\n")
	for _, e := range ends {
		d.pen.text(e.x, e.y, legendText, e.words, "")
	}
	d.north(x+5, top+3.4*legendRow)
	d.pen.text(x+18, top+4*legendRow, legendText, "Grid north is up; coordinates in m:", "")
	for i, words := range wrapped(d.crsName(), legendText, d.width-mapMargin-x-18, 2) {
		d.pen.text(x+18, top+float64(5+i)*legendRow, legendText, words, "")
	}
}

// crsName returns the name of the coordinate system.
func (d *mapDrawing) crsName() string {
	if d.CRS == "" {
		return "coordinate system not known"
	}
	return d.CRS
}

// north draws a staff with a single barb and an N at its foot.
func (d *mapDrawing) north(x, top float64) {
	d.pen.put("<path fill=\"none\" stroke=\"#1c1c1c\" stroke-width=\"0.9\" d=\"M", x, " ", top+20, "V", top, "l", 4.0, " ", 8.0, "\"/>\n")
	d.pen.text(x, top+28, legendText, "N", "text-anchor=\"middle\"")
}
