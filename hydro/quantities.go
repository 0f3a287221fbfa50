package hydro

import (
	"math"
	"strconv"
)

// Quantities are what dams take and give. Where some of a value is not known, the value is that of the dams of which it is;
// NaN where there are dams and it is known of none. The zero value is that of no dams.
//
// Those of one dam are rounded to the hundredth, and so is each sum, so that dams add up to series, series to drainages and drainages to
// the plan exactly as shown, in whatever order.
type Quantities struct {
	Dams           int
	Undesigned     int     // of them, dams without a design: nothing of them is in the sums
	RockM3         float64 // in place, m³
	RockT          float64 // to order, waste included, t
	PondM3         float64 // water up to the sills, m³
	SedimentM3     float64 // silt when full, m³
	SedimentLowM3  float64 // what it may be at the least, m³
	SedimentHighM3 float64 // and at the most, m³
	PersonDays     float64
	Cost           float64 // in Works.Prices.Currency
}

// QuantitiesOf sums up what dams take and give; without any, all is 0.
func QuantitiesOf(designs []Design) Quantities {
	var q Quantities
	for i := range designs {
		q.Add(quantitiesOf(&designs[i]))
	}
	return q
}

// quantitiesOf returns what one dam takes and gives, rounded.
func quantitiesOf(d *Design) Quantities {
	nan := math.NaN()
	q := Quantities{Dams: 1, RockM3: nan, RockT: nan, PondM3: nan, SedimentM3: nan, SedimentLowM3: nan, SedimentHighM3: nan,
		PersonDays: d.PersonDays, Cost: d.Cost}
	if d.Dam == nil {
		q.Undesigned = 1
		return q.Rounded()
	}
	q.RockM3, q.RockT = d.Dam.Rock.TotalM3, d.Dam.Rock.OrderTonnes
	q.PondM3, q.SedimentM3 = d.Dam.Storage.PondM3, d.Dam.Storage.SedimentM3
	q.SedimentLowM3, q.SedimentHighM3 = max(0, d.Measured.SedimentLowM3-d.Measured.BodyM3), max(0, d.Measured.SedimentHighM3-d.Measured.BodyM3)
	if d.Measured.Why != "" { // no spread is known: the sums are told for what was measured
		q.SedimentLowM3, q.SedimentHighM3 = q.SedimentM3, q.SedimentM3
	}
	return q.Rounded()
}

// fields lists the values of q, to be changed in place.
func (q *Quantities) fields() []*float64 {
	return []*float64{&q.RockM3, &q.RockT, &q.PondM3, &q.SedimentM3, &q.SedimentLowM3, &q.SedimentHighM3, &q.PersonDays, &q.Cost}
}

// Rounded returns q with each value at the hundredth; NaN stays.
func (q Quantities) Rounded() Quantities {
	for _, x := range q.fields() {
		*x = hundredth(*x)
	}
	return q
}

// Add adds what other dams take and give, and rounds. A value known of one side alone is that side's; NaN where both sides have dams
// and it is known of neither.
func (q *Quantities) Add(o Quantities) {
	from := o.fields()
	for i, x := range q.fields() {
		switch y := *from[i]; {
		case o.Dams == 0:
		case q.Dams == 0, math.IsNaN(*x):
			*x = hundredth(y)
		case !math.IsNaN(y):
			*x = hundredth(*x + y)
		}
	}
	q.Dams, q.Undesigned = q.Dams+o.Dams, q.Undesigned+o.Undesigned
}

// hundredth returns the number that x is shown as with two decimals, the nearest, and of two as near the even one; NaN and infinities stay.
// That is how files write it, so that what was rounded is shown unchanged.
func hundredth(x float64) float64 {
	rounded, err := strconv.ParseFloat(strconv.FormatFloat(x, 'f', 2, 64), 64)
	if err != nil {
		panic("hydro: " + err.Error()) // what was formatted can be read
	}
	return rounded + 0 // no negative zero
}
