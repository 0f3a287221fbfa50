package siting

import "math"

// siltStepM is how far apart the places are at which silt is asked for, m; between them it is taken to grow straight.
// Source: our own choice.
const siltStepM = 1.0

// siltOf returns what each option holds up to a station, litres, from tables made at the first question; nil where the
// ground does not tell.
func (l *layer) siltOf(options []option) func(o *option, toM float64) int64 {
	if l.ground.SiltM3 == nil {
		return nil
	}
	type place struct{ axisM, heightM float64 }
	tables := make(map[place][]float64, len(options))
	return func(o *option, toM float64) int64 {
		if !(toM > o.axisM) {
			return 0
		}
		key := place{o.axisM, o.heightM}
		table, ok := tables[key]
		if !ok {
			steps := int(math.Ceil((o.endM - o.axisM) / siltStepM))
			table = make([]float64, steps+1)
			for i := range table {
				table[i] = l.ground.SiltM3(o.axisM, o.sillM(), min(o.axisM+float64(i)*siltStepM, o.endM))
			}
			tables[key] = table
		}
		at := min(toM-o.axisM, o.endM-o.axisM) / siltStepM
		i := min(int(at), len(table)-1)
		m3 := table[i]
		if i+1 < len(table) {
			m3 += (at - float64(i)) * (table[i+1] - m3)
		}
		if math.IsNaN(m3) {
			return 0
		}
		return int64(math.Round(1000 * m3))
	}
}
