package hydro

import (
	"fmt"
	"slices"

	"github.com/paulmach/orb"
	"github.com/paulmach/orb/planar"

	"siltstep/hydro/channel"
)

// standingWater tells of the deepest standing water of a drainage, and how many there are. Declared
// water is told elsewhere.
func standingWater(p *Plan, d *channel.Drainage) (Finding, bool) {
	var deepest channel.Stretch
	n := 0
	for _, w := range channel.Stretches(d.Profile) {
		if !w.Standing || declaredWater(p, d.Profile, w) {
			continue
		}
		n++
		if w.DepthM > deepest.DepthM {
			deepest = w
		}
	}
	text := fmt.Sprintf("Water would stand in %s from station %.1f to %.1f m, up to %.2f m deep at %.1f m: a stock pond, a pit, or a road fill whose culvert the data does not show.", d.ID, deepest.FromM, deepest.ToM, deepest.DepthM, deepest.DeepestM)
	if n > 1 {
		text += fmt.Sprintf(" It is the deepest of %d such places.", n)
	}
	text += " No dam stands there; walk it, and find where the water goes before anything is built above or below."
	f := Finding{Rule: FindingWater, Subject: d.ID, Text: text}
	if n > 0 {
		at := d.Profile.Stations[stationNear(d.Profile, deepest)]
		f.Placed, f.At = true, orb.Point{at.X, at.Y}
	}
	return f, n > 0
}

// stationNear returns the station at the deepest place of a stretch of water.
func stationNear(p channel.Profile, w channel.Stretch) int {
	at := w.First
	for i := w.First; i <= w.Last; i++ {
		if p.Stations[i].FillM > p.Stations[at].FillM {
			at = i
		}
	}
	return at
}

// declaredWater reports whether some water runs through a declared stock pond.
func declaredWater(p *Plan, profile channel.Profile, w channel.Stretch) bool {
	for _, s := range profile.Stations[w.First : w.Last+1] {
		x, y := p.Grid.CenterOf(s.Cell)
		if slices.ContainsFunc(p.Config.Flow.Features.StockPonds, func(pond orb.Polygon) bool { return planar.PolygonContains(pond, orb.Point{x, y}) }) {
			return true
		}
	}
	return false
}

// smallPools sums up the water that is too shallow or too short to count as standing.
func smallPools(drainages []channel.Drainage) (Finding, bool) {
	pools, in := 0, 0
	for i := range drainages {
		before := pools
		for _, w := range channel.Stretches(drainages[i].Profile) {
			if !w.Standing {
				pools++
			}
		}
		if pools > before {
			in++
		}
	}
	return Finding{Rule: FindingPools,
		Text: fmt.Sprintf("Small pools lie along the bed, under %[3]g m deep or under %[4]g m long (pools: %[1]d, drainages: %[2]d): noise of the survey, or scour. Dams may stand in them: level the bed by hand.", pools, in, channel.StandingM, channel.StandingLengthM),
	}, pools > 0
}
