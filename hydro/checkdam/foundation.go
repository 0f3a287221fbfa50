package checkdam

import "math"

// Foundation is what holds a dam in the ground and the bed below it.
type Foundation struct {
	KeyBedM      float64 // depth of the key below the bed
	KeyBankM     float64 // how far the key goes into each bank
	KeyM3        float64 // of both
	ApronLengthM float64
	ApronWidthM  float64
	ApronThickM  float64
	ApronM3      float64
}

// Keys and apron. Own choice, within what handbooks print: keys of 0.15 m and more (6 in, read in a copy of IndianaCheckDam)
// and trenches of about 0.6 m by 0.6 m (Heede1976, from memory); logs 0.45 m into the bank (read in a copy of a
// state manual); aprons of 1.2 m and more (4 ft, IndianaCheckDam), 1.5 times the dam's height on beds to 15 % and 1.75 times above
// (Heede1976, from memory).
const (
	keyBedLeastM    = 0.15
	keyBedShare     = 0.25 // of the effective height
	keyBankLeastM   = 0.45
	trenchM         = 0.6 // width of a key trench along the flow
	apronLeastM     = 1.2
	apronShare      = 1.5 // of the effective height
	apronShareSteep = 1.75
	apronSteep      = 0.15 // bed slope, rise over run
	apronThickM     = 0.3
	apronStones     = 2   // thickness in median stones
	apronBesideM    = 0.3 // beyond the notch on each side
)

// foundation returns keys and apron of a dam. d50M is NaN where no stone was sized; opensM is the width of the notch at the wings,
// or of the bed where there is none; topM is the dam's full height above the bed.
func foundation(heightM, topM, slope, d50M, bedWidthM, opensM float64) Foundation {
	stone := d50M
	if math.IsNaN(stone) {
		stone = 0
	}
	share := apronShare
	if slope > apronSteep {
		share = apronShareSteep
	}
	f := Foundation{
		KeyBedM:      max(keyBedLeastM, stone, keyBedShare*heightM),
		KeyBankM:     max(keyBankLeastM, heightM),
		ApronLengthM: max(apronLeastM, share*heightM),
		ApronWidthM:  opensM + 2*apronBesideM,
		ApronThickM:  max(apronThickM, apronStones*stone),
	}
	f.KeyM3 = trenchM * (f.KeyBedM*bedWidthM + 2*f.KeyBankM*topM)
	f.ApronM3 = f.ApronLengthM * f.ApronWidthM * f.ApronThickM
	return f
}
