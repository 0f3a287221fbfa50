package siting

// step says how a place was moved off a step of the bed, a headcut say; zero where it was not.
type step struct {
	grade float64 // grade of the bed where the dam would have stood, rise over run
	foot  float64 // how far downstream it was moved, to the foot of the step, m
	below float64 // height of the step left below it where it was moved above the lip, m
}

// clearOfStep returns where a dam meant for place is to stand. Where the bed under its body is
// steeper than cfg.SlopeMax, or the lip of a step lies too near below, it moves down to the foot
// of the step, no lower than the march allows; where a dam stands there already, up to the first
// place clear of the lip. ok is false where the reach holds no such place.
func (m *march) clearOfStep(place float64) (axis float64, st step, ok bool) {
	st.grade = m.bed.grade(place, m.cfg.bodyM())
	if m.clear(place) {
		return place, step{}, true
	}
	for k := 1; ; k++ {
		axis = place - float64(k)*lineStepM
		if axis < m.floorM {
			break
		}
		if m.clear(axis) {
			st.foot = place - axis
			return axis, st, true
		}
	}
	for k := 1; ; k++ {
		axis = place + float64(k)*lineStepM
		if axis >= m.topM {
			return place, step{}, false
		}
		if m.clear(axis) {
			foot := place
			for foot > 0 && m.tooSteep(foot) {
				foot -= lineStepM
			}
			near, _ := m.nearLip(place)
			st.below = max(near.dropM, m.bed.elevationM(axis)-m.bed.elevationM(max(foot, 0)))
			return axis, st, true
		}
	}
}

// clear reports whether a dam may stand at s as far as steps go.
func (m *march) clear(s float64) bool {
	if m.tooSteep(s) {
		return false
	}
	_, near := m.nearLip(s)
	return !near
}

// tooSteep allows a part in 10⁹ for rounding: a bed at the limit is eligible.
func (m *march) tooSteep(s float64) bool {
	return m.bed.grade(s, m.cfg.bodyM()) > m.cfg.SlopeMax*(1+1e-9)+1e-12
}
