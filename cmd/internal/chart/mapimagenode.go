package chart

import (
	"encoding/xml"
	"errors"
	"fmt"
	"io"
	"strconv"
	"strings"
)

// node is an element of a drawing.
type node struct {
	name     string
	attrs    map[string]string // by local name
	text     string
	children []*node
}

// readNodes reads what the pen wrote and returns its outermost element.
func readNodes(r io.Reader) (*node, error) {
	top := &node{}
	open := []*node{top}
	for d := xml.NewDecoder(r); ; {
		token, err := d.Token()
		if errors.Is(err, io.EOF) {
			break
		}
		if err != nil {
			return nil, fmt.Errorf("read the drawing: %w", err)
		}
		last := open[len(open)-1]
		switch token := token.(type) {
		case xml.StartElement:
			n := &node{name: token.Name.Local, attrs: make(map[string]string, len(token.Attr))}
			for _, a := range token.Attr {
				n.attrs[a.Name.Local] = a.Value
			}
			last.children = append(last.children, n)
			open = append(open, n)
		case xml.CharData:
			last.text += string(token)
		case xml.EndElement:
			open = open[:len(open)-1]
		}
	}
	if len(top.children) != 1 {
		return nil, fmt.Errorf("read the drawing: %d outermost elements, want 1", len(top.children))
	}
	return top.children[0], nil
}

// number returns an attribute that is a number; 0 where it is missing.
func (n *node) number(name string) float64 {
	v, _ := strconv.ParseFloat(strings.TrimSuffix(n.attrs[name], "pt"), 64)
	return v
}

// box returns the place of a rectangle.
func (n *node) box() box {
	x, y := n.number("x"), n.number("y")
	return box{x, y, x + n.number("width"), y + n.number("height")}
}

// named adds the elements that have an id, at any depth.
func (n *node) named(into map[string]*node) {
	if id := n.attrs["id"]; id != "" {
		into[id] = n
	}
	for _, c := range n.children {
		c.named(into)
	}
}

// numbers reads numbers with anything between them that no number holds: "translate(5 -2)".
func numbers(words string) []float64 {
	var out []float64
	for _, field := range strings.FieldsFunc(words, func(r rune) bool { return !strings.ContainsRune("0123456789.-", r) }) {
		for i, part := range strings.Split(field, "-") { // a minus also begins the next number
			if part == "" {
				continue
			}
			v, err := strconv.ParseFloat(part, 64)
			if err != nil {
				continue
			}
			if i > 0 {
				v = -v
			}
			out = append(out, v)
		}
	}
	return out
}
