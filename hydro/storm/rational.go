package storm

import (
	"errors"
	"math"
)

// Catchments of the rational method, m².
const (
	RationalBestM2 = 80 * hectareM2  // to here it is good. Source: Thompson2007, 200 acres, read
	RationalMostM2 = 260 * hectareM2 // to here it is used with a note, beyond not at all. Source: our own choice
)

// RationalM3s returns C i A in m³/s for a runoff coefficient of 0 to 1, an intensity in mm/h over the
// time of concentration and an area in m². Source: TxDOTHydraulic; the metric constant follows from units.
func RationalM3s(coefficient, intensityMMH, areaM2 float64) (float64, error) {
	return finite("rational peak", coefficient*intensityMMH/1000/hourS*areaM2,
		within("runoff coefficient", coefficient, 0, 1, ""),
		within("rain intensity", intensityMMH, 0, math.MaxFloat64, "mm/h"),
		above("catchment", areaM2, "m²"))
}

// Part is a part of a catchment for the rational method.
type Part struct {
	AreaM2       float64 // m²
	Coefficient  float64 // 0 to 1
	IntensityMMH float64 // over the part's own time of concentration, mm/h
}

// PartialAreaM3s returns the largest rational peak of the parts in m³/s: a small, steep, bare part
// can exceed the whole, so give the whole as one of them. Source: Ponce1989, read.
func PartialAreaM3s(parts []Part) (float64, error) {
	if len(parts) == 0 {
		return math.NaN(), errors.New("partial areas: no part given; give the whole catchment and its fast parts")
	}
	most := 0.0
	for _, p := range parts {
		q, err := RationalM3s(p.Coefficient, p.IntensityMMH, p.AreaM2)
		if err != nil {
			return math.NaN(), err
		}
		most = max(most, q)
	}
	return most, nil
}
