package hydro

import (
	"context"
	"math"
	"strings"
	"testing"

	"siltstep/hydro/channel"
	"siltstep/hydro/checkdam"
	"siltstep/hydro/erosion"
	"siltstep/hydro/siting"
	"siltstep/hydro/storm"
	"siltstep/raster"
	"siltstep/raster/rastertest"

	"github.com/paulmach/orb"
)

// twoDams is a plan of two dams of 0.6 m on 6 %, 10 m apart, of which nothing speaks against the lower one: cells of 1 m that err by
// 0.03 m, a cross-section beside each axis, banks of 1.5 m, a rain table and two methods that agree within a third.
func twoDams(t *testing.T) *Plan {
	t.Helper()
	cfg := Defaults()
	cfg.Storm.Rain.Table = &storm.Table{}
	shape, err := checkdam.TrapezoidSection(2, 1, 1.5)
	if err != nil {
		t.Fatal(err)
	}
	p := &Plan{
		Grid: &raster.Grid{Transform: raster.Transform{CellM: 1}}, NoiseM: 0.03, Config: cfg,
		Network: &channel.Network{Drainages: []channel.Drainage{{ID: "D01", Profile: channel.Profile{Stations: evenBed(60, 0.06)}}}},
		Erosion: make([]erosion.Judgement, 1), Sections: make([][]channel.Section, 1), Layouts: make([]siting.Layout, 1), Designs: make([][]Design, 1),
	}
	for i := range p.Network.Drainages[0].Profile.Stations {
		p.Network.Drainages[0].Profile.Stations[i].Cell = i
	}
	for k, m := range []float64{20, 30} {
		s := siting.Site{ID: "D01-0" + string(rune('1'+k)), Series: 1, StationM: m, Cell: int(m), BedM: 100 + 0.06*m, SillM: 100.6 + 0.06*m, EffectiveHeightM: 0.6, Slope: 0.06, CatchmentM2: 10_000, WedgeEndM: m + 10, BodyUpM: 1, BodyDownM: 2}
		dam, err := checkdam.Size(checkdam.Request{Kind: checkdam.LooseRock, HeightM: 0.6, Slope: 0.06, Section: shape, PeakM3s: 0.2, FaceUp: math.NaN(), FaceDown: math.NaN()})
		if err != nil {
			t.Fatal(err)
		}
		p.Layouts[0].Sites = append(p.Layouts[0].Sites, s)
		p.Designs[0] = append(p.Designs[0], Design{PeakM3s: 0.2, LowM3s: 0.15, HighM3s: 0.2, Dam: &dam})
		bank := channel.Bank{HeightM: 1.5}
		p.Sections[0] = append(p.Sections[0], channel.Section{StationM: m + 1, Resolved: true, DepthM: 1.5, BedWidthM: 2, TopWidthM: 5, AreaM2: 5.25, Left: bank, Right: bank, Fit: channel.Trapezoid{ResidualM: 0.05}})
	}
	return p
}

func TestConfidenceByRule(t *testing.T) {
	tests := []struct {
		name   string
		change func(p *Plan, d *Design)
		want   Level
		check  string // begins so; empty where only the level of the next sill is to be checked
	}{
		{"nothing speaks against it", func(p *Plan, d *Design) {}, LevelHigh, ""},
		{"cells of 1.5 m", func(p *Plan, d *Design) { p.Grid.Transform.CellM = 1.5 }, LevelMedium, "Find the lowest line"},
		{"cells of 2.1 m", func(p *Plan, d *Design) { p.Grid.Transform.CellM = 2.1 }, LevelLow, "Find the lowest line"},
		{"error of a fifth of the height", func(p *Plan, d *Design) { p.NoiseM = 0.12 }, LevelMedium, "Level bed and bank tops: heights of the elevation model err by 0.12 m"},
		{"error of a third of the height", func(p *Plan, d *Design) { p.NoiseM = 0.2 }, LevelLow, "Level bed and bank tops"},
		{"error not known", func(p *Plan, d *Design) { p.NoiseM = math.NaN() }, LevelMedium, "Level bed and bank tops: how far"},
		{"section 4 m away", func(p *Plan, d *Design) { p.Sections[0][0].StationM = 16 }, LevelMedium, "Measure bed width, top width and banks at the axis: the cross-section is from station 16.0 m"},
		{"section out of reach", func(p *Plan, d *Design) { p.Sections[0] = nil }, LevelLow, "Measure a cross-section here"},
		{"no design", func(p *Plan, d *Design) { d.Dam = nil }, LevelLow, "Measure a cross-section here"},
		{"rough section", func(p *Plan, d *Design) { p.Sections[0][0].Fit.ResidualM = 0.3 }, LevelMedium, "Measure the cross-section point by point: it differs from a plain shape by 0.30 m"},
		{"very rough section", func(p *Plan, d *Design) { p.Sections[0][0].Fit.ResidualM = 0.6 }, LevelLow, "Measure the cross-section point by point"},
		{"wings to nine tenths of the bank", func(p *Plan, d *Design) { d.Dam.TopM = 1.35 }, LevelMedium, "Measure both banks: the wings stand 1.35 m above the bed, the lower bank 1.50 m"},
		{"wings above the bank", func(p *Plan, d *Design) { d.Dam.TopM = 1.6 }, LevelLow, "Measure both banks"},
		{"methods differ three times", func(p *Plan, d *Design) { d.LowM3s = 0.2 / 3 }, LevelMedium, "Look for flood marks and compare them with the notch: methods differ 3.0 times"},
		{"methods differ five times", func(p *Plan, d *Design) { d.LowM3s = 0.04 }, LevelLow, "Look for flood marks"},
		{"one method", func(p *Plan, d *Design) { d.LowM3s = 0.2 }, LevelMedium, "Look for flood marks and compare them with the notch: only one method"},
		{"rain by hand", func(p *Plan, d *Design) { p.Config.Storm.Rain = storm.Rain{DepthMM: 40} }, LevelMedium, "Compare the rain"},
		{"no peak", func(p *Plan, d *Design) { d.Dam.Notch = nil }, LevelLow, "Find the storm peak"},
		{"water from beyond the data", func(p *Plan, d *Design) { p.Network.Drainages[0].Profile.Stations[20].Truncated = true }, LevelLow, "Find out what flows in"},
		{"a pond above", func(p *Plan, d *Design) { p.Network.Drainages[0].Profile.Stations[50].NoBed = true }, LevelMedium, "Walk up the drainage"},
		{"a pond below", func(p *Plan, d *Design) { p.Network.Drainages[0].Profile.Stations[5].NoBed = true }, LevelHigh, ""},
		{"a pond above, and roads declared", func(p *Plan, d *Design) {
			p.Network.Drainages[0].Profile.Stations[50].NoBed = true
			p.Config.Flow.Features.Roads = []orb.LineString{{{0, 0}, {1, 1}}}
		}, LevelHigh, ""},
	}
	for _, tt := range tests {
		p := twoDams(t)
		tt.change(p, &p.Designs[0][0])
		c := p.ConfidenceAt(0, 0)
		last := c.Checks[len(c.Checks)-1]
		if c.Level != tt.want || !strings.HasPrefix(c.Checks[0], tt.check) || tt.check == "" && len(c.Checks) > 1 {
			t.Errorf("%s: %+v, want %s and %q", tt.name, c, tt.want, tt.check)
		}
		if want := "Level the sill against the bed at the next dam, D01-02, 10.0 m upstream: by the elevation model that bed lies level with the sill."; last != want {
			t.Errorf("%s: last of all %q", tt.name, last)
		}
	}
}

func TestChecksAreFewAndTheWorstFirst(t *testing.T) {
	p := twoDams(t)
	p.Grid.Transform.CellM, p.NoiseM, p.Sections[0][0].Fit.ResidualM, p.Designs[0][0].LowM3s, p.Designs[0][0].Dam.TopM = 1.5, 0.12, 0.3, 0.2/3, 1.6
	c := p.ConfidenceAt(0, 0)
	if len(c.Checks) != mostChecks || c.Level != LevelLow || !strings.HasPrefix(c.Checks[0], "Measure both banks") {
		t.Errorf("%+v", c)
	}
	if top := twoDams(t).ConfidenceAt(0, 1); top.Level != LevelHigh || len(top.Checks) != 0 {
		t.Errorf("the highest dam: %+v", top)
	}
}

func TestNextBedOffTheSillIsTold(t *testing.T) {
	for off, want := range map[float64]string{0.123: "lies 0.12 m above the sill.", -0.05: "lies 0.05 m below the sill.", 0.004: "lies level with the sill."} {
		p := twoDams(t)
		p.Layouts[0].Sites[1].BedM = p.Layouts[0].Sites[0].SillM + off
		if got := p.ConfidenceAt(0, 0).Checks[0]; !strings.HasSuffix(got, want) {
			t.Errorf("%q, want %q", got, want)
		}
	}
}

// Confidence, weaknesses, loads, gradients and time lines go with a whole plan, and nothing of them is a number that cannot be.
func TestPlanIsJudgedDamByDam(t *testing.T) {
	cfg := Defaults()
	cfg.Works.Yield = checkdam.Yield{LowM3PerHa: 0.5, HighM3PerHa: 3}
	cfg.Gully.FormationYears = 50
	// A valley with a ditch 1 m deep and 5 m wide that falls 3 %.
	g := rastertest.Surface(81, 200, 1, func(col, row int) int32 {
		off := math.Abs(float64(col - 40))
		z := 200 + 0.1*off - 0.03*float64(row)
		if off < 2.5 {
			z--
		}
		return int32(math.Round(1000 * z))
	})
	p, err := Analyze(context.Background(), g, cfg, nil, nil)
	if err != nil {
		t.Fatal(err)
	}
	if p.Totals.Dams == 0 {
		t.Fatal("no dams")
	}
	for i := range p.Network.Drainages {
		l := p.GullyLoadOf(i)
		if l.LengthM+l.UnresolvedM > p.Network.Drainages[i].Profile.LengthM()+1e-6 || l.AvoidedYearT > l.YearT || !(l.VoidLowM3 <= l.VoidM3 && l.VoidM3 <= l.VoidHighM3) {
			t.Errorf("load %+v", l)
		}
		// The ditch holds 5 m² and more, its floor a V 0.25 m deep on the average, less what the corners lose to cells of 1 m.
		if mean := l.VoidM3 / l.LengthM; mean < 4 || mean > 7 {
			t.Errorf("%.2f m² of void", mean)
		}
		for k := range p.Layouts[i].Sites {
			if c := p.ConfidenceAt(i, k); c.Level != LevelLow || len(c.Checks) == 0 { // no storm
				t.Errorf("%+v", c)
			}
			for _, w := range p.WeaknessesAt(i, k) {
				if !(w.Margin >= 0 && w.Margin < 1) || strings.Contains(w.Text, "NaN") {
					t.Errorf("%+v", w)
				}
			}
		}
		grades := p.GradientsOf(i)
		all := grades[len(grades)-1]
		if math.Abs(all.LengthM-p.Layouts[i].TreatedM) > 1e-6 || math.Abs(all.Before-0.03) > 0.003 || all.After != 0 {
			t.Errorf("gradient %+v, treated %g m", all, p.Layouts[i].TreatedM)
		}
		if lines := p.FillingOf(i); len(lines) != 5*(len(grades)) {
			t.Errorf("%d lines for %d series", len(lines), len(grades)-1)
		}
	}
	screened, err := Screen(context.Background(), g, cfg, nil)
	if err != nil {
		t.Fatal(err)
	}
	if l := screened.GullyLoadOf(0); !math.IsNaN(l.TreatedM) || !math.IsNaN(l.AvoidedYearT) || !(l.YearT > 0) || screened.GradientsOf(0) != nil || screened.FillingOf(0) != nil {
		t.Errorf("screened: %+v", l)
	}
}
