package erosion

import (
	"cmp"
	"math"
	"slices"

	"siltstep/hydro/channel"
)

// What must be seen of a drainage before it is judged. Source: our own choice.
const (
	MinKnownShare = 0.1  // of its length with known incision; under it there is no severity
	minBankM      = 10.0 // m of incised channel; shorter, no bank is there to speak of. As long as the window of the bed slope
	minBankShare  = 0.5  // of the incised length with known bank slope; under it the bank slope is not known
)

// Parts of a severity, by their place in Severity.Parts.
const (
	partIncision = iota
	partHeadcuts
	partShear
	partBankSlope
	partIncisedLength
	partCount
)

// namedScale is a scale with what it is called and the unit of its values.
type namedScale struct {
	name, unit string
	scale      Scale
}

// scales returns the parts in the order of Severity.Parts.
func (c Config) scales() [partCount]namedScale {
	return [partCount]namedScale{
		partIncision:      {"incision", "m", c.Incision},
		partHeadcuts:      {"headcuts", "m/100 m", c.Headcuts},
		partShear:         {"shear", "1", c.Shear},
		partBankSlope:     {"bank-slope", "1", c.BankSlope},
		partIncisedLength: {"incised-length", "1", c.IncisedLength},
	}
}

// Rank gives every drainage of a network its severity, its rank and how steady that is. judged has one
// for each drainage, in order, all but Severity filled in. noiseM is the standard deviation of a
// cell's own error in metres, known, and only moves Steady.
//
// The severity is the mean of the scores of the parts that are known, weighted as set: unknown parts
// drop out and the rest is rescaled. The worst drainage has rank 1; of equal ones that with the larger
// catchment, whose id is lower, comes first. A drainage whose incision is known along less than
// MinKnownShare of its length, or none of whose parts that count is known, keeps its parts but has no
// severity, class or rank.
//
// The class is that of the severity, but a drainage is never called sound that is worn in one piece: cut by cfg.IncisedM or more for WornM
// at least, and there WornDepthM deep in the mean or with a headcut. Such a one is watch, and Severity.WornM tells
// the length; its severity and rank stay. Cost: linear in the stations, then n log n for each of some hundred draws
// over n drainages. It panics where judged and the network differ in length.
func Rank(n *channel.Network, judged []Judgement, noiseM float64, cfg Config) {
	if len(judged) != len(n.Drainages) {
		panic("erosion: one judgement is needed for each drainage")
	}
	evidence := make([]evidence, len(judged))
	var order []int // of those with a severity
	for i := range judged {
		j := &judged[i]
		evidence[i] = evidenceOf(n.Drainages[i].Profile, j, noiseM, cfg)
		j.Severity = severityOf(evidence[i].values, cfg)
		j.Severity.Steady = math.NaN()
		if !(j.Depths.KnownShare >= MinKnownShare) {
			j.Severity.Total = math.NaN()
		}
		j.Severity.Class = ClassOf(j.Severity.Total)
		if j.Severity.Class == Sound {
			if j.Severity.WornM = wornM(n.Drainages[i].Profile.Stations, j, cfg); j.Severity.WornM > 0 {
				j.Severity.Class = Watch
			}
		}
		if j.Severity.Class != "" {
			order = append(order, i)
		}
	}
	setSteady(judged, evidence, order, cfg)
	slices.SortStableFunc(order, func(a, b int) int {
		return cmp.Compare(judged[b].Severity.Total, judged[a].Severity.Total)
	})
	for rank, i := range order {
		judged[i].Severity.Rank = rank + 1
	}
}

// values are what was measured for each part; NaN where it was not.
type values [partCount]float64

// severityOf scores the parts and sums them up, without class and rank.
func severityOf(v values, cfg Config) Severity {
	s := Severity{Parts: make([]Part, partCount)}
	var weights [partCount]float64
	for k, p := range cfg.scales() {
		s.Parts[k] = Part{Name: p.name, Value: v[k], Unit: p.unit, Score: p.scale.points(v[k]), Weight: p.scale.Weight}
		weights[k] = p.scale.Weight
	}
	s.Total = total(v, weights, cfg.scales())
	return s
}

// total returns the weighted mean score of the known parts; NaN where none of them counts.
func total(v values, weights [partCount]float64, scales [partCount]namedScale) float64 {
	var sum, weight float64
	for k, value := range v {
		if !math.IsNaN(value) {
			sum += weights[k] * scales[k].scale.points(value)
			weight += weights[k]
		}
	}
	if weight == 0 {
		return math.NaN()
	}
	return min(100, sum/weight)
}
