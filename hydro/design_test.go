package hydro_test

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"

	"siltstep/hydro"
	"siltstep/hydro/checkdam"
	"siltstep/hydro/flow"
	"siltstep/hydro/siting"
	"siltstep/hydro/storm"
	"siltstep/raster"
	"siltstep/raster/rastertest"
)

// ditch is a V valley on cells of 1 m that runs south at 3 %, with sides of 10 % and along its middle a trench 5 m wide that
// lies depthM lower, its floor a V as well. It has 60 m to either side; its northern divide is row 3. Each row sends
// 120 cells to the middle: 60 from the west with its ridge, 59 from the east, and itself.
func ditch(depthM float64) *raster.Grid {
	const strip, half, side, slope = 3, 60, 0.1, 0.03
	return rastertest.Surface(2*(half+strip)+1, 400+strip, 1, func(col, row int) int32 {
		off := math.Abs(float64(col - half - strip))
		z := side * (half - math.Abs(off-half))
		if off < 2.5 {
			z -= depthM
		}
		return int32(math.Round(1000 * (200 + z - slope*math.Abs(float64(row-strip)))))
	})
}

// rainy gives a storm for the rational method, and a bed rough enough that the floor of the time of concentration does not
// act in a long ditch.
func rainy(c *hydro.Config) {
	c.Storm = hydro.Storm{Rain: storm.Rain{Curve: &storm.Curve{A: 1000, B: 10, C: 0.8, ShortestMin: 5, LongestMin: 1440}}, RunoffCoefficient: 0.35}
	c.Erosion.Roughness = 0.1
}

// ditchPeakM3s is the rational peak at the middle of a row of a ditch 1 m deep. Down to row 23, where 2,520 cells make the first
// channel, water runs 60 + 20 = 80 m and falls 6 + 1 + 0.6 = 7.6 m as shallow flow, at 16.1345 ft/s·√0.095; below it in the channel by
// Manning, 0.3^(2/3)·√0.03/0.1.
func ditchPeakM3s(row int) float64 {
	hillS := 80 / (16.1345 * 0.3048 * math.Sqrt(7.6/80))
	channelS := float64(row-23) / (math.Pow(0.3, 2.0/3) * math.Sqrt(0.03) / 0.1)
	minutes := max(6, (hillS+channelS)/60)
	mmh := 1000 / math.Pow(minutes+10, 0.8)
	ha := 120 * float64(row-2) / 10_000
	return 0.35 * mmh * ha / 360
}

func TestPeakAtADamByHand(t *testing.T) {
	// Row 323: 80 m at 1.516 m/s is 52.8 s, 300 m at 0.776 m/s is 386.5 s; 7.32 min gives 102.1 mm/h; 321 rows are 3.852 ha;
	// 0.35·102.1·3.852/360 = 0.3825 m³/s.
	if got := ditchPeakM3s(323); math.Abs(got-0.3825) > 0.0002 {
		t.Fatalf("by hand %.4f m³/s", got)
	}
	p := analyze(t, ditch(1), rainy, nil)
	if p.Totals.Dams < 5 {
		t.Fatalf("totals %+v", p.Totals)
	}
	checked := 0
	for k, s := range p.Layouts[0].Sites {
		d := p.Designs[0][k]
		col, row := p.Grid.ColRow(s.Cell)
		if col != 63 {
			continue // beside the middle there is less land
		}
		checked++
		// 0.2 %: times are interpolated, and the path is a little shorter where it turns into the ditch.
		if want := ditchPeakM3s(row); math.Abs(d.PeakM3s/want-1) > 0.002 {
			t.Errorf("%s, row %d: peak %.4f m³/s, want %.4f; catchment %g m²", s.ID, row, d.PeakM3s, want, s.CatchmentM2)
		}
		if d.Method != storm.MethodRational || d.LowM3s != d.PeakM3s || d.HighM3s != d.PeakM3s || d.Why != "" {
			t.Errorf("%s: %+v", s.ID, d)
		}
		if d.Dam == nil || d.Dam.Notch == nil || !(d.Dam.Notch.CapacityM3s >= d.PeakM3s*(1-1e-9)) || !(d.Dam.StoneM > 0) {
			t.Errorf("%s: no notch that holds the peak: %+v", s.ID, d.Dam)
		}
	}
	if checked < 5 {
		t.Errorf("%d dams in the middle", checked)
	}
	// The cells of the last row leave over the edge, but the middle one.
	if got, want := p.OutletPeaksM3s[0], ditchPeakM3s(402)*(120*399+1)/(120*400); math.Abs(got/want-1) > 0.002 {
		t.Errorf("lower end: %.4f m³/s, want %.4f", got, want)
	}
	peaks := p.Erosion[0].Power.PeakM3s
	if got := peaks[0]; math.Abs(got/p.OutletPeaksM3s[0]-1) > 0.001 { // interpolated over 5 % of time
		t.Errorf("along the stations: %.5f m³/s at the lower end, else %.5f", got, p.OutletPeaksM3s[0])
	}
}

func TestSectionAtADam(t *testing.T) {
	p := analyze(t, ditch(1), nil, nil)
	for k, d := range p.Designs[0] {
		if d.Dam == nil {
			t.Fatalf("%s: %s", p.Layouts[0].Sites[k].ID, d.Why)
		}
		// From the middle to 3 m beside it the ground rises 0.3 m, and 1 m more at the trench: 1.3 m, within the noise
		// that is evened out and the half cell that sampling takes from a corner.
		if bank := d.Dam.Request.Section.BankHeightM(); math.Abs(bank-1.3) > 0.15 {
			t.Errorf("bank of %.2f m, want 1.3", bank)
		}
		if w := d.Dam.Request.Section.WidthM(0.6); math.Abs(w-5) > 1 {
			t.Errorf("%.2f m wide at the sill, want 5 within a cell", w)
		}
	}
}

func TestNoRainNoPeak(t *testing.T) {
	p := analyze(t, ditch(1), nil, nil)
	for _, d := range p.Designs[0] {
		if !math.IsNaN(d.PeakM3s) || !math.IsNaN(d.LowM3s) || !math.IsNaN(d.ConcentrationS) || !strings.Contains(d.Why, "no rainfall") {
			t.Errorf("%+v", d)
		}
		if d.Dam == nil || d.Dam.Notch != nil || d.Dam.Stones != nil || !(d.Dam.Rock.TotalM3 > 0) {
			t.Errorf("dam %+v", d.Dam)
		}
	}
	if !math.IsNaN(p.OutletPeaksM3s[0]) || p.Erosion[0].Power.PeakM3s != nil {
		t.Errorf("peaks %v and %v", p.OutletPeaksM3s, p.Erosion[0].Power.PeakM3s)
	}
	if p.Findings[0].Rule != hydro.FindingRain || !strings.Contains(p.Findings[0].Text, "up to the sill") {
		t.Errorf("finding %+v", p.Findings[0])
	}
	if rained := analyze(t, ditch(1), rainy, nil); told(rained, hydro.FindingRain) != "" {
		t.Error("rain was given and is missed")
	}
}

func TestTruncatedDamsHaveNoPeak(t *testing.T) {
	whole := ditch(1)
	g := rastertest.Surface(whole.Cols, whole.Rows-100, 1, func(col, row int) int32 { return whole.At(col, row+100) }) // cut below its head
	p := analyze(t, g, rainy, nil)
	for _, d := range p.Designs[0] {
		if !math.IsNaN(d.PeakM3s) || !strings.Contains(d.Why, "--inflow") {
			t.Errorf("%+v", d)
		}
	}
	want := fmt.Sprintf("%d of %d dams have no storm peak", p.Totals.Dams, p.Totals.Dams)
	if text := told(p, hydro.FindingTruncatedDams); !strings.HasPrefix(text, want) || p.Totals.Dams == 0 || !math.IsNaN(p.OutletPeaksM3s[0]) {
		t.Errorf("%q, want %q; lower end %v", text, want, p.OutletPeaksM3s)
	}
	closed := analyze(t, g, func(c *hydro.Config) { rainy(c); c.Flow.Edge = flow.EdgeClosed }, nil)
	if told(closed, hydro.FindingTruncatedDams) != "" || !(closed.OutletPeaksM3s[0] > 0) || !(closed.Designs[0][0].PeakM3s > 0) {
		t.Errorf("edge closed: %v", closed.OutletPeaksM3s)
	}
}

// asked is a dam that the field asks for on the first drainage.
func asked(stationM, heightM float64) func(*hydro.Config) {
	return func(c *hydro.Config) {
		rainy(c)
		nan := math.NaN()
		c.Edits.Asked = append(c.Edits.Asked, hydro.Asked{Row: "line 2", Action: siting.Built, Drainage: "D01", StationM: stationM, X: nan, Y: nan, HeightM: heightM})
	}
}

func TestDamsWithoutASectionAreCounted(t *testing.T) {
	// A valley without banks holds no dam but one that stands there already.
	if plain := analyze(t, valley(1, 0.05), rainy, nil); plain.Totals.Dams != 0 || !strings.Contains(fmt.Sprint(plain.Layouts[0].Reaches), "the ground has no banks there") {
		t.Errorf("totals %+v, reaches %v", plain.Totals, plain.Layouts[0].Reaches)
	}
	p := analyze(t, valley(1, 0.05), asked(100, 0.6), nil)
	if p.Totals.Undesigned != 1 || p.Totals.Dams != 1 || !math.IsNaN(p.Totals.RockM3) {
		t.Fatalf("totals %+v", p.Totals)
	}
	d := p.Designs[0][0]
	if d.Dam != nil || !(d.PeakM3s > 0) || !math.IsNaN(d.Cost) || !strings.Contains(d.Why, "the ground has no banks there") {
		t.Errorf("%+v", d)
	}
	if text := told(p, hydro.FindingUndesigned); !strings.Contains(text, "1 of 1 dams are not designed") {
		t.Errorf("finding %q", text)
	}
}

func TestBanksLimitHeights(t *testing.T) {
	// Banks of 0.4 + 0.3 = 0.7 m hold a dam of 0.55 m with a notch of 0.15 m, the least there is, and none of 0.6 m.
	p := analyze(t, ditch(0.4), nil, nil)
	tallest := 0.0
	for k, s := range p.Layouts[0].Sites {
		tallest = max(tallest, s.EffectiveHeightM)
		if dam := p.Designs[0][k].Dam; dam == nil || !dam.Buildable || s.EffectiveHeightM+0.15 > dam.Request.Section.BankHeightM()+1e-9 {
			t.Errorf("%s, %g m high: %+v", s.ID, s.EffectiveHeightM, dam)
		}
	}
	if !(tallest >= 0.3 && tallest <= 0.55) || told(p, hydro.FindingNotBuildable) != "" {
		t.Errorf("tallest %g m; %q", tallest, told(p, hydro.FindingNotBuildable))
	}
}

func TestLowBanksAreCautioned(t *testing.T) {
	// In the same ditch a dam of 0.6 m stands already.
	p := analyze(t, ditch(0.4), func(c *hydro.Config) { asked(150, 0.6)(c); c.Storm = hydro.Storm{} }, nil)
	k := slices.IndexFunc(p.Layouts[0].Sites, func(s siting.Site) bool { return s.StationM == 150 })
	if k < 0 {
		t.Fatalf("sites %+v", p.Layouts[0].Sites)
	}
	s, d := p.Layouts[0].Sites[k], p.Designs[0][k]
	if d.Dam == nil || d.Dam.Buildable || s.Cautions[0].Rule != siting.RuleDesign || !strings.Contains(s.Cautions[0].Text, "The banks of 0.") || !strings.Contains(s.Cautions[0].Text, "high it could be built here") {
		t.Errorf("%+v", s)
	}
	// No storm is given: what is lower holds for the least notch.
	if !strings.Contains(s.Cautions[0].Text, "no deeper notch") {
		t.Errorf("%q", s.Cautions[0].Text)
	}
	want := fmt.Sprintf("1 of %d dams cannot be built as designed, by reason (a dam may have several): banks 1", p.Totals.Dams)
	if text := told(p, hydro.FindingNotBuildable); !strings.HasPrefix(text, want) || !strings.Contains(text, "the height holds for the least notch only") {
		t.Errorf("finding %q, want %q", text, want)
	}
}

func TestTotalsOfDesigns(t *testing.T) {
	p := analyze(t, ditch(1), func(c *hydro.Config) {
		rainy(c)
		c.Works.Prices = hydro.Prices{RockPerTonne: 40, PerDay: 150, DaysPerM3: 0.5}
	}, nil)
	var rockM3, tonnes, days, cost float64
	for _, d := range p.Designs[0] {
		r := d.Dam.Rock
		cent := func(x float64) float64 { return math.Round(100*x) / 100 } // sums are of hundredths
		rockM3, tonnes, days = rockM3+cent(r.TotalM3), tonnes+cent(r.OrderTonnes), days+cent(0.5*r.TotalM3)
		cost += cent(40*r.OrderTonnes + 150*0.5*r.TotalM3)
	}
	got := p.Totals
	for name, v := range map[string][2]float64{"rock m³": {got.RockM3, rockM3}, "rock t": {got.RockT, tonnes}, "person-days": {got.PersonDays, days}, "cost": {got.Cost, cost}} {
		if !(math.Abs(v[0]/v[1]-1) < 1e-9) {
			t.Errorf("%s: %g, want %g", name, v[0], v[1])
		}
	}
	if !(got.PondM3 > 0 && got.SedimentM3 > 0) || got.Undesigned != 0 {
		t.Errorf("totals %+v", got)
	}
	free := analyze(t, ditch(1), func(c *hydro.Config) { rainy(c); c.Works.Prices.DaysPerM3 = 0.5 }, nil)
	if !math.IsNaN(free.Totals.Cost) || !(math.Abs(free.Totals.PersonDays/days-1) < 1e-9) {
		t.Errorf("no price: %+v", free.Totals)
	}
}

func TestShearCountsWithAStormAndABed(t *testing.T) {
	without := screen(t, ditch(1), rainy)
	if text := told(without, hydro.FindingShear); !strings.Contains(text, "no bed material was chosen") || strings.Contains(text, "no storm") {
		t.Errorf("finding %q", text)
	}
	with := screen(t, ditch(1), func(c *hydro.Config) { rainy(c); c.Erosion.Material = "firm-loam" })
	if !(with.Erosion[0].Power.ShearRatio > 1) || told(with, hydro.FindingShear) != "" {
		t.Errorf("shear %g, finding %q", with.Erosion[0].Power.ShearRatio, told(with, hydro.FindingShear))
	}
	if with.Erosion[0].Severity.Total == without.Erosion[0].Severity.Total {
		t.Error("shear does not show in the severity")
	}
}

func TestDesignsAreTheSameForAnyNumberOfWorkers(t *testing.T) {
	plan := func(workers int) *hydro.Plan {
		return analyze(t, roughen(country(true), 0.05), func(c *hydro.Config) {
			rainy(c)
			c.Flow.Workers, c.Flow.Edge, c.Erosion.Material = workers, flow.EdgeClosed, "firm-loam"
		}, nil)
	}
	one, four := plan(1), plan(4)
	show := func(p *hydro.Plan) string {
		out := fmt.Sprint(p.OutletPeaksM3s, p.Totals, p.Findings, p.Erosion, p.Layouts)
		for _, list := range p.Designs {
			for _, d := range list {
				out += fmt.Sprint(d.PeakM3s, d.ConcentrationS, d.Why, d.Dam != nil)
			}
		}
		return out
	}
	if one.Totals.Drainages < 3 || one.Totals.Dams < 30 {
		t.Fatalf("totals %+v", one.Totals)
	}
	if show(one) != show(four) {
		t.Error("one worker and four give different designs")
	}
}

func TestTurningTheLandChangesNoPeak(t *testing.T) {
	want := screen(t, ditch(1), rainy).OutletPeaksM3s[0]
	for way, g := range map[string]*raster.Grid{"turned": turned(ditch(1)), "mirrored": mirrored(ditch(1))} {
		// Cells on a ridge fall to either side by the order of directions: one of 120 in a row.
		if got := screen(t, g, rainy).OutletPeaksM3s[0]; math.Abs(got/want-1) > 0.01 {
			t.Errorf("%s: %.4f m³/s, else %.4f", way, got, want)
		}
	}
}

func TestStormIsChecked(t *testing.T) {
	table := &storm.Table{DurationsMin: []float64{60, 120}, ReturnPeriodsYr: []float64{2, 10}, DepthsMM: [][]float64{{20, 30}, {25, 38}}}
	cfg := hydro.Defaults()
	cfg.Storm = hydro.Storm{Rain: storm.Rain{Table: table}, Method: storm.MethodRational}
	cfg.Works.Notch.Shape = "round"
	cfg.Works.Prices.PerDay = math.NaN()
	err := cfg.Validate()
	for _, want := range []string{"say which one", "needs a runoff coefficient", `notch shape "round"`, "price of a day's work NaN"} {
		if err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("%v, want %q", err, want)
		}
	}
	// A table that begins at an hour is no fault of the settings, but gives no peak.
	p := analyze(t, ditch(1), func(c *hydro.Config) {
		c.Storm = hydro.Storm{Rain: storm.Rain{Table: table}, ReturnPeriodYr: 10, RunoffCoefficient: 0.35}
	}, nil)
	if text := told(p, hydro.FindingPeak); !strings.Contains(text, "up to the sill") || !strings.Contains(text, "1 of 1 drainages") || !strings.Contains(text, "the table begins at 60 min") {
		t.Errorf("finding %q", text)
	}
}

func TestMethodsAndTheirSpread(t *testing.T) {
	p := analyze(t, ditch(1), func(c *hydro.Config) {
		rainy(c)
		c.Storm.CurveNumber, c.Storm.HoursH = 80, 6
	}, nil)
	for _, d := range p.Designs[0] {
		if !(d.HighM3s > d.LowM3s) || d.PeakM3s != d.HighM3s {
			t.Errorf("peak %g of %g to %g m³/s", d.PeakM3s, d.LowM3s, d.HighM3s)
		}
	}
	if text := told(p, hydro.FindingSpread); !strings.Contains(text, "times the lowest at the median") {
		t.Errorf("finding %q", text)
	}
	if text := told(p, hydro.FindingRecalled); !strings.Contains(text, "handbook value recalled, verify") {
		t.Errorf("finding %q", text)
	}
}

func TestFloorAndHeavyStoneAreTold(t *testing.T) {
	// Six times the rain: 1.2 to 2.3 m³/s through a notch of a few metres. With the usual roughness water is quick.
	p := analyze(t, ditch(2), func(c *hydro.Config) {
		rainy(c)
		c.Erosion.Roughness = 0.04
		c.Storm.Rain.Curve.A = 6000
	}, nil)
	heavy, floored := 0, 0
	for _, d := range p.Designs[0] {
		if d.ConcentrationS == storm.LeastConcentrationS {
			floored++
		}
		if d.Dam.StoneM > 0.3 && d.Dam.StoneM <= d.Dam.Request.HeightM {
			heavy++
		}
	}
	if text, want := told(p, hydro.FindingStone), fmt.Sprintf("At %d of %d dams the storm asks for stone over 0.3 m", heavy, p.Totals.Dams); !strings.HasPrefix(text, want) || heavy == 0 {
		t.Errorf("finding %q, want %q", text, want)
	}
	if text, want := told(p, hydro.FindingConcentration), fmt.Sprintf("At %d of %d dams water is quicker", floored, p.Totals.Dams); !strings.HasPrefix(text, want) || floored == 0 {
		t.Errorf("finding %q, want %q", text, want)
	}
}

func TestAStormWithoutRunoffSizesNothing(t *testing.T) {
	// 5 mm on a curve number of 60, which takes up 0.2·169 = 34 mm first.
	p := analyze(t, ditch(1), func(c *hydro.Config) {
		c.Storm = hydro.Storm{Rain: storm.Rain{DepthMM: 5}, HoursH: 1, Pattern: storm.PatternNested, CurveNumber: 60}
	}, nil)
	for _, d := range p.Designs[0] {
		if d.PeakM3s != 0 || d.Dam == nil || d.Dam.Notch != nil || !strings.Contains(d.Why, "no runoff") {
			t.Errorf("peak %g m³/s, %q, dam %+v", d.PeakM3s, d.Why, d.Dam)
		}
	}
}

// told returns the text of the first finding of a rule; empty where there is none.
func told(p *hydro.Plan, rule string) string {
	for _, f := range p.Findings {
		if f.Rule == rule {
			return f.Text
		}
	}
	return ""
}

func TestNoiseMakesNoSecondChannelAtDams(t *testing.T) {
	// An error of 0.1 m in each cell, that of common airborne lidar (common practice).
	clean, rough := analyze(t, ditch(1), rainy, nil), analyze(t, roughen(ditch(1), 0.1), rainy, nil)
	split, designed := 0, 0
	for _, list := range rough.Designs {
		for _, d := range list {
			if d.Dam == nil {
				continue
			}
			designed++
			if slices.ContainsFunc(d.Dam.Notes, func(n checkdam.Note) bool { return n.Rule == checkdam.RuleSection }) {
				split++
			}
		}
	}
	if designed < 10 || split > designed/10 {
		t.Errorf("%d of %d dams have two channels", split, designed)
	}
	// Noise leads some of the 120 cells of a row another way, and the lowest cells of the bed make the slope a little steeper.
	if got, want := rough.OutletPeaksM3s[0], clean.OutletPeaksM3s[0]; math.Abs(got/want-1) > 0.05 {
		t.Errorf("peak at the lower end %.4f m³/s, without noise %.4f", got, want)
	}
}
