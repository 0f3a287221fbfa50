package geojson

import (
	"bytes"
	"context"
	"math"
	"testing"

	"siltstep/hydro"
	"siltstep/hydro/channel"
	"siltstep/hydro/checkdam"
	"siltstep/hydro/erosion"
	"siltstep/hydro/flow"
	"siltstep/hydro/siting"
	"siltstep/raster"
	"siltstep/raster/rastertest"

	"github.com/paulmach/orb"
)

// smallPlan is a V valley of 9 x 12 cells of 1 m that falls south by 0.1 m a row, its sides
// by 1 m a column, so every cell drains straight to the middle column. D01 is that column;
// D02 comes in from the west in row 3, D03 from the east in row 6, D04 is a single cell.
func smallPlan(t testing.TB) *hydro.Plan {
	t.Helper()
	const cols, rows, mid = 9, 12, 4
	g := rastertest.Valley(cols, rows, 10_000, 1_000, 100)
	f, err := flow.Run(context.Background(), g, flow.Config{Edge: flow.EdgeClosed, Workers: 1}, nil)
	if err != nil {
		t.Fatal(err)
	}
	var trunk, west, east []int
	for row := range rows {
		trunk = append(trunk, g.Index(mid, row))
	}
	for k := range mid {
		west = append(west, g.Index(k, 3))
		east = append(east, g.Index(cols-1-k, 6))
	}
	drainage := func(id string, cells []int, into, intoCell, land int) channel.Drainage {
		return channel.Drainage{ID: id, Cells: cells, Into: into, IntoCell: intoCell, Order: 1,
			CatchmentM2: float64(land), Profile: straightProfile(g, cells)}
	}
	drainages := []channel.Drainage{
		drainage("D01", trunk, -1, -1, cols*rows),
		drainage("D02", west, 0, g.Index(mid, 3), mid),
		drainage("D03", east, 0, g.Index(mid, 6), mid),
		drainage("D04", []int{g.Index(3, 9)}, 0, g.Index(mid, 9), mid),
	}
	drainages[0].Order, drainages[0].Truncated, drainages[0].TruncatedCells = 2, true, 3
	sites := []siting.Site{
		{ID: "D01-01", Drainage: "D01", Series: 1, Number: 1, StationM: 2, X: 500004.5, Y: 3999990.5, BedM: 9.1, SillM: 9.5,
			EffectiveHeightM: 0.4, Slope: 0.1, CatchmentM2: 90, SpacingDownM: math.NaN(), RiseM: math.NaN(), SpacingUpM: 4, WedgeEndM: 6},
		{ID: "D01-02", Drainage: "D01", Series: 1, Number: 2, StationM: 6, X: 500004.5, Y: 3999994.5, BedM: 9.5, SillM: 9.9,
			EffectiveHeightM: 0.4, Slope: 0.1, CatchmentM2: 54, SpacingDownM: 4, RiseM: 0.4, SpacingUpM: math.NaN(), WedgeEndM: 10,
			Cautions: []siting.Reason{{Text: `a "confluence" is 1.0 m below`}, {Text: "steep bed"}}},
	}
	return &hydro.Plan{
		Grid: g, Flow: f, Network: &channel.Network{Drainages: drainages}, Erosion: judged(len(trunk)),
		Layouts: []siting.Layout{
			{Reaches: []siting.Reach{
				{Drainage: "D01", FromM: 0, ToM: 1.25, Reasons: []siting.Reason{{Text: "Water would stand here."}, {Text: "Too short."}}},
				{Drainage: "D01", FromM: 1.25, ToM: 11, Eligible: true}},
				Sites: sites, EligibleM: 9.75, TreatedM: 8},
			{Reaches: []siting.Reach{{Drainage: "D02", FromM: 0, ToM: 3, Reasons: []siting.Reason{{Text: "slope 100.0 %; at most 20.0 %"}}}}},
			{Reaches: []siting.Reach{{Drainage: "D03", FromM: 0, ToM: 3, Eligible: true}}, EligibleM: 3},
			{Reaches: []siting.Reach{{Drainage: "D04"}}},
		},
		Depressions: []hydro.Depression{
			{ID: "C01", Kind: hydro.DepressionCut, Cause: flow.CauseRoadFill, X: 500004.5, Y: 3999995.5, DepthM: 1.25, LengthM: 3.414, AreaM2: 2,
				VolumeM3: 2.25, Drainage: "D01", Note: "Cut through a fill near a road line: probably a culvert, go and look"},
			{ID: "F01", Kind: hydro.DepressionFilled, Cause: flow.CauseNoise, X: 500001.5, Y: 3999990.5, DepthM: 0.05, LengthM: math.NaN(), AreaM2: 1, VolumeM3: 0.05},
			{ID: "K01", Kind: hydro.DepressionKept, Cause: flow.CausePlaya, X: 500007.5, Y: 3999992.5, LengthM: math.NaN(), AreaM2: 4,
				Note: "Declared playa: flow ends here, from a catchment of 0.01 ha"},
		},
		Designs:        [][]hydro.Design{{sized(t), {PeakM3s: 0.02, PersonDays: math.NaN(), Cost: math.NaN()}}, {}, {}, {}},
		OutletPeaksM3s: []float64{math.NaN(), 0.01, 0.01, 0.01},
		Config:         hydro.Config{Storm: hydro.Storm{ReturnPeriodYr: 10, HoursH: 24}},
		Totals:         hydro.Totals{Drainages: 4, Truncated: 1, Dams: 2, Series: 1, ChannelM: 17, EligibleM: 12.75, TreatedM: 8},
	}
}

// sized is the design of D01-01 for 0.03 m³/s in a trench 1 m wide and 1.5 m deep.
func sized(t testing.TB) hydro.Design {
	t.Helper()
	section, err := checkdam.TrapezoidSection(1, 1, 1.5)
	if err != nil {
		t.Fatal(err)
	}
	dam, err := checkdam.Size(checkdam.Request{Kind: checkdam.LooseRock, HeightM: 0.4, Slope: 0.1, Section: section, FaceUp: math.NaN(), FaceDown: math.NaN(),
		PeakM3s: 0.03, CatchmentM2: 90, Yield: checkdam.Yield{LowM3PerHa: 0.5, HighM3PerHa: 3}})
	if err != nil {
		t.Fatal(err)
	}
	return hydro.Design{PeakM3s: 0.03, LowM3s: 0.02, HighM3s: 0.03, Measured: checkdam.NotMeasured("cells are too coarse"), Dam: &dam, PersonDays: 1.5, Cost: 250}
}

// judged is a judgement of four drainages. D01, of some stations, is 1 m deep at its lower end
// and 0.1 m more with each station; its banks are told but at the last one, and it has a step
// at a road and a headcut. Of D02 nothing could be told, D03 is sound, D04 as D02.
func judged(stations int) []erosion.Judgement {
	nan := math.NaN()
	unknown := erosion.Judgement{Depths: erosion.Depths{MeanM: nan, MaxM: nan}, Severity: erosion.Severity{Total: nan, Steady: nan}}
	trunk := erosion.Judgement{
		Depths: erosion.Depths{MeanM: 1.55, MaxM: 2.1},
		Headcuts: []erosion.Headcut{
			{StationM: 3, X: 500004.5, Y: 3999991.5, HeightM: 0.45, CatchmentM2: 81, Cause: erosion.CauseRoad},
			{StationM: 8, X: 500004.5, Y: 3999996.5, HeightM: 0.8, CatchmentM2: 36, Cause: erosion.CauseHeadcut},
		},
		Severity: erosion.Severity{Total: 62.55, Class: erosion.Severe, Rank: 1, Steady: 1},
	}
	d := &trunk.Depths
	for k := range stations {
		m := 1 + 0.1*float64(k)
		d.IncisionM = append(d.IncisionM, m)
		if k == stations-1 {
			m = nan
		}
		d.BedWidthM = append(d.BedWidthM, 2*m)
		d.BankToBankM = append(d.BankToBankM, 4*m)
		d.BankLeftM = append(d.BankLeftM, m)
		d.BankRightM = append(d.BankRightM, m+0.5)
	}
	sound := erosion.Judgement{Severity: erosion.Severity{Class: erosion.Sound, Rank: 2, Steady: 1}}
	return []erosion.Judgement{trunk, unknown, sound, unknown}
}

// straightProfile runs a profile through cell centres, which lie 1 m apart.
func straightProfile(g *raster.Grid, cells []int) channel.Profile {
	var p channel.Profile
	for k := range cells {
		i := cells[len(cells)-1-k]
		x, y := g.CenterOf(i)
		z := float64(g.MM[i]) / 1000
		p.Stations = append(p.Stations, channel.Station{StationM: float64(k), X: x, Y: y, Cell: i, GroundM: z, BedM: z, Slope: 0.1})
	}
	return p
}

// degrees is a stand-in for a projection: 1e-5 degrees a metre, north and east up.
func degrees(points []orb.Point) ([]orb.Point, error) {
	out := make([]orb.Point, len(points))
	for i, p := range points {
		out[i] = orb.Point{-105 + (p[0]-rastertest.CornerX)*1e-5, 36 + (p[1]-rastertest.CornerY)*1e-5}
	}
	return out, nil
}

// layers writes every layer of a plan, by name.
func layers(t testing.TB, p *hydro.Plan, to Projector) map[string][]byte {
	t.Helper()
	out := map[string][]byte{}
	for _, layer := range []func(*hydro.Plan, Projector) (Collection, error){Sites, Drainages, Reaches, Catchments, Headcuts, Depressions} {
		c, err := layer(p, to)
		if err != nil {
			t.Fatal(err)
		}
		var b bytes.Buffer
		if err := Write(&b, c); err != nil {
			t.Fatal(err)
		}
		out[c.Layer.Name] = b.Bytes()
	}
	return out
}
