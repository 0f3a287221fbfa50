package field

import (
	"cmp"
	"math"
	"slices"

	"siltstep/cmd/internal/facts"
)

// A tape is the way to a dam with tape and level. What is not known is NaN.
type tape struct {
	below         string    // id of the next dam below in the drainage; empty for the lowest
	inSeries      bool      // that dam is of the same series
	fromBelowM    facts.Num // level distance along the channel
	riseM         facts.Num // of the bed, from that dam
	landmark      string    // where stations begin, in words
	fromLandmarkM facts.Num
	landmarkRiseM facts.Num // of the bed, from the landmark
}

// tapesOf returns the way to each dam of a plan.
func tapesOf(f *facts.Folder) map[string]tape {
	tapes := make(map[string]tape, len(f.Sites))
	unknown := facts.Num(math.NaN())
	below := nextBelow(f.Sites)
	ends := lowerEnds(f)
	for i := range f.Sites {
		s := &f.Sites[i]
		t := tape{fromBelowM: unknown, riseM: unknown, landmark: ends[s.Drainage], fromLandmarkM: s.StationM, landmarkRiseM: unknown}
		if profile := f.Profiles[s.Drainage]; len(profile) > 0 {
			t.landmarkRiseM = s.BedM - facts.Num(profile[0].BedM)
		}
		if b := below[s.ID]; b != nil {
			t.below, t.inSeries = b.ID, b.Series == s.Series
			t.fromBelowM, t.riseM = s.StationM-b.StationM, s.BedM-b.BedM
			if t.inSeries && s.SpacingDownM.Known() {
				t.fromBelowM = s.SpacingDownM
			}
			if t.inSeries && s.RiseFromBelowM.Known() {
				t.riseM = s.RiseFromBelowM
			}
		}
		tapes[s.ID] = t
	}
	return tapes
}

// nextBelow returns the dam below each in the same drainage, nil for the lowest.
func nextBelow(sites []facts.Site) map[string]*facts.Site {
	byDrainage := map[string][]*facts.Site{}
	for i := range sites {
		byDrainage[sites[i].Drainage] = append(byDrainage[sites[i].Drainage], &sites[i])
	}
	below := make(map[string]*facts.Site, len(sites))
	for _, list := range byDrainage {
		slices.SortStableFunc(list, func(a, b *facts.Site) int { return cmp.Compare(a.StationM, b.StationM) })
		for i := 1; i < len(list); i++ {
			below[list[i].ID] = list[i-1]
		}
	}
	return below
}

// lowerEnds words the place where stations of each drainage begin.
func lowerEnds(f *facts.Folder) map[string]string {
	ends := make(map[string]string, len(f.Drainages))
	for _, d := range f.Drainages {
		ends[d.ID] = "lower end of " + d.ID + ", where its line ends on the map"
		if d.Into != "" {
			ends[d.ID] = "lower end of " + d.ID + ", its confluence with " + d.Into
		}
	}
	return ends
}
