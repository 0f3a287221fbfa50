package hydro

import (
	"math"
	"strings"
	"testing"

	"siltstep/hydro/checkdam"
	"siltstep/hydro/erosion"
	"siltstep/hydro/siting"
)

// byMode returns the weakness of a mode, also where it is not among the first three; ok is false where there is none.
func byMode(p *Plan, dam int, mode FailureMode) (Weakness, bool) {
	w := weak{&p.Layouts[0].Sites[dam], &p.Designs[0][dam], p.Layouts[0].Sites[:dam]}
	for _, r := range []Weakness{w.peak(), w.notch(), w.flank(), w.stone(), w.apron(), w.headcut(p.Erosion[0].Headcuts), w.toe(p.Network.Drainages[0].Profile.Stations), w.catchment()} {
		if r.Mode == mode && r.Margin < 1 {
			return r, true
		}
	}
	return Weakness{}, false
}

func TestWeaknessByMode(t *testing.T) {
	tests := []struct {
		name   string
		dam    int
		mode   FailureMode
		change func(p *Plan, d *Design)
		margin float64 // NaN: no such weakness
		text   string  // in it
	}{
		{"peak known", 0, FailPeak, func(p *Plan, d *Design) {}, math.NaN(), ""},
		{"peak not known", 0, FailPeak, func(p *Plan, d *Design) { d.PeakM3s, d.noPeak = math.NaN(), whyNoRain }, 0, "No rainfall was given"},
		// 0.3 m of bank less the 0.2 m that are gone: 0.1 of 0.3.
		{"low bank", 0, FailFlank, func(p *Plan, d *Design) { d.Dam.TopM = 1.4 }, 0.1 / 0.3, "only 0.10 m above the wings"},
		{"high bank", 0, FailFlank, func(p *Plan, d *Design) {}, math.NaN(), ""},
		{"bank below the wings", 0, FailFlank, func(p *Plan, d *Design) { d.Dam.TopM = 1.6 }, -0.1 / 0.3, "ends 0.10 m below"},
		{"no section", 0, FailFlank, func(p *Plan, d *Design) { d.Dam = nil }, 0, "not known"},
		{"stone of 0.24 m", 0, FailStone, func(p *Plan, d *Design) { d.Dam.StoneM = 0.24 }, 0.2, "stone of 0.24 m, and 0.30 m"},
		{"no method of stone", 0, FailStone, func(p *Plan, d *Design) { d.Dam.StoneM = math.NaN() }, 0, "No method"},
		{"stone in wire", 0, FailStone, func(p *Plan, d *Design) { d.Dam.StoneM, d.Dam.Request.Kind = 0.24, checkdam.Gabion }, math.NaN(), ""},
		// 0.6 m, 0.06·1.2 m and the head of 0.128 m: 0.8 of 1.2 m.
		{"fall", 0, FailApron, func(p *Plan, d *Design) { d.Dam.Notch.HeadM = 0.128 }, 1 - 0.8/1.2, "Water falls 0.80 m"},
		{"headcut 12 m below", 0, FailHeadcut, func(p *Plan, d *Design) {
			p.Erosion[0].Headcuts = []erosion.Headcut{{StationM: 8, HeightM: 0.7, Cause: erosion.CauseHeadcut}}
		}, 12.0 / 30, "A headcut of 0.7 m stands 12.0 m below"},
		{"headcut above", 0, FailHeadcut, func(p *Plan, d *Design) {
			p.Erosion[0].Headcuts = []erosion.Headcut{{StationM: 40, HeightM: 0.7, Cause: erosion.CauseHeadcut}}
		}, math.NaN(), ""},
		{"step at a road", 0, FailHeadcut, func(p *Plan, d *Design) {
			p.Erosion[0].Headcuts = []erosion.Headcut{{StationM: 8, HeightM: 0.7, Cause: erosion.CauseRoad}}
		}, math.NaN(), ""},
		{"headcut under the silt of the dam below", 1, FailHeadcut, func(p *Plan, d *Design) {
			p.Erosion[0].Headcuts = []erosion.Headcut{{StationM: 25, HeightM: 0.7, Cause: erosion.CauseHeadcut}}
		}, math.NaN(), ""},
		{"lowest dam", 0, FailToe, func(p *Plan, d *Design) { p.Layouts[0].Sites[0].Base = siting.OnFooter }, 0.3, "give it a footer"},
		{"lowest dam at a confluence", 0, FailToe, func(p *Plan, d *Design) { p.Layouts[0].Sites[0].Base = siting.OnConfluence }, 0.6, "drainage that it joins"},
		{"lowest dam on rock", 0, FailToe, func(p *Plan, d *Design) { p.Layouts[0].Sites[0].Base = siting.OnDeclared }, math.NaN(), ""},
		{"silt to the toe", 1, FailToe, func(p *Plan, d *Design) {}, math.NaN(), ""},
		// The toe is 2 m below the axis at 30 m; from 26 m to it the bed falls 0.12 m of 0.3.
		{"silt 2 m short of the toe", 1, FailToe, func(p *Plan, d *Design) { p.Layouts[0].Sites[0].WedgeEndM = 26 }, 1 - 0.12/0.3, "2.0 m short of its toe, and the bed between falls 0.12 m"},
		{"the lowest of the next series", 1, FailToe, func(p *Plan, d *Design) { p.Layouts[0].Sites[0].WedgeEndM, p.Layouts[0].Sites[1].Series = 21, 2 }, 0.3, "lowest dam of its series"},
		{"three of four hectares", 0, FailCatchment, func(p *Plan, d *Design) { p.Layouts[0].Sites[0].CatchmentM2 = 30_000 }, 0.25, "3.0 ha drain to it"},
		// A parabola or trapezoid at its full depth carries so many times the peak that is left to the test below.
		{"notch below the highest peak", 0, FailNotch, func(p *Plan, d *Design) { d.HighM3s = 2 * d.Dam.Notch.FlowM3s(d.Dam.Notch.DepthM) }, -0.5, "The notch carries"},
		{"notch for half as much again", 0, FailNotch, func(p *Plan, d *Design) {
			d.PeakM3s = d.Dam.Notch.FlowM3s(d.Dam.Notch.DepthM) / 1.5
			d.HighM3s = d.PeakM3s
		}, 0.5, "1.5 times the highest peak"},
		{"notch for three times the peak", 0, FailNotch, func(p *Plan, d *Design) {
			d.PeakM3s = d.Dam.Notch.FlowM3s(d.Dam.Notch.DepthM) / 3
			d.HighM3s = d.PeakM3s
		}, math.NaN(), ""},
	}
	for _, tt := range tests {
		p := twoDams(t)
		tt.change(p, &p.Designs[0][tt.dam])
		got, ok := byMode(p, tt.dam, tt.mode)
		switch {
		case ok == math.IsNaN(tt.margin):
			t.Errorf("%s: %+v %v, want margin %g", tt.name, got, ok, tt.margin)
		case ok && (math.Abs(got.Margin-tt.margin) > 1e-6 || !strings.Contains(got.Text, tt.text)):
			t.Errorf("%s: %+v, want margin %g and %q", tt.name, got, tt.margin, tt.text)
		}
	}
}

func TestTheNearestToItsLimitComesFirst(t *testing.T) {
	p := twoDams(t)
	p.Designs[0][0].Dam.TopM = 1.6                                                                       // beyond its limit
	p.Layouts[0].Sites[0].CatchmentM2 = 38_000                                                           // margin 0.05
	p.Erosion[0].Headcuts = []erosion.Headcut{{StationM: 17, HeightM: 0.5, Cause: erosion.CauseHeadcut}} // 0.1
	var got []FailureMode
	last := 0.0
	for _, w := range p.WeaknessesAt(0, 0) {
		got = append(got, w.Mode)
		if w.Margin < last {
			t.Errorf("%+v after a margin of %g", w, last)
		}
		last = w.Margin
	}
	if want := []FailureMode{FailFlank, FailCatchment, FailHeadcut}; len(got) != 3 || got[0] != want[0] || got[1] != want[1] || got[2] != want[2] {
		t.Errorf("%v, want %v", got, want)
	}
	if all := p.WeaknessesAt(0, 0); all[0].Margin != 0 {
		t.Errorf("beyond its limit the margin is %g, want 0", all[0].Margin)
	}
}
