package checkdam

import (
	"fmt"
	"math"
	"strings"
)

// Measure is what a quantity measures, and so how it is shown.
type Measure uint8

// The measures, with their SI unit.
const (
	OfLength   Measure = iota // m
	OfStone                   // median size of stone, m
	OfLand                    // m²
	OfVolume                  // m³
	OfFlow                    // m³/s
	OfUnitFlow                // flow a metre of width, m²/s
	OfVelocity                // m/s
	OfWeight                  // kg
)

// Quantity is a number in a remark.
type Quantity struct {
	SI       float64
	Of       Measure
	Decimals int // as shown in SI
}

// String returns the quantity in metric units, land in ha.
func (q Quantity) String() string {
	unit, value := "m", q.SI
	switch q.Of {
	case OfLand:
		const m2PerHa = 10_000
		unit, value = "ha", q.SI/m2PerHa
	case OfVolume:
		unit = "m³"
	case OfFlow:
		unit = "m³/s"
	case OfUnitFlow:
		unit = "m²/s"
	case OfVelocity:
		unit = "m/s"
	case OfWeight:
		unit = "kg"
	}
	return fmt.Sprintf("%.*f %s", q.Decimals, value, unit)
}

func metres(m float64) Quantity  { return Quantity{m, OfLength, 2} }
func limitM(m float64) Quantity  { return Quantity{m, OfLength, 1} }
func stoneOf(m float64) Quantity { return Quantity{m, OfStone, 2} }
func land(m2 float64) Quantity   { return Quantity{m2, OfLand, 1} }

// weightOf returns what a round stone weighs.
func weightOf(d50M, stoneGravity float64) Quantity {
	const waterKgPerM3 = 1000
	return Quantity{math.Pi / 6 * math.Pow(d50M, 3) * stoneGravity * waterKgPerM3, OfWeight, 0}
}

// Remark is plain sentences about quantities, which can be said in other units than SI. The zero value says nothing.
type Remark struct {
	words      string // a verb %s for each quantity
	quantities []Quantity
}

func remark(words string, quantities ...Quantity) Remark { return Remark{words, quantities} }

// and returns the remark with more words after it.
func (r Remark) and(words string, quantities ...Quantity) Remark {
	return Remark{r.words + words, append(append([]Quantity(nil), r.quantities...), quantities...)}
}

// Say returns the sentences with each quantity as show words it.
func (r Remark) Say(show func(Quantity) string) string {
	shown := make([]any, len(r.quantities))
	for i, q := range r.quantities {
		shown[i] = show(q)
	}
	return strings.TrimRight(fmt.Sprintf(r.words, shown...), " ")
}

// String returns the sentences in SI.
func (r Remark) String() string { return r.Say(Quantity.String) }
