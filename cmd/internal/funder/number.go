package funder

import (
	"math"
	"strconv"
	"strings"

	"siltstep/cmd/internal/units"
)

const notKnown = "not known"

// A note says where a printed number comes from.
type note struct {
	shown    string // as it is printed, without unit
	from     string // places in plan.json, joined by "+" where they are added
	unit     string // empty where it is a number of things
	decimals int
}

// A pen writes numbers and keeps where each comes from. Marked, it puts what comes from the plan between two signs that no text has, so that a
// test sees what is left.
type pen struct {
	marked bool
	notes  []note
}

const markOpen, markShut = "\x01", "\x02"

func (p *pen) fact(text string) string {
	if p.marked {
		return markOpen + text + markShut
	}
	return text
}

// number prints a number of the plan in a unit, which it does not name.
func (p *pen) number(from string, si float64, c units.Scale, decimals int) string {
	if math.IsNaN(si) || math.IsInf(si, 0) {
		return notKnown
	}
	text := grouped(c.Value(si), decimals)
	p.notes = append(p.notes, note{text, from, c.Unit, decimals})
	return p.fact(text)
}

// named prints a number of the plan with its unit.
func (p *pen) named(from string, si float64, c units.Scale, decimals int) string {
	text := p.number(from, si, c, decimals)
	if text == notKnown {
		return text
	}
	return text + " " + c.Unit
}

// count prints a number of things.
func (p *pen) count(from string, n int) string {
	return p.number(from, float64(n), units.Scale{One: 1}, 0)
}

// things prints a number of things with their name, which an s makes many of.
func (p *pen) things(from string, n int, name string) string {
	if n != 1 {
		name += "s"
	}
	return p.count(from, n) + " " + name
}

// grouped writes a number with its thousands parted by commas.
func grouped(x float64, decimals int) string {
	text := strconv.FormatFloat(math.Abs(x), 'f', decimals, 64)
	whole, rest, _ := strings.Cut(text, ".")
	var b strings.Builder
	if back, _ := strconv.ParseFloat(text, 64); x < 0 && back != 0 {
		b.WriteByte('-')
	}
	for i, r := range whole {
		if i > 0 && (len(whole)-i)%3 == 0 {
			b.WriteByte(',')
		}
		b.WriteRune(r)
	}
	if rest != "" {
		b.WriteString("." + rest)
	}
	return b.String()
}

// money writes cents.
func money(cents int64) string { return grouped(float64(cents)/100, 2) }
