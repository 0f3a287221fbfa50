package storm

import (
	"errors"
	"fmt"
	"math"
)

// KirpichS returns the time of concentration 0.0195 L^0.77 S^-0.385 (minutes; metres) in s.
// Source: Kirpich1940, as TxDOTHydraulic prints it. It rests on seven farm catchments of 0.5 to
// 45 ha on slopes of 3 to 10 % (from memory). Below a slope of 0.002, 0.0005 is added (Cleveland2012,
// in TxDOTHydraulic); from there to 0.003 the addition fades out, so that times do not jump.
func KirpichS(lengthM, slope float64) (float64, error) {
	err := errors.Join(within("flow length", lengthM, 1, 1e5, "m"), within("flow slope", slope, 0, 1, "rise over run"))
	if slope < 0.003 {
		slope += 0.0005 * min(1, (0.003-slope)/0.001)
	}
	return finite("time of concentration", 0.0195*math.Pow(lengthM, 0.77)*math.Pow(slope, -0.385)*minuteS, err)
}

// KerbyS returns the time of overland flow 1.44 (LN)^0.467 S^-0.235 (minutes; metres) in s, for
// lengths to 370 m; roughness is Kerby's own N: smooth bare 0.10, poor grass 0.20, pasture 0.40,
// dense grass 0.80. Source: Kerby1959, from memory.
func KerbyS(lengthM, roughness, slope float64) (float64, error) {
	err := errors.Join(within("overland length", lengthM, 0, 370, "m"), within("overland roughness N", roughness, 0.02, 0.8, ""),
		within("overland slope", slope, 0, 1, "rise over run"))
	return finite("time of overland flow", 1.44*math.Pow(lengthM*roughness, 0.467)*math.Pow(max(slope, LeastSlope), -0.235)*minuteS, err)
}

// LagConcentrationS returns the time of concentration in s by the lag of a catchment from its curve
// number: L = l^0.8 (S+1)^0.7/(1900 Y^0.5) hours with l in feet, S in inches, Y in percent; over 0.6.
// Here the length is in metres and the land slope is rise over run. Curve numbers 50 to 95.
// Source: Ponce1989, read.
func LagConcentrationS(lengthM, curveNumber, slope float64) (float64, error) {
	err := errors.Join(within("flow length", lengthM, 1, 1e5, "m"), within("curve number of the lag formula", curveNumber, 50, 95, ""),
		within("land slope", slope, 0, 1, "rise over run"))
	percent := max(slope, LeastSlope) * 100
	lagH := math.Pow(lengthM/footM, 0.8) * math.Pow(1000/curveNumber-9, 0.7) / (1900 * math.Sqrt(percent))
	return finite("time of concentration", lagH/0.6*hourS, err)
}

// KinematicS returns the time of concentration of a plane, 6.99 (nL)^0.6/(i^0.4 s^0.3) (minutes;
// metres; mm/h), in s, for the intensity in mm/h that falls over just that time, found by repeated
// substitution. Times below leastMin minutes count as that. An error of intensity is passed on. The
// intensity may be that of the rain or of the excess, which gives a longer time: say which was used.
func KinematicS(lengthM, roughness, slope, leastMin float64, intensity func(minutes float64) (float64, error)) (float64, error) {
	if err := errors.Join(within("plane length", lengthM, 0, 1e5, "m"), within("plane roughness n", roughness, 0.005, 1, ""),
		within("plane slope", slope, 0, 1, "rise over run"), above("least time", leastMin, "min")); err != nil {
		return math.NaN(), err
	}
	minutes := leastMin
	for range 100 {
		mmh, err := intensity(minutes)
		if err := errors.Join(err, above("intensity", mmh, "mm/h")); err != nil {
			return math.NaN(), err
		}
		next := max(leastMin, 6.99*math.Pow(roughness*lengthM, 0.6)/(math.Pow(mmh, 0.4)*math.Pow(max(slope, LeastSlope), 0.3)))
		if math.Abs(next-minutes) <= 1e-9*next {
			return next * minuteS, nil
		}
		minutes = next
	}
	return math.NaN(), fmt.Errorf("the time of concentration does not settle (near %.3g min); check the rainfall", minutes)
}
