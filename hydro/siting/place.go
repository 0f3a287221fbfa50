package siting

// judgePlace returns what keeps a dam from standing at station i, where the land itself has no fault. A width that is
// not known is no fault.
func (j *judge) judgePlace(i int) (f faults) {
	st := j.d.Profile.Stations[i]
	if j.ground.PlaceAt != nil {
		j.places[i] = j.ground.PlaceAt(i)
		f = judgeSection(j.places[i], j.cfg)
	}
	if dist, ok := confluenceM(j.d, st.StationM); ok && nearer(dist, j.cfg.ConfluenceM) {
		f |= nearConfluence
	}
	if nearer(j.radiusM(i), j.cfg.BendRadiusM) {
		f |= onBend
	}
	if j.inside != nil && !bodyInside(j.bed, st.StationM, 2*j.halfM, j.inside) {
		f |= overProperty
	}
	if nearer(j.near.exclusions.distanceM(st.X, st.Y), j.halfM) {
		f |= overExclusion
	}
	return f
}

// judgeSection returns what the cross-section of a place is short of.
func judgeSection(p Place, cfg Config) (f faults) {
	if p.BedWidthM > cfg.BedWidthMaxM+levelM {
		f |= wideBed
	}
	if p.TopWidthM > cfg.TopWidthMaxM+levelM {
		f |= wideTop
	}
	switch {
	case p.Why != "" || len(p.Offers) == 0:
		f |= noSection
	case !p.holdsDam():
		f |= lowBanks
	}
	return f
}

// holdsDam reports whether a dam of at least one height can be built there.
func (p Place) holdsDam() bool {
	for _, o := range p.Offers {
		if o.Fault == nil {
			return true
		}
	}
	return false
}
