package hydro

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"sync"

	"siltstep/hydro/storm"
)

// The times of concentration that a peakLaw knows: from the floor on, lawSteps to a tenfold time, to a hundred hours.
// Source: our own choice; neighbours are 4.7 % apart, which leaves some thousandths in a peak.
const (
	lawSteps = 50
	lawTens  = 3
)

// lawAreasM2 are the catchments that stand for those up to so large: methods change their range there.
var lawAreasM2 = [3]float64{storm.RationalBestM2, storm.RationalMostM2, storm.MostCatchmentM2}

// peakLaw gives the peak of one storm for many places. At one time of concentration every method goes with the area of
// the catchment, so few storms are reckoned; between two times the logarithm of a peak runs straight in that of the time. It
// is safe for several goroutines, and the same whoever asks first.
type peakLaw struct {
	ask  storm.Request
	node [len(lawAreasM2)][lawTens*lawSteps + 1]lawNode
}

// lawNode is the storm at one area and time.
type lawNode struct {
	once sync.Once
	storm.Result
	err error
}

// at returns the storm at a time of the table.
func (l *peakLaw) at(area, step int) *lawNode {
	n := &l.node[area][step]
	n.once.Do(func() {
		q := l.ask
		q.CatchmentM2 = lawAreasM2[area]
		q.TimeOfConcentrationS = storm.LeastConcentrationS * math.Pow(10, float64(step)/lawSteps)
		n.Result, n.err = storm.Peaks(q)
		n.Storm, n.Hydrograph = storm.Hyetograph{}, storm.Hydrograph{} // of no use here, and large
	})
	return n
}

// place returns where a catchment and a travel time lie in the table: between a step and the next. ok is false for a time that
// is not known or beyond it.
func place(catchmentM2, travelS float64) (area, step int, share float64, ok bool) {
	for area < len(lawAreasM2)-1 && catchmentM2 > lawAreasM2[area] {
		area++
	}
	at := lawSteps * math.Log10(max(travelS, storm.LeastConcentrationS)/storm.LeastConcentrationS)
	if !(at < lawTens*lawSteps) {
		return area, 0, 0, false
	}
	return area, int(at), at - math.Floor(at), true
}

// between returns a peak between two.
func between(low, high, share float64) float64 {
	switch {
	case share == 0:
		return low
	case low > 0 && high > 0:
		return math.Exp(math.Log(low)*(1-share) + math.Log(high)*share)
	}
	return low*(1-share) + high*share
}

// peakM3s returns the peak alone.
func (l *peakLaw) peakM3s(catchmentM2, travelS float64) float64 {
	area, step, share, ok := place(catchmentM2, travelS)
	if !ok {
		return math.NaN()
	}
	a := l.at(area, step)
	b := a
	if share > 0 {
		b = l.at(area, step+1)
	}
	if a.err != nil || b.err != nil {
		return math.NaN()
	}
	peak, named := math.NaN(), l.ask.Method
	for i := range a.Methods {
		m, other := &a.Methods[i], &b.Methods[i]
		if m.Method != named && (named != "" || !m.Valid || !other.Valid) {
			continue
		}
		if v := between(m.PeakM3s, other.PeakM3s, share) * (catchmentM2 / lawAreasM2[area]); !(v <= peak) {
			peak = v
		}
	}
	return peak
}

// peak returns the storm at a catchment, without the notes on its flow path.
func (l *peakLaw) peak(catchmentM2, travelS float64) stormPeak {
	area, step, share, ok := place(catchmentM2, travelS)
	if !ok {
		return noPeak(fmt.Sprintf("the time of concentration of %.3g h is beyond what is reckoned with", travelS/3600))
	}
	a := l.at(area, step)
	b := a
	if share > 0 {
		b = l.at(area, step+1)
	}
	for _, n := range []*lawNode{a, b} {
		if n.err != nil {
			return noPeak(strings.ReplaceAll(n.err.Error(), "\n", "; "))
		}
	}
	out := noPeak("")
	out.concentrationS = max(travelS, storm.LeastConcentrationS)
	out.notes = slices.DeleteFunc(slices.Clone(a.Findings), func(n storm.Note) bool { return n.Rule == storm.RuleSpread })
	out.methods = slices.Clone(a.Methods)
	for i := range out.methods {
		m, other := &out.methods[i], b.Methods[i]
		m.PeakM3s = between(m.PeakM3s, other.PeakM3s, share) * (catchmentM2 / lawAreasM2[area])
		if m.Valid && !other.Valid {
			m.Valid, m.Note = false, other.Note
		}
	}
	out.choose(l.ask.Method)
	return out
}

// choose sets the peak to design for, and the spread, from the methods: that of the method named, or the highest of those
// inside their range.
func (s *stormPeak) choose(named storm.Method) {
	for _, m := range s.methods {
		if m.Valid {
			s.lowM3s, s.highM3s = least(s.lowM3s, m.PeakM3s), -least(-s.highM3s, -m.PeakM3s)
		}
		if m.Method == named || named == "" && m.Valid && !(m.PeakM3s <= s.peakM3s) {
			s.peakM3s, s.method = m.PeakM3s, m.Method
		}
	}
	if !math.IsNaN(s.peakM3s) {
		return
	}
	var parts []string
	for _, m := range s.methods {
		parts = append(parts, fmt.Sprintf("%s: %s", m.Method, m.Note))
	}
	s.why = "no method gives a valid peak. " + strings.Join(parts, " ")
}

// least returns the lesser of two values, or the one that is known.
func least(a, b float64) float64 {
	if math.IsNaN(a) || b < a {
		return b
	}
	return a
}
