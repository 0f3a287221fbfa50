package storm

import "math"

// SideShare is the highest shear on the side of a channel as a share of that on its bed. Source: HEC15, in
// a copy.
const SideShare = 0.75

// Shear is what flow does to its bed and banks. Everything is 0 where dry.
type Shear struct {
	MeanPa            float64 // weight of water × hydraulic radius × slope, Pa: mean over the perimeter
	BedPa             float64 // with the greatest depth instead of the radius, Pa: the highest on the bed
	SidePa            float64 // SideShare of that, Pa
	PowerPerimeterWM2 float64 // stream power over the wetted perimeter, W/m²: mean shear × velocity
	PowerTopWidthWM2  float64 // stream power over the top width, W/m²: larger; most published thresholds use a width
	UnitPowerMS       float64 // velocity × slope, m/s (W per newton of water)
}

// ShearOf returns the shear of a flow on an energy slope, rise over run. Behind dams the energy slope
// is far less than the bed's. NaN where the slope is negative or not a number.
func ShearOf(f Flow, slope float64) Shear {
	if !(slope >= 0) {
		nan := math.NaN()
		return Shear{nan, nan, nan, nan, nan, nan}
	}
	out := Shear{
		MeanPa:      waterNM3 * f.HydraulicRadiusM() * slope,
		BedPa:       waterNM3 * f.DepthM * slope,
		SidePa:      SideShare * waterNM3 * f.DepthM * slope,
		UnitPowerMS: f.VelocityMS * slope,
	}
	if f.TopWidthM > 0 {
		out.PowerPerimeterWM2 = waterNM3 * f.FlowM3s * slope / f.PerimeterM
		out.PowerTopWidthWM2 = waterNM3 * f.FlowM3s * slope / f.TopWidthM
	}
	return out
}
