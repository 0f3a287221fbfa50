package siting

import "math"

// An option is a dam that may stand: a place and a height.
type option struct {
	axisM      float64 // station
	heightM    float64
	bedM       float64 // level of the bed at the axis
	endM       float64 // upper end of what its wedge covers, a station
	meetM      float64 // where the bed meets the deposit line; endM unless the wedge is cut off before
	upM, downM float64 // how far its body reaches upstream and downstream of the axis
	lip        lipNeed
	rockKg     int64
	must       bool // the field asks for it: it stands whatever it costs
	station    int  // of the profile, at or next below the axis
	edit       Action
	id         string // that the field knows it by; empty for none
	cutOff     bar    // what cuts the wedge off; zero where nothing does
	runsOut    bool   // the bed does not meet the deposit line before the upper end of the drainage
}

// sillM returns the level of the notch sill.
func (o option) sillM() float64 { return o.bedM + o.heightM }

// lipNeed is the lip of a step just below a dam, which the dam beneath has to drown; levelM is −Inf where there is none.
type lipNeed struct {
	stationM, levelM float64
}

// drownSlackM is how far below a lip a sill may lie and still drown it, m: rounding.
const drownSlackM = 1e-6

// mayFollow tells whether a dam may stand next above another. Bodies do not overlap; the upper sill is higher; where
// the wedge of the lower one reaches the upper one, the upper covers more; and the lip of a step that lies between them too
// near the upper one is drowned. What the field asks for may follow what the field asks for as it likes.
func mayFollow(below, above *option) bool {
	const slackM = 1e-9
	switch {
	case below.must && above.must:
		return above.axisM > below.axisM
	case below.axisM+below.upM+above.downM > above.axisM+slackM,
		below.sillM() >= above.sillM(),
		below.endM >= above.axisM && below.endM >= above.endM:
		return false
	}
	return above.lip.levelM <= below.sillM()+drownSlackM || above.lip.stationM <= below.axisM
}

// free tells whether a dam may stand without one below it.
func (o option) free() bool { return math.IsInf(o.lip.levelM, -1) }
