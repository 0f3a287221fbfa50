package settings

import "siltstep/hydro/erosion"

// limits is the key of the values of one part of the severity that give 0 and 100 points.
func limits(name, preset, what string, m measure, most float64, scale func(*Settings) *erosion.Scale) Key {
	return key(name, preset, what+": what gives 0 points, and what gives 100; straight between", judgement,
		span{measure: m, most: most, at: func(c *Settings) (low, high *float64) {
			s := scale(c)
			return &s.Zero, &s.Full
		}})
}

// weight is the key of how much one part of the severity counts.
func weight(name, preset, what string, scale func(*Settings) *erosion.Scale) Key {
	return key(name, preset, "how much "+what+" counts in the severity beside the other weights; 0 leaves it out", judgement,
		weighing{quantity{measure: number, most: noMost, at: func(c *Settings) *float64 { return &scale(c).Weight }}})
}

// weighing is a weight of the severity.
type weighing struct{ quantity }

// check tells at the last weight that all are zero, which takes a file that gives all.
func (w weighing) check(c Settings) string {
	e := &c.Erosion
	isLast := w.at(&c) == &e.IncisedLength.Weight
	if isLast && e.Incision.Weight == 0 && e.Headcuts.Weight == 0 && e.Shear.Weight == 0 && e.BankSlope.Weight == 0 && e.IncisedLength.Weight == 0 {
		return "all weights of the severity are 0; at least one is above"
	}
	return w.quantity.check(c)
}
