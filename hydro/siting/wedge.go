package siting

import "math"

// wedge is the sediment that a dam will hold: it ends where the bed meets the deposit line.
type wedge struct {
	heightM float64 // effective height of the dam, m
	meetM   float64 // station at which the bed meets the deposit line; the upper end of the drainage where it does not
	endM    float64 // station of the upper end: meetM, or where a stretch that no wedge enters begins
	meets   bool    // the bed meets the deposit line; false where the drainage ends first
	lowered bool    // the dam is lower than asked for, so that the wedge ends inside the property
	cutOff  Rule    // why the wedge is cut off before it meets: RuleWater, RuleCut, RuleStockPond; empty where it is not
	waterM  float64 // depth of the standing water that cuts it off, m; zero where none does
}

// wedgeAt returns the wedge behind a dam of height heightM at s. Over a bed that rises by r the
// deposit rises by ratio·r, so the two meet where (1 − ratio)·r is the height. It is cut off at
// the upper end of the drainage.
func wedgeAt(b bed, s, heightM, ratio float64) wedge {
	end, meets := b.climb(s, heightM/(1-ratio))
	return wedge{heightM: heightM, meetM: end, endM: end, meets: meets}
}

// cutAt ends the wedge where standing water, a cut or a stock pond begins above s: that is no
// ground to be treated.
func (w wedge) cutAt(s float64, barred []bar) wedge {
	if b, ok := firstAbove(barred, s); ok && b.fromM < w.endM {
		w.endM, w.cutOff, w.waterM = b.fromM, b.rule, b.depthM
	}
	return w
}

// wedgeInside returns the wedge behind a dam at s, the dam lowered in whole centimetres to no
// less than cfg.MinHeightM where the wedge would otherwise leave inside; ok is false where that
// is not enough.
func wedgeInside(b bed, s float64, cfg Config, inside Area) (w wedge, ok bool) {
	w = wedgeAt(b, s, cfg.HeightM, cfg.DepositRatio)
	if inside == nil {
		return w, true
	}
	limit, whole := insideUpTo(b, s, w.meetM, inside)
	if whole {
		return w, true
	}
	riseM := b.elevationM(limit) - b.elevationM(s)
	heightM := math.Floor(100*(1-cfg.DepositRatio)*riseM) / 100
	if !(heightM > 0) || heightM < cfg.MinHeightM || heightM >= cfg.HeightM {
		return w, false
	}
	w = wedgeAt(b, s, heightM, cfg.DepositRatio)
	w.meetM = min(w.meetM, limit)
	w.endM, w.lowered = w.meetM, true
	return w, true
}

// treatedM returns the treated channel length in metres: the length that the stretches from
// each dam to the end of its wedge cover together, what two share counted once and gaps left
// out. Stands rise upstream.
func treatedM(stands []stand) float64 {
	total, covered := 0.0, math.Inf(-1)
	for _, d := range stands {
		from := max(d.axisM, covered)
		if d.wedge.endM > from {
			total += d.wedge.endM - from
		}
		covered = max(covered, d.wedge.endM)
	}
	return total
}
