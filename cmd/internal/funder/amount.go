package funder

import (
	"math"
	"strconv"
	"strings"

	"siltstep/cmd/internal/units"
)

// An amount is one quantity by drainage and in total, in one or two units. In each it has as few decimals as let the printed rows add to the
// printed total.
type amount struct {
	pen    *pen
	name   string
	scales []units.Scale // those of the reader first
	places []int
	adds   bool // the printed rows add to the printed total in every unit
	rows   []value
	total  value
}

// A value is a number of the plan and where it stands there.
type value struct {
	si   float64
	from string
}

// mostPlaces is the most decimals that a sum is printed with beyond the least. Source: plan.json has two of most quantities; one more serves the
// conversion.
const mostPlaces = 3

func newAmount(p *pen, name string, scales []units.Scale, rows []value, total value) *amount {
	a := &amount{pen: p, name: name, scales: scales, rows: rows, total: total, adds: true}
	for _, c := range scales {
		places, adds := placesThatAdd(c, rows, total.si)
		a.places = append(a.places, places)
		a.adds = a.adds && adds
	}
	return a
}

// placesThatAdd returns the fewest decimals with which rounded rows add to the rounded total; the least and false where up to mostPlaces more do not. What is
// not known is no part of the sum.
func placesThatAdd(c units.Scale, rows []value, total float64) (int, bool) {
	least := leastPlaces(c)
	if math.IsNaN(total) || len(rows) == 0 {
		return least, true
	}
	for places := least; places <= least+mostPlaces; places++ {
		if addsWith(places, c, rows, total) {
			return places, true
		}
	}
	return least, false
}

// leastPlaces returns the decimals below which a quantity of such works says nothing: pieces of land are small, and money has cents.
func leastPlaces(c units.Scale) int {
	switch c.Unit {
	case "ac", "ha":
		return 3
	case "m", "ft", "m²", "m³", "yd³", units.Metric.MassScale().Unit, units.US.MassScale().Unit:
		return 0
	}
	return 2
}

// addsWith tells whether rows, rounded each on its own, add to the rounded total.
func addsWith(places int, c units.Scale, rows []value, total float64) bool {
	one := math.Pow10(places)
	var sum float64
	for _, r := range rows {
		if !math.IsNaN(r.si) {
			sum += math.Round(rounded(c.Value(r.si), places) * one)
		}
	}
	return sum == math.Round(rounded(c.Value(total), places)*one)
}

// align gives quantities of one table the same decimals, the fewest with which all of them add.
func align(list ...*amount) {
	for k, c := range list[0].scales {
		for places := leastPlaces(c); places <= leastPlaces(c)+mostPlaces; places++ {
			all := true
			for _, a := range list {
				all = all && (!a.known() || addsWith(places, c, a.rows, a.total.si))
			}
			if !all {
				continue
			}
			for _, a := range list {
				a.places[k] = places
			}
			break
		}
	}
}

// rounded returns a number as it is printed.
func rounded(x float64, places int) float64 {
	back, _ := strconv.ParseFloat(strconv.FormatFloat(x, 'f', places, 64), 64)
	return back
}

// heads returns a heading for each unit.
func (a *amount) heads() (heads []string) {
	for _, c := range a.scales {
		heads = append(heads, a.name+", "+c.Unit)
	}
	return heads
}

// row returns the cells of a drainage.
func (a *amount) row(i int) []string { return a.cells(a.rows[i]) }

// totals returns the cells of the total.
func (a *amount) totals() []string { return a.cells(a.total) }

func (a *amount) cells(v value) (cells []string) {
	for k, c := range a.scales {
		cells = append(cells, a.pen.number(v.from, v.si, c, a.places[k]))
	}
	return cells
}

// text prints a value of this quantity in all of its units, "1,950.5 ft (594.5 m)".
func (a *amount) text(v value) string {
	if math.IsNaN(v.si) {
		return notKnown
	}
	text := a.pen.named(v.from, v.si, a.scales[0], a.places[0])
	if len(a.scales) == 1 {
		return text
	}
	return paired(text, a.pen.named(v.from, v.si, a.scales[1], a.places[1]))
}

// paired joins a quantity in two systems.
func paired(first, second string) string {
	if strings.HasSuffix(first, ")") || strings.HasSuffix(second, ")") {
		return first + " or " + second
	}
	return first + " (" + second + ")"
}

// all prints the total in all of its units.
func (a *amount) all() string { return a.text(a.total) }

// known tells whether the total is known.
func (a *amount) known() bool { return !math.IsNaN(a.total.si) }
