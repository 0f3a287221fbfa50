package hydro

import (
	"math"
	"sort"

	"siltstep/hydro/channel"
	"siltstep/raster"
)

// waterM returns how far water at a level reaches to the left and right of the line at a station, m, as the nearest section shows the
// ground: from the bed out to where it first stands as high, or to the end of the section. The level is counted from the bed of the
// profile. Both are 0 where the level is not above it, and where no section lies near. Cost: linear in the samples of a section.
func (g *valleyGround) waterM(stationM, levelM float64) (leftM, rightM float64) {
	if len(g.stations) == 0 {
		return 0, 0
	}
	depthM := levelM - g.profileM(stationM)
	s := g.nearest(stationM)
	if s == nil || !(depthM > 0) {
		return 0, 0
	}
	x, y := g.placeAt(s.StationM)
	thalwegM := (s.X-x)*s.DX + (s.Y-y)*s.DY // right of the line
	leftM = reachM(s, s.BedM+depthM, -1) - thalwegM
	rightM = reachM(s, s.BedM+depthM, 1) + thalwegM
	return max(0, leftM), max(0, rightM)
}

// nearest returns the section nearest to a station whose bed is known; nil where none lies near.
func (g *valleyGround) nearest(stationM float64) *channel.Section {
	var best *channel.Section
	bestM := g.withinM
	take := func(s *channel.Section) bool {
		awayM := math.Abs(s.StationM - stationM)
		if awayM <= bestM && !math.IsNaN(s.BedM) {
			best, bestM = s, awayM
		}
		return awayM > bestM
	}
	above := sort.Search(len(g.sections), func(i int) bool { return g.sections[i].StationM > stationM })
	for i := above - 1; i >= 0 && !take(&g.sections[i]); i-- {
	}
	for i := above; i < len(g.sections) && !take(&g.sections[i]); i++ {
	}
	return best
}

// reachM returns how far from the thalweg of a section its ground first stands at a level, no nearer than the toe of the bank where one is
// known: to the left for dir −1, to the right for 1. Where it does not before the section ends, that end.
func reachM(s *channel.Section, levelM float64, dir int) float64 {
	toeM := s.Left.ToeM * float64(dir)
	if dir > 0 {
		toeM = s.Right.ToeM
	}
	if math.IsNaN(toeM) {
		toeM = 0
	}
	lastM, lastZ := 0.0, math.NaN()
	for i, k := len(s.MM)/2, 0; i >= 0 && i < len(s.MM) && s.MM[i] != raster.VoidMM; i, k = i+dir, k+1 {
		atM, z := float64(k)*s.StepM, float64(s.MM[i])/1000
		if atM >= toeM && z >= levelM {
			if lastZ < levelM {
				return lastM + (atM-lastM)*(levelM-lastZ)/(z-lastZ)
			}
			return atM
		}
		lastM, lastZ = atM, z
	}
	return lastM
}
