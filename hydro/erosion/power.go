package erosion

import (
	"fmt"
	"math"
	"slices"

	"siltstep/hydro/channel"
)

// leastSlope is the bed slope that flow is reckoned with where the bed is flatter, rise over run. Our own choice: a
// bed that seems level in a survey still carries water.
const leastSlope = 0.0005

// PowerAt tells what storm water can do to the bed of a drainage. peakM3s holds the storm peak at each station; nil where
// no storm is given: then only SlopeArea is told.
//
// Flow runs at normal depth by Manning's formula, with cfg.Roughness, in the trapezoid fitted to the nearest resolved
// section, its sides going on above the bank tops; the slope is the station's, at least 0.0005.
// UnitPowerWm2 is over the width of the water surface. It equals shear times velocity only over the wetted perimeter, which is longer.
// Values are NaN where no slope is told (Station.Slope), where depths.SectionM is not known, where the nearest section has
// no banks, and where the peak is NaN or below zero. SlopeArea takes the slope as it is.
//
// ShearRatio is the shear that nine in ten stations stay at or below, over what cfg.Material bears.
// It panics where peakM3s or depths do not fit the stations.
func PowerAt(d *channel.Drainage, sections []channel.Section, depths Depths, peakM3s []float64, cfg Config) Power {
	stations := d.Profile.Stations
	p := Power{
		SlopeArea:     make([]float64, len(stations)),
		PermissiblePa: permissiblePa(cfg.Material),
		ShearRatio:    math.NaN(),
	}
	for i, s := range stations {
		p.SlopeArea[i] = slopeArea(s.Slope, s.CatchmentM2)
	}
	if peakM3s == nil {
		return p
	}
	if len(peakM3s) != len(stations) || len(depths.SectionM) != len(stations) {
		panic(fmt.Sprintf("erosion: %d peaks and %d depths at %d stations", len(peakM3s), len(depths.SectionM), len(stations)))
	}
	p.PeakM3s = slices.Clone(peakM3s)
	p.UnitPowerWm2, p.ShearPa = unknown(len(stations)), unknown(len(stations))
	resolved := resolvedOf(sections)
	places := trackOf(resolved, 0, func(*channel.Section) float64 { return 0 }) // one a section
	for i, s := range stations {
		if len(resolved) == 0 || math.IsNaN(depths.SectionM[i]) {
			continue
		}
		shape := resolved[places.nearest(s.StationM)].Fit
		if !(shape.DepthM > 0) {
			continue
		}
		slope := max(s.Slope, leastSlope) // NaN stays
		flow := normal(shape, peakM3s[i], slope, cfg.Roughness)
		p.ShearPa[i] = flow.bedShearPa(slope)
		p.UnitPowerWm2[i] = flow.unitPowerWm2(peakM3s[i], slope)
	}
	p.ShearRatio = percentile(p.ShearPa, 0.9) / p.PermissiblePa
	return p
}

// percentile returns the least of the known values that a share of them does not exceed; NaN where none is known.
func percentile(values []float64, share float64) float64 {
	known := slices.DeleteFunc(slices.Clone(values), math.IsNaN)
	if len(known) == 0 {
		return math.NaN()
	}
	slices.Sort(known)
	const slack = 1e-9 // 0.9 of 10 values is 9 of them whatever the rounding
	return known[max(0, int(math.Ceil(share*float64(len(known))-slack))-1)]
}
