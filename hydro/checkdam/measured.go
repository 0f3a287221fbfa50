package checkdam

import (
	"fmt"
	"math"
)

// Measured is what a dam holds as the ground behind it tells, full of water, full of silt and half full. All numbers are NaN where
// it is not measured.
type Measured struct {
	PondM3       float64 // below the level of the sill
	PondAreaM2   float64
	PondLengthM  float64
	SedimentM3   float64 // below the deposit slope: what Low and High are about
	WedgeAreaM2  float64
	WedgeLengthM float64
	HalfM3       float64 // silt whose surface stands at half the height of the sill
	BodyM3       float64 // of pond and sediment, what the upstream half of the dam itself takes up; not taken off them

	SedimentLowM3  float64 // one standard deviation below and above SedimentM3, see Measure; NaN where the noise of the survey is not known
	SedimentHighM3 float64

	How string // the method and its numbers, a clause; empty where not measured
	Why string // why it is not measured, a clause; empty where it is
}

// NotMeasured returns the answer where the ground cannot tell, and why.
func NotMeasured(why string) Measured {
	n := math.NaN()
	return Measured{n, n, n, n, n, n, n, n, n, n, "", why}
}

// Measure returns what a dam of an effective height holds, under a deposit of ratio times the slope of the bed, from its axis to
// toM upstream; see Below. heightErrorM is the standard deviation of the height of the sill above the bed, NaN where it is not known, and
// widthErrorM that of the width of the channel.
//
// Low and high are V ∓ √((A·heightErrorM)² + (S·widthErrorM)²), low no less than 0: propagation of errors to first order, dV/dH being the plan
// area A of the wedge and dV/db its area S seen from the side.
func (v Valley) Measure(b Body, heightM, ratio, toM, heightErrorM, widthErrorM float64) Measured {
	pond, wedge := v.Below(heightM, 0, toM), v.Below(heightM, ratio, toM)
	errorM3 := math.Sqrt(math.Pow(wedge.AreaM2*heightErrorM, 2) + math.Pow(wedge.SideM2*widthErrorM, 2))
	m := Measured{
		PondM3: pond.VolumeM3, PondAreaM2: pond.AreaM2, PondLengthM: pond.LengthM,
		SedimentM3: wedge.VolumeM3, WedgeAreaM2: wedge.AreaM2, WedgeLengthM: wedge.LengthM,
		HalfM3:         v.Below(heightM/2, ratio, toM).VolumeM3,
		BodyM3:         v.BodyM3(b, heightM, toM),
		SedimentLowM3:  max(0, wedge.VolumeM3-errorM3), // NaN stays
		SedimentHighM3: wedge.VolumeM3 + errorM3,
	}
	m.How = fmt.Sprintf("fitted cross-sections over %.3g m of channel, prismoidal", wedge.LengthM)
	if !math.IsNaN(errorM3) {
		m.How += fmt.Sprintf("; low and high to first order, plan area × error of height, %.3g m² × %.2g m, and side area × error of width, %.3g m² × %.2g m",
			wedge.AreaM2, heightErrorM, wedge.SideM2, widthErrorM)
	}
	return m
}

// Over returns what a dam holds as measured, in place of that of a prism of its section; years to fill are kept. Where it was not measured it is s.
func (m Measured) Over(s Storage) Storage {
	if m.Why != "" {
		return s
	}
	s.PondM3, s.PondLengthM, s.SedimentM3, s.WedgeLengthM, s.BodyM3 = m.PondM3, m.PondLengthM, m.SedimentM3, m.WedgeLengthM, m.BodyM3
	return s
}

// AveragedEndsM3 returns the pond of a dam in a swale of bed width b and side slope z by the mean of its two end areas, the upper
// being 0: h²(hz + b)/(2S). It overstates a prism, whose pond is bh²/(2S) + zh³/(3S). Source: MPCASwale.
func AveragedEndsM3(bedWidthM, sideSlope, heightM, slope float64) float64 {
	return heightM * heightM * (heightM*sideSlope + bedWidthM) / (2 * slope)
}
