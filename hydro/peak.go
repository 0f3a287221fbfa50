package hydro

import (
	"math"

	"siltstep/hydro/channel"
	"siltstep/hydro/storm"
)

// stormPeak is the storm at one place.
type stormPeak struct {
	peakM3s, lowM3s, highM3s float64 // NaN where not known
	method                   storm.Method
	methods                  []storm.MethodPeak
	concentrationS           float64 // after the floor
	notes                    []storm.Note
	why                      string // why there is no peak; empty where there is one
}

// noPeak is a place without one.
func noPeak(why string) stormPeak {
	nan := math.NaN()
	return stormPeak{peakM3s: nan, lowM3s: nan, highM3s: nan, concentrationS: nan, why: why}
}

// Why there is no peak at a place.
const (
	whyNoRain    = "no rainfall was given, and none is assumed"
	whyTruncated = "water enters the catchment over the edge of the data: give what flows in there (--inflow), declare that nothing does (flow.edge: closed), or bring more data"
)

// peakAt returns the storm at a station of a drainage.
func (p *Plan) peakAt(s *channel.Station, path flowPath) stormPeak {
	switch {
	case !p.Config.Storm.given():
		return noPeak(whyNoRain)
	case s.Truncated:
		return noPeak(whyTruncated)
	}
	travelS, notes := path.travelS(p.Config.Erosion.Roughness)
	out := p.law.peak(s.CatchmentM2, travelS)
	out.notes = append(notes, out.notes...)
	return out
}

// findOutlets fills in the peak at the lower end of every drainage, and keeps the flow paths for what comes after.
func (p *Plan) findOutlets(d *channel.Drainage, i int) {
	if p.Config.Storm.given() {
		p.paths[i] = p.flowPaths(d)
	} else {
		p.paths[i] = make([]flowPath, len(d.Profile.Stations))
	}
	p.outlets[i] = noPeak("the drainage has no profile")
	if stations := d.Profile.Stations; len(stations) > 0 {
		p.outlets[i] = p.peakAt(&stations[0], p.paths[i][0])
	}
	p.OutletPeaksM3s[i] = p.outlets[i].peakM3s
}

// peaksAlong returns the peak at each station of a drainage, NaN where it is not known; nil where no storm is given.
func (p *Plan) peaksAlong(d *channel.Drainage, paths []flowPath) []float64 {
	if !p.Config.Storm.given() {
		return nil
	}
	peaks := make([]float64, len(d.Profile.Stations))
	for k, s := range d.Profile.Stations {
		peaks[k] = math.NaN()
		if !s.Truncated {
			travelS, _ := paths[k].travelS(p.Config.Erosion.Roughness)
			peaks[k] = p.law.peakM3s(s.CatchmentM2, travelS)
		}
	}
	return peaks
}
