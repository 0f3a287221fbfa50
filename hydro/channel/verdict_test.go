package channel

import (
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"siltstep/raster"
	"siltstep/raster/rastertest"
)

func TestGroundWithoutBanks(t *testing.T) {
	// Shapes of ground that no water has cut a trench into. Clean, none has a bank; with errors of 0.05 m in the
	// cells fewer than 1 in 50 sections shows one of 0.3 m or more.
	lands := []struct {
		name string
		z    func(x float64) float64
	}{
		{"plane", func(float64) float64 { return 0 }},
		{"hillside of 0.3", func(x float64) float64 { return 0.3 * x }},
		{"V valley of 0.1", func(x float64) float64 { return 0.1 * math.Abs(x) }},
		{"V valley of 0.5", func(x float64) float64 { return 0.5 * math.Abs(x) }},
		{"V valley of 1", math.Abs},
		{"valley with a floor of 8 m", func(x float64) float64 { return 0.3 * max(0, math.Abs(x)-4) }},
		{"hollow", func(x float64) float64 { return 0.02 * x * x }},
		{"valley of 6 m with round shoulders", func(x float64) float64 { return 3 * (1 - math.Cos(x/20*math.Pi)) }},
		{"swale of 0.6 m", func(x float64) float64 { return -0.6 * math.Exp(-x*x/50) }},
	}
	taken, deep := 0, 0
	for _, land0 := range lands {
		for _, cellM := range []float64{0.5, 1} {
			g, p := land(cellM, 0, 1, land0.z)
			for _, s := range Sections(g, p, SectionConfig{SpacingM: 2, ReachM: 20}) {
				if !s.Resolved || s.DepthM != 0 {
					t.Errorf("%s, cells of %v m, station %v: depth %v m: %s", land0.name, cellM, s.StationM, s.DepthM, s.Why)
					break
				}
			}
			for seed := range uint64(4) {
				g, p := land(cellM, 0.05, seed, land0.z)
				for _, s := range Sections(g, p, SectionConfig{SpacingM: 2, ReachM: 20}) {
					taken++
					if s.Resolved && s.DepthM >= 0.3 {
						deep++
					}
				}
			}
		}
	}
	t.Logf("%d of %d noisy sections show banks of 0.3 m or more", deep, taken)
	if taken < 1500 || deep*50 > taken {
		t.Errorf("%d of %d noisy sections show banks that are not there", deep, taken)
	}
}

func TestPlainValleyIsResolvedWithoutDepth(t *testing.T) {
	// V valley of 30 x 21 cells, sides 0.5, its line found by flow: no banks on any section.
	g := rastertest.Valley(21, 30, 50_000, 500, 50)
	d := Build(g, run(t, g), Config{}).Drainages[0]
	sections := Sections(g, d.Profile, SectionConfig{SpacingM: 5, ReachM: 8})
	if len(sections) != 5 {
		t.Errorf("%d sections over 27 m, want 5", len(sections))
	}
	for _, s := range sections {
		// At a station m above row 29 the bed is at 50 − 0.05·(29 − m); evened with samples 0.25 m higher to
		// either side it reads 0.125 higher.
		want := 50 - 0.05*(29-s.StationM) + 0.125
		if !s.Resolved || s.DepthM != 0 || s.TopWidthM != 0 || math.Abs(s.BedM-want) > 0.002 { // each sample to the millimetre
			t.Errorf("station %v: depth %v, bed %v, want %v: %s", s.StationM, s.DepthM, s.BedM, want, s.Why)
		}
	}
}

func TestTrenchFoundByFlow(t *testing.T) {
	// The line as flow and smoothing give it; sections 10 m and more from the edge of the data.
	for _, tt := range []trench{
		{bedM: 3, run: 1, depthM: 1.2}, {bedM: 3, run: 1, depthM: 1.2, deg: 22.5}, {bedM: 2.5, run: 1.5, depthM: 0.8, deg: 45},
		{bedM: 3, run: 1, depthM: 1.4, deg: 10}, {bedM: 3, run: 1, depthM: 1.2, radiusM: 25},
	} {
		g, _ := tt.draw(1, 0.02, 5)
		var on []Section // of the drainage that runs along the trench: those on its bed
		for _, d := range Build(g, run(t, g), Config{StartAreaM2: 150, MinLengthM: 20}).Drainages {
			var these []Section
			for _, s := range Sections(g, d.Profile, reach) {
				east, north := s.X-rastertest.CornerX-halfM, s.Y-rastertest.CornerY+halfM
				along, right := tt.at(east, -north)
				if max(math.Abs(east), math.Abs(north)) <= halfM-10 && math.Abs(along) <= 28 && math.Abs(right) <= tt.bedM/2 {
					these = append(these, s)
				}
			}
			if len(these) > len(on) {
				on = these
			}
		}
		for _, s := range on {
			if !s.Resolved || math.Abs(s.DepthM-tt.depthM) > 0.1 || math.Abs(s.BedWidthM-tt.bedM) > 1.1 || math.Abs(s.TopWidthM-tt.bedM-2*tt.depthM*tt.run) > 1.1 { // a cell, and a tenth for the noise
				t.Errorf("%+v, station %.1f: depth %.2f, bed %.2f, top %.2f: %s", tt, s.StationM, s.DepthM, s.BedWidthM, s.TopWidthM, s.Why)
			}
		}
		if len(on) < 8 {
			t.Errorf("%+v: %d sections on the trench", tt, len(on))
		}
	}
}

func TestWhyNotResolved(t *testing.T) {
	wide := trench{bedM: 3, run: 1, depthM: 1.2}
	// holed returns a trench on cells of 1 m without data in some columns counted from the middle one.
	holed := func(from, to int) (*raster.Grid, Profile) {
		g, p := wide.draw(1, 0, 1)
		return rastertest.Hole(g, raster.Window{Col: int(halfM) + from, Cols: to - from + 1, Rows: g.Rows}), p
	}
	draw := func(t trench, cellM float64) func() (*raster.Grid, Profile) {
		return func() (*raster.Grid, Profile) { return t.draw(cellM, 0, 1) }
	}
	tests := []struct {
		name   string
		given  func() (*raster.Grid, Profile)
		reachM float64
		why    string
	}{
		{"cells of 2 m for 4.4 m", draw(trench{bedM: 2, run: 1, depthM: 1.2}, 2), 15, "under three cells of 2 m"},
		{"V on cells of 1 m", draw(trench{run: 1.5, depthM: 1.5, shift: 0.5}, 1), 15, "neither the bed nor the banks can be told on cells of 1 m"},
		{"V with its tip between centres", draw(trench{run: 1, depthM: 1.5, shift: 0.25}, 0.5), 15, "the bed is narrower than a cell of 0.5 m"},
		{"cells of 5 m", draw(trench{bedM: 2, run: 1, depthM: 0.5, shift: 0.5}, 5), 25, "no banks to be seen, and cells of 5 m would hide those of a channel under 15 m wide"},
		{"reach of 3 cells", draw(wide, 1), 3, "cells of 1 m are too coarse to show a channel within 3 m"},
		{"one bank beyond reach", func() (*raster.Grid, Profile) {
			return land(1, 0, 1, func(x float64) float64 { return max(min(0, -1.2+max(0, -x-2)), -1.2+max(0, x-2)) })
		}, 15, "no top of a bank within 15 m on the right"},
		{"void beside the bed", func() (*raster.Grid, Profile) { return holed(-9, -3) }, 15, "no data beyond 2 m on the right, and no top of a bank before it"},
		{"void on the bed", func() (*raster.Grid, Profile) { return holed(-1, 1) }, 15, "no data at the bed"},
		{"all void", func() (*raster.Grid, Profile) { return holed(-40, 40) }, 15, "no data at the bed"},
	}
	for _, tt := range tests {
		g, p := tt.given()
		sections := Sections(g, p, SectionConfig{SpacingM: 5, ReachM: tt.reachM})
		if len(sections) == 0 {
			t.Errorf("%s: no sections", tt.name)
		}
		for _, s := range sections {
			if s.Resolved || !strings.Contains(s.Why, tt.why) {
				t.Errorf("%s, station %v: resolved %v, %q; want %q", tt.name, s.StationM, s.Resolved, s.Why, tt.why)
			}
			if err := s.check(); err != nil {
				t.Errorf("%s: %v", tt.name, err)
			}
		}
	}
}

func TestTheBankThatIsSeenIsTold(t *testing.T) {
	// Left a bank of 2 m, right a hillside of 1 : 1 that begins at the toe.
	g, p := land(0.5, 0, 1, func(x float64) float64 { return max(min(0, -2+max(0, -x-2)), -2+max(0, x-2)) })
	for _, s := range Sections(g, p, reach) {
		if !math.IsNaN(s.Right.HeightM) || !math.IsNaN(s.DepthM) || math.Abs(s.Left.HeightM-2) > 0.05 || math.Abs(s.Left.Slope-1) > 0.1 {
			t.Errorf("station %v: left %+v, right %+v, depth %v", s.StationM, s.Left, s.Right, s.DepthM)
		}
	}
}

func TestOddProfiles(t *testing.T) {
	g, p := trench{bedM: 3, run: 1, depthM: 1.2}.draw(1, 0, 1)
	some := func(n int) Profile { return Profile{Stations: p.Stations[:n]} }
	nan := math.NaN()
	tests := []struct {
		name string
		p    Profile
		cfg  SectionConfig
		want int
	}{
		{"zero settings", p, SectionConfig{}, 0},
		{"no spacing", p, SectionConfig{ReachM: 15}, 0},
		{"no reach", p, SectionConfig{SpacingM: 5}, 0},
		{"NaN", p, SectionConfig{SpacingM: nan, ReachM: nan}, 0},
		{"negative", p, SectionConfig{SpacingM: -5, ReachM: -15}, 0},
		{"reach under a sample", p, SectionConfig{SpacingM: 5, ReachM: 0.4}, 0},
		{"empty", Profile{}, reach, 0},
		{"one station", some(1), reach, 0},
		{"one station and yet a length", Profile{Stations: []Station{{StationM: 9}}}, reach, 0},
		{"two stations in one place", Profile{Stations: []Station{p.Stations[0], p.Stations[0]}}, reach, 0},
		{"two stations", some(2), reach, 1},
		{"spacing under two cells", some(21), SectionConfig{SpacingM: 0.1, ReachM: 10}, 10},
		{"spacing over the length", p, SectionConfig{SpacingM: math.Inf(1), ReachM: 10}, 1},
		{"reach without end", some(11), SectionConfig{SpacingM: 5, ReachM: math.Inf(1)}, 2},
	}
	for _, tt := range tests {
		sections := Sections(g, tt.p, tt.cfg)
		if len(sections) != tt.want {
			t.Errorf("%s: %d sections, want %d", tt.name, len(sections), tt.want)
		}
		for i := range sections {
			if err := sections[i].check(); err != nil {
				t.Errorf("%s: %v", tt.name, err)
			}
		}
	}
}

func TestNoSectionWhereNoBedIsSeen(t *testing.T) {
	g, p := trench{bedM: 3, run: 1, depthM: 1.2}.draw(1, 0, 1)
	for i := 20; i <= 30; i++ {
		p.Stations[i].NoBed = true
	}
	sections := Sections(g, p, SectionConfig{SpacingM: 2, ReachM: 15})
	for _, s := range sections {
		if s.StationM >= 19.5 && s.StationM <= 30.5 {
			t.Errorf("a section at %v m, where no bed is seen from 20 to 30 m", s.StationM)
		}
	}
	if len(sections) != 20 { // every 2 m from 1 to 49 without those at 21 to 29
		t.Errorf("%d sections, want 20", len(sections))
	}
}

func TestSectionsOfAnyGround(t *testing.T) {
	rapid.Check(t, func(r *rapid.T) {
		cellM := rapid.SampledFrom([]float64{0.5, 1, 3}).Draw(r, "cell")
		side := rapid.IntRange(1, 40).Draw(r, "side")
		relief := rapid.SampledFrom([]int32{1, 50, 3000, 1_000_000_000}).Draw(r, "relief")
		seed := rapid.Uint64().Draw(r, "seed")
		g := rastertest.Random(seed, side, side, relief)
		if rapid.Bool().Draw(r, "smooth") {
			g = rastertest.Fractal(seed, side, side, min(relief, 100_000))
		}
		if every := rapid.IntRange(0, 60).Draw(r, "voids"); every > 1 {
			for i := 0; i < len(g.MM); i += every {
				g.MM[i] = raster.VoidMM
			}
		}
		g.Transform.CellM = cellM
		var p Profile
		x, y, s := g.Transform.OriginX, g.Transform.OriginY, 0.0
		for range rapid.IntRange(0, 40).Draw(r, "stations") {
			p.Stations = append(p.Stations, Station{StationM: s, X: x, Y: y, NoBed: rapid.IntRange(0, 9).Draw(r, "no bed") == 0})
			dx, dy := rapid.Float64Range(-3, 9).Draw(r, "east"), rapid.Float64Range(-9, 3).Draw(r, "north")
			x, y, s = x+dx, y+dy, s+math.Hypot(dx, dy)
		}
		cfg := SectionConfig{SpacingM: rapid.Float64Range(0, 20).Draw(r, "spacing"), ReachM: rapid.Float64Range(0, 40).Draw(r, "reach")}
		was := 0.0
		for _, s := range Sections(g, p, cfg) {
			if err := s.check(); err != nil {
				r.Fatal(err)
			}
			if s.StationM <= was {
				r.Fatalf("station %v after %v", s.StationM, was)
			}
			was = s.StationM
		}
	})
}
