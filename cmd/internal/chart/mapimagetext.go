package chart

import (
	"fmt"

	"github.com/paulmach/orb"
	"golang.org/x/image/font"
	"golang.org/x/image/font/sfnt"
	"golang.org/x/image/math/fixed"
	"gonum.org/v1/plot/vg"
)

// text paints a text by the outlines of its letters, so that it can be turned and be stroked.
func (p *painter) text(n *node, l look) error {
	size := n.number("font-size")
	face := style(size, ink).Font
	if l.attrs["font-weight"] == "bold" {
		face.Weight = font.WeightBold
	}
	letters := faces.Fonts.Lookup(face, vg.Points(size)).Face
	l.placing = l.moved(n.number("x"), n.number("y"))
	if err := p.letters(letters, n.text, size, l); err != nil {
		return fmt.Errorf("paint %q: %w", n.text, err)
	}
	return nil
}

// letters paints the letters of a font from a point on.
func (p *painter) letters(from *sfnt.Font, words string, size float64, l look) error {
	const fine = 1 << 10 // outlines are read this large and made smaller, so that they are not rounded
	var buffer sfnt.Buffer
	var outlines []sfnt.Segments
	var starts []float64
	along, unit := 0.0, size/fine/64 // of 1/64 of a pixel at that size, points
	for _, letter := range words {
		index, err := from.GlyphIndex(&buffer, letter)
		if err != nil {
			return err
		}
		outline, err := from.LoadGlyph(&buffer, index, fixed.I(fine), nil)
		if err != nil {
			return err
		}
		advance, err := from.GlyphAdvance(&buffer, index, fixed.I(fine), font.HintingNone)
		if err != nil {
			return err
		}
		outlines, starts = append(outlines, append(sfnt.Segments(nil), outline...)), append(starts, along)
		along += float64(advance) * unit
	}
	if l.attrs["text-anchor"] == "middle" {
		l.placing = l.moved(-along/2, 0)
	}
	var lines []trace
	for i, outline := range outlines {
		lines = append(lines, flattened(outline, starts[i], unit)...)
	}
	p.paths(lines, l)
	return nil
}

// flattened returns the outline of a letter as closed lines; curves become eight pieces.
func flattened(outline sfnt.Segments, start, unit float64) []trace {
	const pieces = 8
	point := func(f fixed.Point26_6) orb.Point { return orb.Point{start + float64(f.X)*unit, float64(f.Y) * unit} }
	var out []trace
	var at orb.Point
	for _, s := range outline {
		if s.Op == sfnt.SegmentOpMoveTo {
			at = point(s.Args[0])
			out = append(out, trace{points: []orb.Point{at}, closed: true})
			continue
		}
		t := &out[len(out)-1]
		end := point(s.Args[0])
		if s.Op == sfnt.SegmentOpQuadTo {
			by := end
			end = point(s.Args[1])
			for k := 1.0; k < pieces; k++ {
				u := k / pieces
				a, b, c := (1-u)*(1-u), 2*u*(1-u), u*u
				t.points = append(t.points, orb.Point{a*at[0] + b*by[0] + c*end[0], a*at[1] + b*by[1] + c*end[1]})
			}
		}
		t.points = append(t.points, end) // the font has no cubic curves: TrueType outlines are quadratic
		at = end
	}
	return out
}
