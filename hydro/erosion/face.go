package erosion

import (
	"math"

	"siltstep/hydro/channel"
)

// How a step is measured and judged. Source: our own choice, tried on drawn beds with noise.
const (
	farBelowM = 12.0 // m of bed below a step by which it is measured
	farAboveM = 10.0 // and above
	farCells  = 5.0  // and as many cell sides
	poolM     = 1.5  // m of the bed below that are left out of it: the pool at the foot, or a level place
	ofAbove   = 0.75 // share of the height from which a station belongs to the bed above
	ofBelow   = 0.25 // share of the height up to which a station belongs to the bed below
	beyond    = 2    // stations past those of a candidate at which its foot or lip may still lie
	surely    = 4.0  // standard errors of the two lines that a step is high at least
	lowestOf3 = 0.75 // standard deviation of the lowest of three errors as a share of one's, by order statistics
	steeper   = 3.0  // times the slope of the bed around it is the least slope of the face of a step
	leanest   = 1.0  // least slope of that face, rise over run, whatever the bed: a headcut is steep
	blurRuns  = 2.0  // runs between stations over which cells draw out a vertical face: one of them holds part of it
	blurCells = 2.4  // but no more cell sides: stations that lie corner to corner would hide a ramp
	blurFineM = 2.0  // m; cells up to which all of that is put down to them
	blurM     = 3.0  // m; over larger ones no more than this is: no face is seen over them
	slack     = 1e-9 // share of a limit that is put down to rounding
)

// measure measures the step about two stations of a run; ok is false where there is none.
//
// Robust lines through the bed to either side give the height. The face runs from where a quarter of it is reached to
// where three quarters are, drawn out to all of it, less what cells blur.
func measure(st []channel.Station, foot, lip int, lim limits) (s step, ok bool) {
	if !enough(st[:foot+1]) || !enough(st[lip:]) {
		return s, false
	}
	below := medianLine(clearOfPool(bedBelow(st, foot, max(farBelowM, farCells*lim.cellM))))
	above := medianLine(bedAbove(st, lip, max(farAboveM, farCells*lim.cellM)))
	share := func(i int) float64 { // of the height between the beds, 0 to 1
		at := st[i].StationM
		return (st[i].GroundM - below.at(at)) / (above.at(at) - below.at(at))
	}
	s = step{lip: foot + 1, below: below, aboveSlope: above.slope}
	for s.lip < lip+beyond && s.lip < len(st)-1 && share(s.lip) < ofAbove {
		s.lip++
	}
	s.foot = s.lip - 1
	for s.foot > foot-beyond && s.foot > 0 && share(s.foot) > ofBelow {
		s.foot--
	}
	footM, lipM := st[s.foot].StationM, st[s.lip].StationM
	for _, at := range [2]float64{footM, lipM} {
		errorM := lowestOf3 * lim.noiseM * math.Sqrt(below.variance(at)+above.variance(at))
		if !(above.at(at)-below.at(at) >= max(lim.leastM, surely*errorM)*(1-slack)) {
			return s, false
		}
	}
	if share(s.lip) < ofAbove || share(s.foot) > ofBelow {
		return s, false // no station there lies on one of the beds
	}
	middleM := (footM + lipM) / 2
	s.heightM = above.at(middleM) - below.at(middleM)
	drawnOutM := (crossing(st, share, s.lip-1, ofAbove) - crossing(st, share, s.foot, ofBelow)) / (ofAbove - ofBelow)
	runM := drawnOutM - blurOf(st[s.foot:s.lip+1], lim.cellM)
	least := max(leanest, steeper*(above.slope+below.slope)/2)
	return s, s.heightM >= least*runM*(1-slack)
}

// blurOf returns by how much cells draw out the face between the first and the last of stations, in metres.
func blurOf(st []channel.Station, cellM float64) float64 {
	apartM := (st[len(st)-1].StationM - st[0].StationM) / float64(len(st)-1)
	most := blurCells * cellM
	if cellM > blurFineM*(1+slack) {
		most = blurM
	}
	return min(blurRuns*apartM, most)
}

// clearOfPool returns the bed below a step without what lies within poolM of the foot, but at least sideLeast stations.
func clearOfPool(st []channel.Station) []channel.Station {
	footM := st[len(st)-1].StationM
	for len(st) > sideLeast && footM-st[len(st)-1].StationM < poolM {
		st = st[:len(st)-1]
	}
	return st
}

// crossing returns the station between station i and the next at which a share is reached, in metres; the nearer end
// where it is not reached between them.
func crossing(st []channel.Station, share func(i int) float64, i int, of float64) float64 {
	a, b := share(i), share(i+1)
	t := 0.5
	if a != b {
		t = min(max((of-a)/(b-a), 0), 1)
	}
	return st[i].StationM + t*(st[i+1].StationM-st[i].StationM)
}
