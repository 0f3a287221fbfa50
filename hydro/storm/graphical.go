package storm

import (
	"errors"
	"fmt"
	"math"
)

// unitPeakRow holds log10 qu = c0 + c1 log10 Tc + c2 (log10 Tc)², qu in ft³/s per square mile per
// inch, Tc in hours, for one Ia/P.
type unitPeakRow struct{ iaOverP, c0, c1, c2 float64 }

// unitPeaks are by storm type. Source: SCS1986, appendix F, seen in copies; c2 of type III and c2 of
// the last row of type II are from memory.
var unitPeaks = map[Pattern][]unitPeakRow{
	PatternI: {
		{.10, 2.30550, -.51429, -.11750}, {.20, 2.23537, -.50387, -.08929}, {.25, 2.18219, -.48488, -.06589}, {.30, 2.10624, -.45695, -.02835},
		{.35, 2.00303, -.40769, .01983}, {.40, 1.87733, -.32274, .05754}, {.45, 1.76312, -.15644, .00453}, {.50, 1.67889, -.06930, 0},
	},
	PatternIA: {
		{.10, 2.03250, -.31583, -.13748}, {.20, 1.91978, -.28215, -.07020}, {.25, 1.83842, -.25543, -.02597}, {.30, 1.72657, -.19826, .02633},
		{.50, 1.63417, -.09100, 0},
	},
	PatternII: {
		{.10, 2.55323, -.61512, -.16403}, {.30, 2.46532, -.62257, -.11657}, {.35, 2.41896, -.61594, -.08820}, {.40, 2.36409, -.59857, -.05621},
		{.45, 2.29238, -.57005, -.02281}, {.50, 2.20282, -.51599, -.01259},
	},
	PatternIII: {
		{.10, 2.47317, -.51848, -.17083}, {.30, 2.39628, -.51202, -.13245}, {.35, 2.35477, -.49735, -.11985}, {.40, 2.30726, -.46541, -.11094},
		{.45, 2.24876, -.41314, -.11508}, {.50, 2.17772, -.36803, -.09525},
	},
}

// at returns qu in ft³/s per square mile per inch.
func (r unitPeakRow) at(hours float64) float64 {
	x := math.Log10(hours)
	return math.Pow(10, r.c0+r.c1*x+r.c2*x*x)
}

// UnitPeak returns the peak in m³/s from 1 km² and 1 mm of runoff of a 24-hour storm type, by time of
// concentration in s and Ia/P. Between rows the peak, not its coefficients, is interpolated. Times below
// 0.1 h and ratios outside 0.1 to 0.5 count as the limit, with a note; over 10 h is an error.
// Source: SCS1986, chapter 4 and appendix F, in copies.
func UnitPeak(storm Pattern, concentrationS, iaOverP float64) (float64, []Note, error) {
	rows, ok := unitPeaks[storm]
	if !ok {
		return math.NaN(), nil, fmt.Errorf("the graphical method needs a 24-hour storm type, one of %v; %q is none", patterns[3:], storm)
	}
	if err := errors.Join(above("time of concentration", concentrationS, "s"), within("Ia/P", iaOverP, 0, math.MaxFloat64, "")); err != nil {
		return math.NaN(), nil, err
	}
	if concentrationS > MostConcentrationS {
		return math.NaN(), nil, fmt.Errorf("time of concentration %.3g h; the graphical method ends at 10 h", concentrationS/hourS)
	}
	var notes []Note
	if concentrationS < LeastConcentrationS {
		notes = append(notes, floorNote(concentrationS))
	}
	first, last := rows[0], rows[len(rows)-1]
	if iaOverP < first.iaOverP || iaOverP > last.iaOverP {
		notes = append(notes, Note{Rule: RuleMethod, Got: iaOverP, Limit: min(max(iaOverP, first.iaOverP), last.iaOverP), Source: "SCS1986",
			Text: fmt.Sprintf("Ia/P is %.3g and counts as %g, the nearest the graphical method has.", iaOverP, min(max(iaOverP, first.iaOverP), last.iaOverP))})
	}
	ratio := min(max(iaOverP, first.iaOverP), last.iaOverP)
	hours := max(concentrationS, LeastConcentrationS) / hourS
	i := 1
	for i < len(rows)-1 && ratio > rows[i].iaOverP {
		i++
	}
	a, b := rows[i-1], rows[i]
	share := (ratio - a.iaOverP) / (b.iaOverP - a.iaOverP)
	return (a.at(hours)*(1-share) + b.at(hours)*share) * csmPerInch, notes, nil
}

func floorNote(gotS float64) Note {
	return Note{Rule: RuleConcentration, Got: gotS, Limit: LeastConcentrationS, Source: "SCS1986",
		Text: fmt.Sprintf("Time of concentration %.2g min counts as %g min, the least that methods and rain tables are made for.", gotS/minuteS, LeastConcentrationS/minuteS)}
}

// pondFactors are by share of ponds and swamps. Source: SCS1986, table 4-2: 0.72 in a copy, the rest
// from memory (0.87 agrees with a published example).
var pondFactors = [][2]float64{{0, 1}, {.002, .97}, {.01, .87}, {.03, .75}, {.05, .72}}

// PondFactor returns what the graphical peak is multiplied by for the share of the catchment in ponds
// and swamps that are spread through it, 0 to 0.05, interpolated. A larger share is an error: such
// storage has to be routed.
func PondFactor(share float64) (float64, error) {
	if err := within("share of ponds and swamps", share, 0, 0.05, "of the catchment"); err != nil {
		return math.NaN(), err
	}
	i := 1
	for i < len(pondFactors)-1 && share > pondFactors[i][0] {
		i++
	}
	a, b := pondFactors[i-1], pondFactors[i]
	return a[1] + (b[1]-a[1])*(share-a[0])/(b[0]-a[0]), nil
}
