package report

import (
	"bytes"
	"encoding/json"
	"errors"
	"math"
	"strings"
	"testing"

	"siltstep/geojson"
	"siltstep/hydro"
	"siltstep/hydro/channel"
	"siltstep/hydro/flow"
	"siltstep/hydro/siting"
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
		Totals: hydro.Totals{Drainages: 2, Truncated: 1, Dams: 2, Series: 1, ChannelM: 60, EligibleM: 40, TreatedM: 24},
		Findings: []hydro.Finding{
			{Rule: "no-rainfall", Text: "No rainfall was given. Give a depth for this place."},
			{Rule: "truncated-catchment", Subject: "D01", Text: "Water enters over the edge of the data.", Source: "Jepson1939", At: &orb.Point{500_000, 4_000_040}},
		},
		Depressions: []hydro.Depression{
			{ID: "C01", Kind: hydro.DepressionCut, Cause: flow.CauseRoadFill, X: 500_010, Y: 4_000_020, DepthM: 1.5, LengthM: 12, AreaM2: 12, VolumeM3: 9, Drainage: "D01", Note: "Go and look"},
		},
	}
}

func record() Record {
	return Record{
		Version: "0.1", CRS: "EPSG:32613", Plan: small(), ToLonLat: degrees,
		Inputs:    []Input{{Role: "elevation", Path: "/home/someone/ranch \"north\".tif", SHA256: strings.Repeat("ab", 32)}},
		Settings:  []Setting{{"dams.height", "0.6 m"}, {"flow.edge", "open"}},
		Decisions: []string{"The data is projected in metres and was kept as it is."},
	}
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
	var b bytes.Buffer
	if err := WritePlan(&b, record()); err != nil {
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
		if err := json.Unmarshal(raw, &rows); err != nil || len(rows) == 0 {
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
	if err := WriteProfile(&bytes.Buffer{}, p.Network.Drainages[0].Profile, nil, 0, r.ToLonLat); !errors.Is(err, failed) {
		t.Errorf("profile without a projection: %v", err)
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
