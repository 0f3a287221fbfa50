package cards

import "math"

// A frame turns metres of a sketch into mm of the paper.
type frame struct {
	x, y, w, h   float64 // of the paper
	x0, z0       float64 // metres at the lower left corner
	scale        float64 // mm a metre along
	exaggeration float64 // of heights
}

// exaggerations are tried from the largest.
var exaggerations = []float64{10, 8, 6, 5, 4, 3, 2.5, 2, 1.5, 1.25, 1}

// fit returns the frame that shows a range of metres in a rectangle as large as it can, with plain exaggeration. Where heights do not
// fit at 1:1 the sketch is made narrower.
func fit(x, y, w, h, fromM, toM, lowM, highM float64) frame {
	f := frame{x: x, y: y, w: w, h: h, scale: w / (toM - fromM), exaggeration: 1}
	tall := max(highM-lowM, 0.1)
	for _, e := range exaggerations {
		if tall*f.scale*e <= h {
			f.exaggeration = e
			break
		}
	}
	f.scale = min(f.scale, h/(tall*f.exaggeration))
	f.x0 = (fromM+toM)/2 - w/f.scale/2
	f.z0 = (lowM+highM)/2 - h/(f.scale*f.exaggeration)/2
	return f
}

// at returns the place of a point.
func (f frame) at(xM, zM float64) spot {
	return spot{X: f.x + (xM-f.x0)*f.scale, Y: f.y + f.h - (zM-f.z0)*f.scale*f.exaggeration}
}

// along and up are the parts of at.
func (f frame) along(xM float64) float64 { return f.at(xM, f.z0).X }
func (f frame) up(zM float64) float64    { return f.at(f.x0, zM).Y }

// A curve is heights over distance, by rising distance.
type curve struct{ xM, zM []float64 }

func (c *curve) add(x, z float64) { c.xM, c.zM = append(c.xM, x), append(c.zM, z) }

// heightAt returns the height of a curve at a distance, m: NaN beyond its ends.
func (c curve) heightAt(x float64) float64 {
	for i := 1; i < len(c.xM); i++ {
		if x >= c.xM[i-1] && x <= c.xM[i] && c.xM[i] > c.xM[i-1] {
			share := (x - c.xM[i-1]) / (c.xM[i] - c.xM[i-1])
			return c.zM[i-1] + share*(c.zM[i]-c.zM[i-1])
		}
	}
	return math.NaN()
}

// between returns the part of a curve from one distance to another, with points there where the curve reaches so far.
func (c curve) between(from, to float64) (part curve) {
	if z := c.heightAt(from); !math.IsNaN(z) {
		part.add(from, z)
	}
	for i, x := range c.xM {
		if x > from && x < to {
			part.add(x, c.zM[i])
		}
	}
	if z := c.heightAt(to); !math.IsNaN(z) {
		part.add(to, z)
	}
	return part
}

// bounds returns the lowest and highest point; infinite for none.
func (c curve) bounds() (low, high float64) {
	low, high = math.Inf(1), math.Inf(-1)
	for _, z := range c.zM {
		low, high = min(low, z), max(high, z)
	}
	return low, high
}

// spots places a curve in a frame.
func (c curve) spots(f frame) []spot {
	out := make([]spot, len(c.xM))
	for i := range c.xM {
		out[i] = f.at(c.xM[i], c.zM[i])
	}
	return out
}
