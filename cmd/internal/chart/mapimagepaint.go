package chart

import (
	"bytes"
	"encoding/base64"
	"fmt"
	"image"
	"image/color"
	"image/draw"
	"image/png"
	"maps"
	"math"
	"strconv"
	"strings"

	"git.sr.ht/~sbinet/gg"
	scaling "golang.org/x/image/draw"
)

// painter paints the elements that a pen writes onto pixels.
type painter struct {
	page  *gg.Context
	named map[string]*node
}

// look is what an element has from those around it: attributes, and its place.
type look struct {
	attrs map[string]string
	placing
}

// paintNodes paints a whole drawing.
func paintNodes(root *node) (*painter, error) {
	across := int(math.Ceil(root.number("width") * pixelsPoint))
	down := int(math.Ceil(root.number("height") * pixelsPoint))
	p := &painter{page: gg.NewContext(across, down), named: map[string]*node{}}
	root.named(p.named)
	p.page.SetColor(color.White)
	p.page.Clear()
	return p, p.paint(root, look{placing: placing{size: pixelsPoint}})
}

// handedDown are the attributes that elements have from those around them.
var handedDown = []string{"fill", "fill-opacity", "fill-rule", "stroke", "stroke-width", "stroke-linecap", "stroke-dasharray", "text-anchor", "font-weight"}

// within returns the look of an element.
func (l look) within(n *node) look {
	out := look{maps.Clone(l.attrs), l.transformed(n.attrs["transform"])}
	for _, name := range handedDown {
		if v, ok := n.attrs[name]; ok {
			if out.attrs == nil {
				out.attrs = map[string]string{}
			}
			out.attrs[name] = v
		}
	}
	return out
}

// paint paints an element and what is in it.
func (p *painter) paint(n *node, around look) error {
	l := around.within(n)
	switch n.name {
	case "defs", "title":
		return nil
	case "use":
		shape := p.named[strings.TrimPrefix(n.attrs["href"], "#")]
		if shape == nil {
			return fmt.Errorf("paint the map: no element %q", n.attrs["href"])
		}
		l.placing = l.moved(n.number("x"), n.number("y"))
		return p.paint(shape, l)
	case "path":
		p.paths(traces(n.attrs["d"]), l)
	case "rect":
		p.paths([]trace{{points: n.box().corners(), closed: true}}, l)
	case "text":
		return p.text(n, l)
	case "image":
		return p.image(n, l)
	}
	for _, c := range n.children {
		if err := p.paint(c, l); err != nil {
			return err
		}
	}
	if n.attrs["clip-path"] != "" {
		p.whiten(p.named["frame"].children[0].box(), l)
	}
	return nil
}

// whiten paints all but a box white: the painter does not clip, and nothing is around the frame before it.
func (p *painter) whiten(frame box, l look) {
	lo, hi := l.at(frame.x0, frame.y0), l.at(frame.x1, frame.y1)
	w, h := float64(p.page.Width()), float64(p.page.Height())
	p.page.SetColor(color.White)
	for _, b := range []box{{0, 0, w, lo[1]}, {0, hi[1], w, h}, {0, 0, lo[0], h}, {hi[0], 0, w, h}} {
		p.page.DrawRectangle(b.x0, b.y0, b.width(), b.height())
		p.page.Fill()
	}
}

// paths fills and strokes lines.
func (p *painter) paths(lines []trace, l look) {
	for i, line := range lines {
		points := line.points[:0:0]
		for _, at := range line.points {
			points = append(points, l.at(at[0], at[1]))
		}
		lines[i].points = points
	}
	if c, ok := l.paint("fill", "#000"); ok {
		p.page.SetFillRuleWinding()
		if l.attrs["fill-rule"] == "evenodd" {
			p.page.SetFillRuleEvenOdd()
		}
		p.trace(lines)
		p.page.SetColor(c)
		p.page.Fill()
	}
	if c, ok := l.paint("stroke", "none"); ok {
		p.page.SetColor(c)
		p.stroke(lines, l)
	}
}

// stroke strokes lines of pixels, dashed where they are to be.
func (p *painter) stroke(lines []trace, l look) {
	width := l.size
	if v := numbers(l.attrs["stroke-width"]); len(v) == 1 {
		width *= v[0]
	}
	dashes := numbers(l.attrs["stroke-dasharray"])
	for i := range dashes {
		dashes[i] *= l.size
	}
	if len(dashes) == 2 && dashes[0] == 0 { // round dots
		for _, line := range lines {
			for _, at := range line.dots(dashes[1]) {
				p.page.DrawCircle(at[0], at[1], width/2)
			}
		}
		p.page.Fill()
		return
	}
	p.page.SetLineWidth(width)
	p.page.SetDash(dashes...)
	p.page.SetLineCapButt()
	if l.attrs["stroke-linecap"] == "round" {
		p.page.SetLineCapRound()
	}
	p.trace(lines)
	p.page.Stroke()
}

// trace makes lines the path of the page.
func (p *painter) trace(lines []trace) {
	for _, line := range lines {
		p.page.NewSubPath()
		for _, at := range line.points {
			p.page.LineTo(at[0], at[1])
		}
		if line.closed {
			p.page.ClosePath()
		}
	}
}

// paint returns the colour of an attribute; false for none. Colours are "#rgb" or "#rrggbb".
func (l look) paint(name, otherwise string) (color.Color, bool) {
	v, ok := l.attrs[name]
	if !ok {
		v = otherwise
	}
	digits := strings.TrimPrefix(v, "#")
	if len(digits) == 3 {
		digits = string([]byte{digits[0], digits[0], digits[1], digits[1], digits[2], digits[2]})
	}
	n, err := strconv.ParseUint(digits, 16, 24)
	if err != nil {
		return nil, false
	}
	c := color.NRGBA{uint8(n >> 16), uint8(n >> 8), uint8(n), 0xff}
	if share := numbers(l.attrs[name+"-opacity"]); len(share) == 1 {
		c.A = uint8(math.Round(0xff * share[0]))
	}
	return c, true
}

// image paints the shaded relief.
func (p *painter) image(n *node, l look) error {
	_, coded, _ := strings.Cut(n.attrs["href"], "base64,")
	data, err := base64.StdEncoding.DecodeString(coded)
	if err != nil {
		return fmt.Errorf("paint the shaded relief: %w", err)
	}
	relief, err := png.Decode(bytes.NewReader(data))
	if err != nil {
		return fmt.Errorf("paint the shaded relief: %w", err)
	}
	b := n.box()
	lo, hi := l.at(b.x0, b.y0), l.at(b.x1, b.y1)
	place := image.Rect(int(math.Floor(lo[0])), int(math.Floor(lo[1])), int(math.Ceil(hi[0])), int(math.Ceil(hi[1])))
	large := image.NewRGBA(place)
	scaling.BiLinear.Scale(large, place, relief, relief.Bounds(), scaling.Src, nil)
	page, ok := p.page.Image().(draw.Image)
	if !ok {
		panic("chart: the page of a map cannot be drawn on")
	}
	shade := image.NewUniform(color.Alpha{uint8(math.Round(0xff * n.number("opacity")))})
	draw.DrawMask(page, place, large, place.Min, shade, image.Point{}, draw.Over)
	return nil
}
