package chart

import (
	"bytes"
	"encoding/xml"
	"fmt"
	"math"
	"strconv"
	"strings"
	"unicode"

	"github.com/paulmach/orb"
)

// pen writes the SVG of a map. Lengths are points; numbers are rounded to 0.1.
type pen struct{ bytes.Buffer }

// put writes texts as they are and numbers.
func (p *pen) put(parts ...any) {
	for _, part := range parts {
		switch part := part.(type) {
		case string:
			p.WriteString(part)
		case int:
			p.WriteString(strconv.Itoa(part))
		case float64:
			p.WriteString(tenth(part))
		default:
			panic(fmt.Sprintf("chart: cannot write a %T", part))
		}
	}
}

// open begins the drawing. The description is for readers that cannot see it.
func (p *pen) open(width, height float64, description string) {
	p.put("<?xml version=\"1.0\"?>\n<svg width=\"", width, "pt\" height=\"", height, "pt\" viewBox=\"0 0 ", width, " ", height,
		"\"\n\txmlns=\"http://www.w3.org/2000/svg\"\n\txmlns:xlink=\"http://www.w3.org/1999/xlink\"\n",
		"\tfont-family=\"Liberation Sans,Arial,Helvetica,sans-serif\">\n<title>", escape(description), "</title>\n",
		"<rect width=\"", width, "\" height=\"", height, "\" fill=\"#fff\"/>\n")
}

// text writes a text whose baseline starts at a point; more holds further attributes.
func (p *pen) text(x, y, size float64, words, more string) {
	if more != "" {
		more = " " + more
	}
	p.put("<text x=\"", x, "\" y=\"", y, "\" font-size=\"", size, "\"", more, ">", escape(words), "</text>\n")
}

// path writes the data of a path.
func (p *pen) path(points []orb.Point, closed bool) { appendPath(&p.Buffer, points, closed) }

// appendPath appends the data of a path: the first point, then steps. Steps are taken between
// rounded points, so that they do not add up to an error.
func appendPath(b *bytes.Buffer, points []orb.Point, closed bool) {
	var x, y int
	for i, at := range points {
		nx, ny := int(math.Round(10*at[0])), int(math.Round(10*at[1]))
		switch {
		case i == 0:
			b.WriteString("M" + tenths(nx) + " " + tenths(ny))
		case nx == x && ny == y:
			continue
		default:
			dy := tenths(ny - y)
			if ny >= y {
				dy = " " + dy
			}
			b.WriteString("l" + tenths(nx-x) + dy)
		}
		x, y = nx, ny
	}
	if closed {
		b.WriteByte('z')
	}
}

// tenth writes a number with one decimal at most.
func tenth(v float64) string { return tenths(int(math.Round(10 * v))) }

// tenths writes a whole number of tenths as a decimal.
func tenths(n int) string {
	if n%10 == 0 {
		return strconv.Itoa(n / 10)
	}
	return strconv.FormatFloat(float64(n)/10, 'f', 1, 64)
}

// escape makes a text safe to stand in XML. Control characters become spaces.
func escape(words string) string {
	words = strings.Map(func(r rune) rune {
		if unicode.IsControl(r) {
			return ' '
		}
		return r
	}, words)
	var b strings.Builder
	_ = xml.EscapeText(&b, []byte(words)) // a Builder does not fail
	return b.String()
}

// finite reports whether both coordinates are numbers.
func finite(p orb.Point) bool {
	return !math.IsNaN(p[0]+p[1]) && !math.IsInf(p[0], 0) && !math.IsInf(p[1], 0)
}
