package demo

import (
	"context"
	"math"
	"slices"
	"testing"

	"github.com/paulmach/orb"
	"github.com/paulmach/orb/planar"

	"siltstep/hydro"
	"siltstep/hydro/channel"
	"siltstep/hydro/erosion"
	"siltstep/raster"
)

// screened screens a ranch on a grid of it, the road and the pond declared as the demo command does.
func screened(t *testing.T, r *Ranch, g *raster.Grid) *hydro.Plan {
	t.Helper()
	cfg := hydro.Defaults()
	cfg.Flow = withRoad(r)
	cfg.Flow.Features.StockPonds = []orb.Polygon{r.Truth.StockPond.Water}
	p, err := hydro.Screen(context.Background(), g, cfg, nil)
	if err != nil {
		t.Fatal(err)
	}
	return p
}

// A stationRef is a station of a drainage.
type stationRef struct{ drainage, station int }

// nearestStation returns the station nearest to a place, and how far it is.
func nearestStation(p *hydro.Plan, at orb.Point) (stationRef, float64) {
	best, bestM := stationRef{}, math.Inf(1)
	for i := range p.Network.Drainages {
		for k, s := range p.Network.Drainages[i].Profile.Stations {
			if m := planar.Distance(at, orb.Point{s.X, s.Y}); m < bestM {
				best, bestM = stationRef{i, k}, m
			}
		}
	}
	return best, bestM
}

// errors are how far measured depths are off known ones, m, at places where both are there.
type depthErrors []float64

// within returns the share of errors of at most a limit.
func (e depthErrors) within(limitM float64) float64 {
	n := 0
	for _, m := range e {
		if math.Abs(m) <= limitM {
			n++
		}
	}
	return float64(n) / float64(len(e))
}

// middle returns the median.
func (e depthErrors) middle() float64 {
	sorted := slices.Sorted(slices.Values(e))
	return sorted[len(sorted)/2]
}

// depthsOff compares the depth of every trench at the places where it is known with what a plan tells at the nearest station; value picks
// one of the measures.
func depthsOff(p *hydro.Plan, tr Trench, value func(erosion.Depths) []float64) (off depthErrors) {
	for _, k := range tr.MeasuredAt {
		at, awayM := nearestStation(p, tr.Line[k])
		told := value(p.Erosion[at.drainage].Depths)[at.station]
		if awayM <= 3 && !math.IsNaN(told) {
			off = append(off, told-tr.DepthM[k])
		}
	}
	return off
}

// Every trench of known depth is found within 0.1 m, by its middle error; so are 97 of 100 of all places.
func TestTrenchesAreFound(t *testing.T) { eachRanch(t, trenchesAreFound) }

func trenchesAreFound(t *testing.T, r *Ranch) {
	p := screened(t, r, r.Grid)
	var all, beside depthErrors
	for _, tr := range r.Truth.Trenches {
		off := depthsOff(p, tr, func(d erosion.Depths) []float64 { return d.SectionM })
		if len(off) < len(tr.MeasuredAt)*2/3 || math.Abs(off.middle()) > 0.1 {
			t.Errorf("%s: depths told at %d of %d places, middle error %.3f m, %.0f %% within 0.1 m", tr.ID, len(off), len(tr.MeasuredAt), off.middle(), 100*off.within(0.1))
		}
		all = append(all, off...)
		beside = append(beside, depthsOff(p, tr, func(d erosion.Depths) []float64 { return d.TopHatM })...)
	}
	t.Logf("by cross-sections: middle error %.3f m, %.1f %% of %d places within 0.1 m; by the top-hat: %.3f m, %.1f %%",
		all.middle(), 100*all.within(0.1), len(all), beside.middle(), 100*beside.within(0.1))
	if all.within(0.1) < 0.97 {
		t.Errorf("cross-sections: only %.1f %% within 0.1 m", 100*all.within(0.1))
	}
	if math.Abs(beside.middle()) > 0.1 || beside.within(0.3) < 0.9 {
		t.Errorf("the top-hat: middle error %.3f m, %.0f %% within 0.3 m", beside.middle(), 100*beside.within(0.3))
	}
}

// Of the uncut drainages none is called eroding.
func TestUncutDrainagesAreSound(t *testing.T) { eachRanch(t, uncutAreSound) }

func uncutAreSound(t *testing.T, r *Ranch) {
	p := screened(t, r, r.Grid)
	const trenchBesideM = 12
	for i := range p.Network.Drainages {
		d, s := &p.Network.Drainages[i], p.Erosion[i].Severity
		near := slices.ContainsFunc(r.Truth.Trenches, func(tr Trench) bool {
			return slices.ContainsFunc(tr.Line, func(at orb.Point) bool {
				return slices.ContainsFunc(d.Profile.Stations, func(s channel.Station) bool {
					return planar.Distance(at, orb.Point{s.X, s.Y}) < trenchBesideM
				})
			})
		})
		if !near && s.Class != erosion.Sound && s.Class != "" {
			t.Errorf("%s, which no trench touches, is called %s (%.0f)", d.ID, s.Class, s.Total)
		}
	}
}
