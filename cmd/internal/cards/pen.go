package cards

import (
	"math"

	"codeberg.org/go-pdf/fpdf"
)

// A spot is a position on the paper, mm.
type spot = fpdf.PointType

// line draws a straight line of some width, mm, and grey.
func (s *sheet) line(wide float64, grey int, x0, y0, x1, y1 float64) {
	s.pdf.SetLineWidth(wide)
	s.pdf.SetDrawColor(grey, grey, grey)
	s.pdf.Line(x0, y0, x1, y1)
}

// path draws a line through spots; fewer than two draw nothing.
func (s *sheet) path(wide float64, grey int, spots []spot) {
	if len(spots) < 2 {
		return
	}
	s.pdf.SetLineWidth(wide)
	s.pdf.SetDrawColor(grey, grey, grey)
	s.pdf.MoveTo(spots[0].X, spots[0].Y)
	for _, p := range spots[1:] {
		s.pdf.LineTo(p.X, p.Y)
	}
	s.pdf.DrawPath("D")
}

// dashed draws with dashes, mm.
func (s *sheet) dashed(on, off float64, draw func()) {
	s.pdf.SetDashPattern([]float64{on, off}, 0)
	draw()
	s.pdf.SetDashPattern(nil, 0)
}

// area fills an outline with a grey; fewer than three spots fill nothing.
func (s *sheet) area(grey int, spots []spot) {
	if len(spots) < 3 {
		return
	}
	s.pdf.SetFillColor(grey, grey, grey)
	s.pdf.Polygon(spots, "F")
}

// box draws a rectangle, filled with a grey, its line of some width; 0 draws none.
func (s *sheet) box(wide float64, grey int, x, y, w, h float64) {
	s.pdf.SetFillColor(grey, grey, grey)
	style := "F"
	if wide > 0 {
		s.pdf.SetLineWidth(wide)
		s.pdf.SetDrawColor(black, black, black)
		style = "FD"
	}
	s.pdf.Rect(x, y, w, h, style)
}

// inside draws within a rectangle and cuts off what lies beyond.
func (s *sheet) inside(x, y, w, h float64, draw func()) {
	s.pdf.ClipRect(x, y, w, h, false)
	draw()
	s.pdf.ClipEnd()
	s.start = true // the letters set inside are forgotten
}

// hatch fills an outline with pale grey and slanting lines, mm apart, and draws it.
func (s *sheet) hatch(apart float64, spots []spot) {
	if len(spots) < 3 {
		return
	}
	s.area(paleGrey, spots)
	west, east, top, low := math.Inf(1), math.Inf(-1), math.Inf(1), math.Inf(-1)
	for _, p := range spots {
		west, east, top, low = min(west, p.X), max(east, p.X), min(top, p.Y), max(low, p.Y)
	}
	s.pdf.ClipPolygon(spots, false)
	s.pdf.SetLineWidth(0.12)
	s.pdf.SetDrawColor(black, black, black)
	for x := west - (low - top); x < east; x += apart {
		s.pdf.MoveTo(x, low)
		s.pdf.LineTo(x+low-top, top)
	}
	s.pdf.DrawPath("D")
	s.pdf.ClipEnd()
	s.start = true
	s.path(0.45, black, append(spots[:len(spots):len(spots)], spots[0]))
}

// span draws a dimension between two places of a level line, ticks at its ends.
func (s *sheet) span(x0, x1, y float64) {
	s.line(0.2, black, x0, y, x1, y)
	s.line(0.2, black, x0, y-1, x0, y+1)
	s.line(0.2, black, x1, y-1, x1, y+1)
}

// rise draws a dimension between two heights.
func (s *sheet) rise(x, y0, y1 float64) {
	s.line(0.2, black, x, y0, x, y1)
	s.line(0.2, black, x-1, y0, x+1, y0)
	s.line(0.2, black, x-1, y1, x+1, y1)
}
