package report

import (
	"bytes"
	"encoding/json"
	"errors"
	"math"
	"slices"
	"strings"
	"testing"

	"siltstep/cmd/internal/units"
	"siltstep/geojson"
	"siltstep/hydro"
	"siltstep/hydro/channel"
	"siltstep/hydro/checkdam"
	"siltstep/hydro/erosion"
	"siltstep/hydro/flow"
	"siltstep/hydro/siting"
	"siltstep/hydro/storm"
	"siltstep/raster"
	"siltstep/raster/rastertest"

	"github.com/paulmach/orb"
)

// bedSlope of D01 in small, rise over run.
const bedSlope = 0.05

// small is a plan of two drainages on a grid of 3 x 2 cells: D01 runs 40 m at 5 % with two
// dams of 0.6 m, so 12 m apart and treated over 24 m; D02 joins it and has none.
func small() *hydro.Plan {
	profile := func(lengthM, stepM float64) (p channel.Profile) {
		for s := 0.0; s <= lengthM; s += stepM {
			p.Stations = append(p.Stations, channel.Station{StationM: s, X: 500_000, Y: 4_000_000 + s, GroundM: 100 + bedSlope*s + 0.1,
				BedM: 100 + bedSlope*s, Slope: bedSlope, CatchmentM2: 30_000 - 100*s})
		}
		return p
	}
	nan := math.NaN()
	sites := []siting.Site{
		{ID: "D01-01", Drainage: "D01", Series: 1, Number: 1, StationM: 10, X: 500_000, Y: 4_000_010, BedM: 100.5, SillM: 101.1, EffectiveHeightM: 0.6,
			Slope: bedSlope, CatchmentM2: 29_000, SpacingDownM: nan, RiseM: nan, SpacingUpM: 12, WedgeEndM: 22},
		{ID: "D01-02", Drainage: "D01", Series: 1, Number: 2, StationM: 22, X: 500_000, Y: 4_000_022, BedM: 101.1, SillM: 101.7, EffectiveHeightM: 0.6,
			Slope: bedSlope, CatchmentM2: 27_800, SpacingDownM: 12, RiseM: 0.6, SpacingUpM: nan, WedgeEndM: 34,
			Cautions: []siting.Reason{{Text: "The confluence is 3.0 m above."}}},
	}
	return &hydro.Plan{
		Grid: rastertest.Of([]int32{100_000, 101_000, 102_000}, []int32{100_500, 101_500, 102_500}),
		Network: &channel.Network{Drainages: []channel.Drainage{
			{ID: "D01", Into: -1, IntoCell: -1, Order: 2, CatchmentM2: 30_000, Truncated: true, TruncatedCells: 4, Profile: profile(40, 4)},
			{ID: "D02", Into: 0, IntoCell: 1, Order: 1, CatchmentM2: 5_000, Profile: profile(20, 5)},
		}},
		Layouts: []siting.Layout{
			{Reaches: []siting.Reach{{Drainage: "D01", FromM: 0, ToM: 40, Eligible: true, Notes: []siting.Reason{{Text: "The march ends."}}}},
				Sites: sites, EligibleM: 40, TreatedM: 24},
			{Reaches: []siting.Reach{{Drainage: "D02", FromM: 0, ToM: 20, Reasons: []siting.Reason{{Text: "Too small."}, {Text: "Too flat."}}}}},
		},
		Designs:        [][]hydro.Design{{sized(), unsized()}, {}},
		OutletPeaksM3s: []float64{nan, 0.2},
		Totals: hydro.Totals{Drainages: 2, Truncated: 1, Dams: 2, Series: 1, ChannelM: 60, EligibleM: 40, TreatedM: 24,
			RockM3: sized().Dam.Rock.TotalM3, RockT: sized().Dam.Rock.OrderTonnes, PondM3: sized().Dam.Storage.PondM3, SedimentM3: sized().Dam.Storage.SedimentM3, SedimentLowM3: nan, SedimentHighM3: nan,
			PersonDays: 3.5, Cost: 512.5, Undesigned: 1},
		Findings: []hydro.Finding{
			{Rule: "no-rainfall", Text: "No rainfall was given. Give a depth for this place."},
			{Rule: "truncated-catchment", Subject: "D01", Text: "Water enters over the edge of the data.", Source: "Jepson1939", Placed: true, At: orb.Point{500_000, 4_000_040}},
		},
		Depressions: []hydro.Depression{
			{ID: "C01", Kind: hydro.DepressionCut, Cause: flow.CauseRoadFill, X: 500_010, Y: 4_000_020, DepthM: 1.5, LengthM: 12, AreaM2: 12, VolumeM3: 9, Drainage: "D01", Note: "Go and look"},
		},
		Series: twoSeries(), Scenarios: threeWays(), Changes: changed(), NoiseM: 0.05, Config: hydro.Config{Erosion: limits(),
			Storm: hydro.Storm{ReturnPeriodYr: 10, HoursH: 24}, Works: hydro.Works{Yield: checkdam.Yield{LowM3PerHa: 0.5, HighM3PerHa: 3}, Prices: hydro.Prices{Currency: "USD"}}},
		Sections: [][]channel.Section{sections(), nil},
		Erosion:  []erosion.Judgement{cut(), sound()},
	}
}

// sized is the design of D01-01 in small for 0.34 m³/s in a trench 2 m wide and 1.4 m deep.
func sized() hydro.Design {
	section, err := checkdam.TrapezoidSection(2, 0.714, 1.4)
	if err != nil {
		panic(err)
	}
	dam, err := checkdam.Size(checkdam.Request{Kind: checkdam.LooseRock, HeightM: 0.6, Slope: bedSlope, Section: section, FaceUp: math.NaN(), FaceDown: math.NaN(),
		PeakM3s: 0.34, CatchmentM2: 29_000, Yield: checkdam.Yield{LowM3PerHa: 0.5, HighM3PerHa: 3}})
	if err != nil {
		panic(err)
	}
	return hydro.Design{PeakM3s: 0.34, LowM3s: 0.17, HighM3s: 0.34, Method: storm.MethodRational, ConcentrationS: 600,
		Methods: []storm.MethodPeak{{Method: storm.MethodRational, PeakM3s: 0.34, Valid: true, Range: "catchments to 80 ha", Note: "C 0.35, 100 mm/h."},
			{Method: storm.MethodGraphical, PeakM3s: math.NaN(), Range: "24-hour storm types", Note: "Not computed: it needs a curve number."}},
		Notes: []storm.Note{{Text: "The true peak may be twice as large."}}, Measured: checkdam.NotMeasured("cells are too coarse"), Dam: &dam, LowerM: math.NaN(), PersonDays: 3.5, Cost: 512.5}
}

// unsized is that of D01-02, where no cross-section is resolved.
func unsized() hydro.Design {
	nan := math.NaN()
	return hydro.Design{PeakM3s: 0.32, LowM3s: 0.32, HighM3s: 0.32, Method: storm.MethodRational, ConcentrationS: 594, LowerM: nan, PersonDays: nan, Cost: nan,
		Why: "No cross-section near the dam shows bed and banks."}
}

// limits are the default ones, with a window that stays.
func limits() erosion.Config {
	cfg := erosion.Defaults()
	cfg.WindowM = 31
	return cfg
}

// cut is the judgement of D01 in small: 1.4 m deep up to station 20, unknown at 24, 0.4 m deep above; a
// headcut of 0.8 m and a step at a road. Without shear 80 of 100 weigh. By hand, from the defaults:
// incision (0.98 − 0.3)/1.7 = 40.0, headcuts 0.8 m in 40 m = 2 m/100 m, so 100, banks (1.25 − 0.5)/1.5 = 50,
// length 100; (30·40 + 25·100 + 15·50 + 10·100)/80 = 68.125.
func cut() erosion.Judgement {
	nan := math.NaN()
	j := erosion.Judgement{
		Depths: erosion.Depths{MeanM: 0.98, MaxM: 1.4, IncisedShare: 1, KnownShare: 0.9, ResolvedShare: 2. / 3, DisagreeM: 0.08},
		Headcuts: []erosion.Headcut{
			{StationM: 8, X: 500_000, Y: 4_000_008, HeightM: 0.45, CatchmentM2: 29_200, Cause: erosion.CauseRoad},
			{StationM: 24, X: 500_000, Y: 4_000_024, HeightM: 0.8, CatchmentM2: 27_600, Cause: erosion.CauseHeadcut},
		},
		Severity: erosion.Severity{Total: 68.125, Class: erosion.Severe, Rank: 1, Steady: 0.995, Parts: parts(0.98, 2, nan, 1.25, 1)},
	}
	d := &j.Depths
	for s := 0.0; s <= 40; s += 4 {
		deep := 1.4
		if s == 24 {
			deep = nan
		} else if s > 24 {
			deep = 0.4
		}
		d.IncisionM = append(d.IncisionM, deep)
		d.BedWidthM = append(d.BedWidthM, 2*deep)
		d.BankToBankM = append(d.BankToBankM, 4*deep)
		d.BankLeftM = append(d.BankLeftM, deep)
		d.BankRightM = append(d.BankRightM, deep+0.3)
	}
	return j
}

// sound is the judgement of D02 in small: 0.1 m deep, and nothing else to say against it.
func sound() erosion.Judgement {
	deep := []float64{0.1, 0.1, 0.1, 0.1, 0.1}
	return erosion.Judgement{
		Depths:   erosion.Depths{IncisionM: deep, MeanM: 0.1, MaxM: 0.1, KnownShare: 1, ResolvedShare: math.NaN(), DisagreeM: math.NaN()},
		Severity: erosion.Severity{Class: erosion.Sound, Rank: 2, Steady: 1, Parts: parts(0.1, 0, math.NaN(), 0, 0)},
	}
}

// parts scores the five values by the default scales, as their comments say: straight between the limits.
func parts(values ...float64) (list []erosion.Part) {
	c := erosion.Defaults()
	scales := []erosion.Scale{c.Incision, c.Headcuts, c.Shear, c.BankSlope, c.IncisedLength}
	for i, p := range []erosion.Part{{Name: "incision", Unit: "m"}, {Name: "headcuts", Unit: "m/100 m"}, {Name: "shear", Unit: "1"}, {Name: "bank-slope", Unit: "1"}, {Name: "incised-length", Unit: "1"}} {
		p.Value, p.Weight = values[i], scales[i].Weight
		p.Score = min(100, max(0, 100*(p.Value-scales[i].Zero)/(scales[i].Full-scales[i].Zero)))
		list = append(list, p)
	}
	return list
}

// sections are three of D01 in small, looking north at a trench 2 m wide and 1.4 m deep; the last is not resolved.
func sections() []channel.Section {
	at := func(stationM float64) channel.Section {
		bank := channel.Bank{ToeM: 1, TopM: 2, HeightM: 1.4, Slope: 1.4}
		return channel.Section{StationM: stationM, X: 500_000, Y: 4_000_000 + stationM, DX: -1, FirstM: -2, StepM: 1,
			MM: []int32{101_400, 100_000, 100_000, 100_000, raster.VoidMM}, BedM: 100, BedWidthM: 2, TopWidthM: 4, DepthM: 1.4, AreaM2: 4.2,
			Left: bank, Right: bank, Fit: channel.Trapezoid{BedWidthM: 2, SideSlope: 0.714, DepthM: 1.4, ResidualM: 0.01}, Resolved: true}
	}
	low, deep, blurred := at(0), at(5), at(10)
	low.DepthM = 1.3
	blurred.Resolved, blurred.Why, blurred.DepthM = false, "the banks are less than 3 cells apart", 9
	return []channel.Section{low, deep, blurred}
}

func record() Record {
	return Record{
		Version: "0.1", CRS: "EPSG:32613", Plan: small(), ToLonLat: degrees,
		Inputs:    []Input{{Role: "elevation", Path: "/home/someone/ranch \"north\".tif", SHA256: strings.Repeat("ab", 32)}},
		Settings:  []Setting{{"dams.height", "0.6 m"}, {"flow.edge", "open"}},
		Decisions: []string{"The data is projected in metres and was kept as it is."},
	}
}

// screened is the same land without a search for sites, a part of it inside the property.
func screened() Record {
	r := record()
	r.Plan.Layouts, r.Plan.Designs, r.Plan.OutletPeaksM3s = nil, nil, nil
	r.Plan.Series, r.Plan.Scenarios, r.Plan.Changes = nil, nil, nil
	r.Plan.Totals.Dams, r.Plan.Totals.Series, r.Plan.Totals.EligibleM, r.Plan.Totals.TreatedM = 0, 0, 0, 0
	r.PropertyShare = []float64{0.75, 1}
	return r
}

// degrees is a stand-in for a projection: 1e-5 degrees a metre.
func degrees(points []orb.Point) ([]orb.Point, error) {
	out := make([]orb.Point, len(points))
	for i, p := range points {
		out[i] = orb.Point{-105 + (p[0]-500_000)*1e-5, 36 + (p[1]-4_000_000)*1e-5}
	}
	return out, nil
}

func TestPlanAgainstGolden(t *testing.T) {
	var first, second bytes.Buffer
	if err := errors.Join(WritePlan(&first, record()), WritePlan(&second, record())); err != nil {
		t.Fatal(err)
	}
	if !bytes.Equal(first.Bytes(), second.Bytes()) {
		t.Error("two runs differ")
	}
	if strings.Contains(first.String(), "someone") {
		t.Error("a folder got into the file")
	}
	own, sources, _ := strings.Cut(first.String(), `"sources": [`)
	rastertest.Golden(t, "testdata/plan.txt", own)
	if got, want := strings.Count(sources, `{"key":`), len(hydro.Sources()); got != want {
		t.Errorf("%d sources, want %d", got, want)
	}
}

// A program that knows JSON alone finds every table with the members of its dictionary.
func TestPlanFollowsTheDictionary(t *testing.T) {
	followsTheDictionary(t, record())
	followsTheDictionary(t, screened())
}

func followsTheDictionary(t *testing.T, r Record) {
	t.Helper()
	var b bytes.Buffer
	if err := WritePlan(&b, r); err != nil {
		t.Fatal(err)
	}
	var all map[string]json.RawMessage
	if err := json.Unmarshal(b.Bytes(), &all); err != nil {
		t.Fatal(err)
	}
	for name, raw := range all {
		fields := dictionary(t, name)
		var rows []map[string]any
		if raw[0] == '{' {
			raw = append(append([]byte{'['}, raw...), ']')
		}
		siting := slices.Contains([]string{"reaches", "sites", "designs", "peaks", "stones", "checks", "weaknesses", "gradients", "filling", "series", "scenarios", "changes"}, name)
		if err := json.Unmarshal(raw, &rows); err != nil || (len(rows) == 0) != (siting && r.ScreenedOnly()) {
			t.Fatalf("%s: error %v, %d rows", name, err, len(rows))
		}
		for _, row := range rows {
			if len(row) != len(fields) {
				t.Errorf("%s: %d members, the dictionary has %d", name, len(row), len(fields))
			}
			for member, value := range row {
				f, ok := fields[member]
				if !ok {
					t.Errorf("%s.%s is not in the dictionary", name, member)
				}
				if value == nil && f.Null == "" {
					t.Errorf("%s.%s is null; the dictionary does not say what that means", name, member)
				}
			}
		}
	}
}

func dictionary(t *testing.T, table string) map[string]geojson.Field {
	t.Helper()
	for _, l := range Tables() {
		if l.Name == table {
			fields := map[string]geojson.Field{}
			for _, f := range l.Fields {
				fields[f.Name] = f
			}
			return fields
		}
	}
	t.Fatalf("no table %s in the dictionary", table)
	return nil
}

func TestDictionaryIsComplete(t *testing.T) {
	for _, l := range Tables() {
		seen := map[string]bool{}
		for _, f := range l.Fields {
			if f.Name == "" || f.Meaning == "" || seen[f.Name] || (f.Type == geojson.Real) != (f.Unit != "") {
				t.Errorf("%s.%s: name, meaning or unit is missing, or it comes twice", l.Name, f.Name)
			}
			seen[f.Name] = true
		}
	}
}

func TestFailuresAreReported(t *testing.T) {
	failed := errors.New("disk full")
	r := record()
	r.ToLonLat = func([]orb.Point) ([]orb.Point, error) { return nil, failed }
	if err := WritePlan(&bytes.Buffer{}, r); !errors.Is(err, failed) {
		t.Errorf("plan.json without a projection: %v", err)
	}
	p := small()
	if err := WriteProfile(&bytes.Buffer{}, p.Network.Drainages[0].Profile, erosion.Depths{}, nil, 0, r.ToLonLat); !errors.Is(err, failed) {
		t.Errorf("profile without a projection: %v", err)
	}
	if err := WriteEvidence(&bytes.Buffer{}, r, 0, units.Metric); !errors.Is(err, failed) {
		t.Errorf("evidence without a projection: %v", err)
	}
	if err := WriteRanking(full{failed}, record()); !errors.Is(err, failed) {
		t.Errorf("ranking.csv on a full disk: %v", err)
	}
	if err := WriteSections(full{failed}, sections()); !errors.Is(err, failed) {
		t.Errorf("sections on a full disk: %v", err)
	}
	if err := WritePlan(full{failed}, record()); !errors.Is(err, failed) {
		t.Errorf("plan.json on a full disk: %v", err)
	}
	if err := WriteSummary(full{failed}, p); !errors.Is(err, failed) {
		t.Errorf("summary.csv on a full disk: %v", err)
	}
}

type full struct{ err error }

func (f full) Write([]byte) (int, error) { return 0, f.err }
