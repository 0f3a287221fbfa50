package siting

// meet returns the station at which the bed above s meets the deposit line of a dam of height heightM: over a bed that rises by r the
// deposit rises by ratio·r, so the two meet where (1 − ratio)·r is the height. Where the bed never does it is the upper end of
// the drainage, and runsOut is set.
func (b bed) meet(s, heightM, ratio float64) (meetM float64, runsOut bool) {
	meetM, ok := b.climb(s, heightM/(1-ratio))
	return meetM, !ok
}
