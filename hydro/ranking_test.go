package hydro

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"siltstep/hydro/channel"
	"siltstep/hydro/erosion"
	"siltstep/raster"
)

// judged is a plan of n drainages on cells of 1 m, D01 the worst, all alike but for their rank: sections
// resolved, measures of incision agreed, ranks firm, eroding, and the shear of a storm known.
func judged(n int) *Plan {
	p := &Plan{Grid: &raster.Grid{Transform: raster.Transform{CellM: 1}}, Network: &channel.Network{}, Config: Defaults()}
	p.Config.Erosion.Material = "some"
	for i := range n {
		p.Network.Drainages = append(p.Network.Drainages, channel.Drainage{ID: fmt.Sprintf("D%02d", i+1)})
		p.Sections = append(p.Sections, []channel.Section{{StationM: 5, Resolved: true}, {StationM: 10, Resolved: true}})
		steady := 1.0
		if i >= erosion.SteadyFirst {
			steady = 0
		}
		p.Erosion = append(p.Erosion, erosion.Judgement{
			Depths:   erosion.Depths{MeanM: 1, DisagreeM: 0.1, KnownShare: 1, ResolvedShare: 0.5},
			Power:    erosion.Power{ShearRatio: 2},
			Severity: erosion.Severity{Total: 50, Class: erosion.Eroding, Rank: i + 1, Steady: steady},
		})
	}
	return p
}

func TestFindingsOfErosion(t *testing.T) {
	nan := math.NaN()
	hide := func(p *Plan, i int) { p.Erosion[i].Severity = erosion.Severity{Total: nan, Steady: nan} }
	noStorm := func(p *Plan) {
		for i := range p.Erosion {
			p.Erosion[i].Power.ShearRatio = nan
		}
	}
	blur := func(p *Plan, i int) {
		p.Sections[i][0] = channel.Section{StationM: 5, Why: "too narrow"}
		p.Sections[i][1] = channel.Section{StationM: 10, Why: "too flat"}
	}
	makeSound := func(p *Plan, i int) { p.Erosion[i].Severity.Class = erosion.Sound }
	tests := []struct {
		name   string
		n      int
		change func(*Plan)
		rule   string // of the one finding; empty for none
		texts  []string
	}{
		{"nothing to say", 12, func(*Plan) {}, "", nil},
		{"no drainage", 0, func(*Plan) {}, "", nil},
		{"no storm", 2, noStorm, FindingShear, []string{"no storm was given. The part shear is empty (null)"}},
		{"no storm, no material", 2, func(p *Plan) { noStorm(p); p.Config.Erosion.Material = "" }, FindingShear,
			[]string{"no storm was given and no bed material was chosen"}},
		{"shear left out by choice", 2, func(p *Plan) { noStorm(p); p.Config.Erosion.Shear.Weight = 0 }, "", nil},
		{"shear of some is known", 2, func(p *Plan) { p.Erosion[0].Power.ShearRatio = nan }, FindingShear, []string{"1 of 2 drainages is without", "D01"}},
		{"half resolved", 2, func(p *Plan) { blur(p, 1) }, "", nil},
		// 2 of 6.
		{"a third resolved", 3, func(p *Plan) { blur(p, 1); blur(p, 2) }, FindingSections,
			[]string{"resolved: 2 of 6 (33 %)", "in D02 at 5.0 m: too narrow.", "by the land within the window of the top-hat alone"}},
		{"no section", 1, func(p *Plan) { p.Sections[0] = nil }, FindingSections, []string{"No cross-section was taken"}},
		{"cells of 2 m", 1, func(p *Plan) { p.Grid.Transform.CellM = 2 }, "", nil},
		{"cells of 3 m, all resolved", 1, func(p *Plan) { p.Grid.Transform.CellM = 3 }, FindingSections,
			[]string{"resolved: 2 of 2 (100 %)", "Cells of 3 m lose what is small: a channel narrower than some 9 m", "cells of 2 m or finer"}},
		{"two not judged", 3, func(p *Plan) { hide(p, 0); hide(p, 2) }, FindingUnjudged, []string{"Not judged: D01, D03.", "less than 10 %", "not to say that they are sound"}},
		{"many not judged", 14, func(p *Plan) {
			for i := range 14 {
				hide(p, i)
			}
		}, FindingUnjudged, []string{"D09, D10 and 4 more."}},
		{"firm enough", 12, func(p *Plan) { p.Erosion[9].Severity.Steady, p.Erosion[10].Severity.Steady = 0.81, 0.19 }, "", nil},
		{"loose", 12, func(p *Plan) { p.Erosion[9].Severity.Steady, p.Erosion[11].Severity.Steady = 0.6, 0.4 }, FindingSteady,
			[]string{"varied by what they may be off, 200 times", "not in every draw: D10 (60 %).", "yet often among them: D12 (40 %)."}},
		// 0.5 m of 1 m, 0.9 of 1.
		{"measures differ", 4, func(p *Plan) { p.Erosion[1].Depths.DisagreeM, p.Erosion[3].Depths.DisagreeM = 0.5, 0.9 }, FindingMeasures,
			[]string{"D04 (0.90 m), D02 (0.50 m).", "within 15 m"}},
		{"differ by less than half of the depth", 1, func(p *Plan) { p.Erosion[0].Depths.DisagreeM, p.Erosion[0].Depths.MeanM = 0.6, 1.3 }, "", nil},
		{"shallow and differ by less than 0.5 m", 1, func(p *Plan) { p.Erosion[0].Depths.DisagreeM, p.Erosion[0].Depths.MeanM = 0.49, 0.1 }, "", nil},
		{"measures never meet", 1, func(p *Plan) { p.Erosion[0].Depths.DisagreeM = nan }, "", nil},
		{"watched for a piece", 3, func(p *Plan) { p.Erosion[1].Severity.WornM = 84 }, FindingWorn, []string{"Watched for one piece: D02 (84 m).", "cut 0.3 m or more, and 1 m in the mean or with a headcut"}},
		{"not judged on cells over half the window", 2, func(p *Plan) {
			p.Grid.Transform.CellM, p.Config.Erosion.WindowM = 2, 3.9
			hide(p, 0)
		}, FindingUnjudged, []string{"Cells of 2 m, larger than half the window (erosion.window, 3.9 m)", "bring finer data"}},
		{"one sound", 3, func(p *Plan) { makeSound(p, 1) }, FindingSound, []string{"1 of 3 drainages look sound as a whole, with a severity below 20: D02. Elsewhere nothing"}},
		{"all sound", 2, func(p *Plan) { makeSound(p, 0); makeSound(p, 1) }, FindingSound, []string{"All drainages look sound as a whole, with a severity below 20: D01, D02."}},
		// Half of the 200 m that are known of 400 m.
		{"sound with cut pieces", 3, func(p *Plan) {
			for i, share := range []float64{0.5, 1, 0.14} {
				makeSound(p, i)
				p.Network.Drainages[i].Profile.Stations = []channel.Station{{}, {StationM: 400}}
				p.Erosion[i].Depths.IncisedShare, p.Erosion[i].Depths.KnownShare = share, 0.5
			}
		}, FindingSound, []string{"of some are cut, which the mean over their length hides: D02 (200 m), D01 (100 m). Look"}},
		{"sound, some without sections", 3, func(p *Plan) {
			makeSound(p, 0)
			makeSound(p, 1)
			p.Erosion[0].Depths.ResolvedShare, p.Erosion[2].Depths.ResolvedShare = 0.49, 0
		}, FindingSound, []string{"In 1 fewer than half", "Elsewhere nothing"}},
		{"sound, none with sections", 1, func(p *Plan) { makeSound(p, 0); p.Erosion[0].Depths.ResolvedShare = nan }, FindingSound,
			[]string{"D01. In 1 fewer than half of the cross-sections are resolved, so that a gully may be there and not show: walk those, or bring finer data, before they are left."}},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			p := judged(tt.n)
			tt.change(p)
			var got []Finding
			for _, tell := range []func(*Plan) (Finding, bool){noShear, sections, notJudged, unsteady, measuresDiffer, worn, sound} {
				if f, ok := tell(p); ok {
					got = append(got, f)
				}
			}
			if tt.rule == "" && len(got) > 0 || tt.rule != "" && (len(got) != 1 || got[0].Rule != tt.rule) {
				t.Fatalf("findings %+v, want %q alone", got, tt.rule)
			}
			for _, text := range tt.texts {
				if !strings.Contains(got[0].Text, text) {
					t.Errorf("%q, want %q in it", got[0].Text, text)
				}
			}
		})
	}
}
