package erosion

import (
	"cmp"
	"math"
	"slices"

	"siltstep/hydro/channel"
)

// evidence is what was measured of a drainage, and how far that may be off.
type evidence struct {
	values values
	// scatter is the standard deviation of each value, in its unit. That of the incision is shared by
	// the bank slope and the incised length, since all three rest on the same depths.
	scatter values
}

// How far measurements may be off. Source: our own choice.
const (
	independentM = 10.0 // m of channel between depths that err by themselves: every second cross-section
	sharedError  = 0.5  // of a cell's own error: what all depths of a drainage are off together, since bank tops are picked among the high cells and grass hides the bed
)

// headcutLengthM is the length that headcuts are counted over; in shorter drainages they count as if spread over it, so that one step in
// a side gully of 30 m does not make it the worst of a ranch. Source: our own choice, of the severity's own unit.
const headcutLengthM = 100

// evidenceOf gathers the parts of one drainage.
//
// Errors are first-order. A depth is the difference of two heights, so it scatters by √2·s, with s a
// cell's own error; the mean of n of them by √(2s²/n + b²), where b is the error they share. The sum
// of k headcuts scatters by √(2k)·s. A bank slope is off by the same share as the depth of the bank.
// The incised length is off by what the share changes when all depths shift by the scatter of their mean.
func evidenceOf(p channel.Profile, j *Judgement, noiseM float64, cfg Config) evidence {
	e := evidence{values: values{
		partIncision:      j.Depths.MeanM,
		partHeadcuts:      math.NaN(),
		partShear:         j.Power.ShearRatio,
		partBankSlope:     math.NaN(),
		partIncisedLength: j.Depths.IncisedShare,
	}}
	lengths := lengthsM(p.Stations)
	knownM := sumOf(lengths, func(i int) bool { return known(j.Depths.IncisionM, i) })
	if knownM == 0 {
		e.values[partIncision], e.values[partIncisedLength] = math.NaN(), math.NaN()
	}
	bedM := sumOf(lengths, func(i int) bool { return !p.Stations[i].NoBed })
	count, heightM := ownHeadcuts(j.Headcuts)
	if bedM > 0 {
		perM := 1 / max(bedM, headcutLengthM)
		e.values[partHeadcuts] = headcutLengthM * heightM * perM
		e.scatter[partHeadcuts] = headcutLengthM * math.Sqrt(2*float64(count)) * noiseM * perM
	}
	e.values[partBankSlope] = incisedBankSlope(lengths, &j.Depths, knownM, cfg)

	n := max(1, knownM/independentM)
	depthM := noiseM * math.Sqrt(2/n+sharedError*sharedError)
	e.scatter[partIncision] = depthM
	if meanM := j.Depths.MeanM; meanM > 0 {
		share := min(1, depthM/meanM)
		e.scatter[partBankSlope] = share * e.values[partBankSlope]
		e.scatter[partShear] = share * e.values[partShear]
	}
	if knownM > 0 {
		deeper := incisedM(lengths, j.Depths.IncisionM, cfg.IncisedM-depthM)
		shallower := incisedM(lengths, j.Depths.IncisionM, cfg.IncisedM+depthM)
		e.scatter[partIncisedLength] = (deeper - shallower) / (2 * knownM)
	}
	return e
}

// ownHeadcuts returns number and total height in metres of the headcuts that no road or pond explains.
func ownHeadcuts(all []Headcut) (count int, heightM float64) {
	for _, h := range all {
		if h.Cause == CauseHeadcut {
			count++
			heightM += h.HeightM
		}
	}
	return count, heightM
}

// incisedBankSlope returns the middle slope of the banks along the incised length, by length, rise over run: single sections err widely
// where a bank is a cell or two wide. 0 where hardly anything is incised, so that no bank stands; NaN where the incision or,
// along most of the incised length, the slope is not known.
func incisedBankSlope(lengths []float64, d *Depths, knownM float64, cfg Config) float64 {
	if knownM == 0 {
		return math.NaN()
	}
	cutM := incisedM(lengths, d.IncisionM, cfg.IncisedM)
	if cutM < minBankM {
		return 0
	}
	var at []int // stations that have a bank
	bankM := 0.0
	for i, lengthM := range lengths {
		if known(d.IncisionM, i) && d.IncisionM[i] >= cfg.IncisedM && known(d.BankSlope, i) {
			at = append(at, i)
			bankM += lengthM
		}
	}
	if bankM < max(minBankM, minBankShare*cutM) {
		return math.NaN()
	}
	slices.SortFunc(at, func(a, b int) int { return cmp.Or(cmp.Compare(d.BankSlope[a], d.BankSlope[b]), cmp.Compare(a, b)) })
	below := 0.0
	for _, i := range at {
		if below += lengths[i]; below >= bankM/2 {
			return d.BankSlope[i]
		}
	}
	return d.BankSlope[at[len(at)-1]]
}

// incisedM returns the length in metres that is cut by limitM or more.
func incisedM(lengths, incisionM []float64, limitM float64) float64 {
	return sumOf(lengths, func(i int) bool { return known(incisionM, i) && incisionM[i] >= limitM })
}

// known reports whether there is a value for station i.
func known(list []float64, i int) bool { return i < len(list) && !math.IsNaN(list[i]) }

// sumOf adds up the lengths for which is holds.
func sumOf(lengths []float64, is func(i int) bool) float64 {
	sum := 0.0
	for i, lengthM := range lengths {
		if is(i) {
			sum += lengthM
		}
	}
	return sum
}
