package siting

import "math"

// run is a piece of a drainage with one verdict: a maximal piece whose stations have the same faults of the land, or
// none that a dam cannot do with.
type run struct {
	first, last int     // stations, both included
	fromM, toM  float64 // midway to the stations beyond, or the ends of the drainage
	faults      faults  // that hold somewhere in it; 0 where it is eligible
}

// minReachM is the least length of an eligible reach in metres: the length over which bed
// slope is measured, 10 m or 5 cells.
func minReachM(cellM float64) float64 { return max(10, 5*cellM) }

// runs splits a drainage into runs from the lower end upstream. A run without a fault of the land is eligible where a
// dam may stand somewhere in it and it is no shorter than minReachM.
func (j *judge) runs() []run {
	barred := j.barred()
	var out []run
	for i := range j.land {
		// What keeps dams off a long stretch counts together, so that it is one reach.
		one := j.land[i]
		if barred[i] {
			one = tooShort
		}
		if n := len(out); n > 0 && out[n-1].faults == one {
			out[n-1].last = i
			continue
		}
		out = append(out, run{first: i, last: i, faults: one})
	}
	for k := range out {
		j.settle(&out[k])
	}
	return out
}

// barred marks the stretches on which the faults of places keep dams off for so long that they break a reach: minReachM
// from their first station to their last. So a confluence alone, 5 m to either side, never does.
func (j *judge) barred() []bool {
	out := make([]bool, len(j.place))
	for from := 0; from < len(j.place); {
		to := from
		for to < len(j.place) && j.place[to] != 0 {
			to++
		}
		if to > from && j.bed.stations[to-1].StationM-j.bed.stations[from].StationM >= minReachM(j.cellM)-levelM {
			for i := from; i < to; i++ {
				out[i] = true
			}
		}
		from = to + 1
	}
	return out
}

// settle finds the ends of a run and, where its land has no fault, whether it is eligible.
func (j *judge) settle(r *run) {
	r.fromM, r.toM = j.d.Profile.MidwayM(r.first-1), j.d.Profile.MidwayM(r.last)
	if j.land[r.first] != 0 {
		return
	}
	r.faults = 0
	stands := false
	for _, f := range j.place[r.first : r.last+1] {
		r.faults |= f
		stands = stands || f == 0
	}
	if !stands {
		return
	}
	r.faults = 0
	if r.toM-r.fromM < minReachM(j.cellM) {
		r.faults = tooShort
	}
}

// reach turns a run into a reach with all its reasons.
func (j *judge) reach(r run) Reach {
	return Reach{Drainage: j.d.ID, FromM: r.fromM, ToM: r.toM, Eligible: r.faults == 0, Reasons: j.reasons(r)}
}

// reasons words the faults of a run, each with its worst value.
func (j *judge) reasons(r run) (out []Reason) {
	for bit := tooFlat; bit <= tooShort; bit <<= 1 {
		switch {
		case r.faults&bit == 0:
		case bit == noSection:
			out = append(out, j.sectionReason(r))
		case bit == lowBanks:
			out = append(out, j.bankReasons(r)...)
		case bit < noSection:
			out = append(out, j.landReason(bit, r))
		case bit == tooShort:
			out = append(out, j.shortReason(r))
		default:
			out = append(out, j.placeReason(bit, r))
		}
	}
	return out
}

// worst folds one value of the stations of a run; those that are not a number are passed over.
func (r run) worst(pick func(a, b float64) float64, value func(station int) float64) float64 {
	w := math.NaN()
	for i := r.first; i <= r.last; i++ {
		if v := value(i); math.IsNaN(w) {
			w = v
		} else if !math.IsNaN(v) {
			w = pick(w, v)
		}
	}
	return w
}
