package storm

import (
	"errors"
	"fmt"
	"math"
)

// Curve is rain intensity by duration for one return period: i = A/(t + B)^C, i in mm/h, t in
// minutes.
type Curve struct {
	A           float64 // mm/h times minutes to the power C; over 0
	B           float64 // minutes; 0 and up
	C           float64 // power; over 0
	ShortestMin float64 // shortest duration it was fitted to, minutes; 0: none known
	LongestMin  float64 // longest duration it was fitted to, minutes; over 0: the curve says nothing beyond it
}

// Validate returns every fault of the curve, joined. With C over 1 the depth would fall with
// duration beyond B/(C-1), so the curve must end before that.
func (c Curve) Validate() error {
	faults := []error{
		above("rain curve: a", c.A, ""),
		within("rain curve: b", c.B, 0, math.MaxFloat64, "min"),
		above("rain curve: c", c.C, ""),
		within("rain curve: shortest duration", c.ShortestMin, 0, math.MaxFloat64, "min"),
		above("rain curve: longest duration", c.LongestMin, "min"),
	}
	if c.ShortestMin >= c.LongestMin {
		faults = append(faults, fmt.Errorf("rain curve: the shortest duration, %g min, is not below the longest, %g min", c.ShortestMin, c.LongestMin))
	}
	if top := c.B / (c.C - 1); c.C > 1 && c.LongestMin > top*(1+1e-9) {
		faults = append(faults, fmt.Errorf("rain curve: beyond %.4g min its depth would fall; set the longest duration to that or less", top))
	}
	return errors.Join(faults...)
}

// IntensityMMH returns the mean intensity over so many minutes in mm/h. Down to half the
// shortest duration the curve is carried on, with a note; any other value outside it is an error.
func (c Curve) IntensityMMH(minutes float64) (float64, []Note, error) {
	if err := errors.Join(c.Validate(), above("duration", minutes, "min")); err != nil {
		return math.NaN(), nil, err
	}
	switch {
	case minutes > c.LongestMin*(1+1e-9):
		return math.NaN(), nil, fmt.Errorf("rain of %.4g min is asked for and the curve ends at %g min; use a curve or table for longer rain, or a shorter storm", minutes, c.LongestMin)
	case minutes < c.ShortestMin/ExtrapolationFactor*(1-1e-9):
		return math.NaN(), nil, fmt.Errorf("rain of %.4g min is asked for and the curve begins at %g min; use one for shorter rain", minutes, c.ShortestMin)
	}
	var notes []Note
	if minutes < c.ShortestMin*(1-1e-9) {
		notes = append(notes, belowShortest(minutes, c.ShortestMin))
	}
	i, err := finite("rain intensity", c.A/math.Pow(minutes+c.B, c.C))
	return i, notes, err
}

// Shape of the curve through the ratios of short rain to one-hour rain: 5 min 0.29, 10 min 0.45, 15
// min 0.57, 30 min 0.79. Source: the ratios are NOAAAtlas2, from memory; the fit, by least squares of
// logarithms, is our own and keeps within 2 % of them.
const (
	hourRatioB = 9.0 // minutes
	hourRatioC = 0.775
)

// HourCurve returns the curve of 5 to 60 minutes that goes with a depth in mm over 5 to 60
// minutes, by the ratios of short rain to one-hour rain of NOAAAtlas2 (western United States,
// from memory), scaled so that it gives back that depth.
func HourCurve(depthMM, minutes float64) (Curve, error) {
	if err := errors.Join(above("rain depth", depthMM, "mm"), within("duration of a nested storm from one depth", minutes, 5, 60, "min")); err != nil {
		return Curve{}, err
	}
	a := depthMM / minutes * 60 * math.Pow(minutes+hourRatioB, hourRatioC)
	return Curve{A: a, B: hourRatioB, C: hourRatioC, ShortestMin: 5, LongestMin: 60}, nil
}
