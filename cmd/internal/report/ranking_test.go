package report

import (
	"bytes"
	"encoding/json"
	"math"
	"strings"
	"testing"

	"siltstep/cmd/internal/units"
	"siltstep/hydro/erosion"
	"siltstep/raster/rastertest"
)

func TestRanking(t *testing.T) {
	var b bytes.Buffer
	if err := WriteRanking(&b, screened()); err != nil {
		t.Fatal(err)
	}
	rastertest.Golden(t, "testdata/ranking.csv", b.String())
	header, rows := read(t, b.String())
	fields := dictionary(t, "ranking.csv")
	for _, name := range header {
		if _, ok := fields[name]; !ok {
			t.Errorf("column %s is not in the dictionary", name)
		}
	}
	// Sums by hand at cut in plan_test.go; the step at the road is no headcut.
	for name, want := range map[string]string{"id": "D01", "severity": "68.1", "incision_score": "40.0", "headcut_score": "100.0", "bank_slope_score": "50.0",
		"shear_ratio": "", "shear_score": "", "shear_weight": "20.0", "headcuts": "1", "truncated": "true", "property_share": "0.750"} {
		if got := rows[0][name]; got != want {
			t.Errorf("first row: %s is %q, want %q", name, got, want)
		}
	}
}

// A worse drainage comes first, one without a rank last, whatever its catchment.
func TestRankingOrder(t *testing.T) {
	r := screened()
	r.Plan.Erosion[0].Severity = erosion.Severity{Total: math.NaN(), Steady: math.NaN()}
	r.Plan.Erosion[1].Severity.Rank = 1
	var b bytes.Buffer
	if err := WriteRanking(&b, r); err != nil {
		t.Fatal(err)
	}
	_, rows := read(t, b.String())
	if rows[0]["id"] != "D02" || rows[1]["id"] != "D01" || rows[1]["rank"] != "" || rows[1]["severity"] != "" || rows[1]["severity_class"] != "" {
		t.Errorf("got %v", rows)
	}
}

// In plan.json the points of the parts of a drainage add up to its severity.
func TestPartsAddUp(t *testing.T) {
	var b bytes.Buffer
	if err := WritePlan(&b, record()); err != nil {
		t.Fatal(err)
	}
	var all struct {
		Drainages []struct {
			ID       string
			Severity float64
		}
		Parts []struct {
			Drainage string
			Points   *float64
		} `json:"severity_parts"`
	}
	if err := json.Unmarshal(b.Bytes(), &all); err != nil {
		t.Fatal(err)
	}
	for _, d := range all.Drainages {
		sum, judged := 0.0, 0
		for _, p := range all.Parts {
			if p.Drainage == d.ID && p.Points != nil {
				sum += *p.Points
				judged++
			}
		}
		if judged != 4 || math.Abs(sum-d.Severity) > 0.05+4*0.005 { // severity is written to a tenth, points to a hundredth
			t.Errorf("%s: %d parts add up to %.2f, want 4 and %.1f", d.ID, judged, sum, d.Severity)
		}
	}
}

func TestSections(t *testing.T) {
	var b bytes.Buffer
	if err := WriteSections(&b, sections()); err != nil {
		t.Fatal(err)
	}
	header, rows := read(t, b.String())
	if strings.Join(header, ",") != "station_m,offset_m,ground_m" || len(rows) != 15 {
		t.Fatalf("columns %v, %d rows, want three columns and 3 x 5 rows", header, len(rows))
	}
	for k, want := range map[int][3]string{0: {"0.00", "-2.00", "101.400"}, 7: {"5.00", "0.00", "100.000"}, 14: {"10.00", "2.00", ""}} {
		if got := [3]string{rows[k]["station_m"], rows[k]["offset_m"], rows[k]["ground_m"]}; got != want {
			t.Errorf("row %d: %v, want %v", k, got, want)
		}
	}
	// The section that is not resolved claims to be the deepest, and does not count.
	if d := Deepest(sections()); d == nil || d.StationM != 5 {
		t.Errorf("deepest %+v, want that at station 5", d)
	}
	if d := Deepest(nil); d != nil {
		t.Errorf("deepest of none: %+v", d)
	}
}

func TestBearing(t *testing.T) {
	for _, tt := range []struct{ dx, dy, want float64 }{{0, 1, 0}, {1, 0, 90}, {0, -1, 180}, {-1, 0, 270}, {-1e-9, 1, 0}, {-0.5, 0.5, 315}} {
		if got := bearingDeg(tt.dx, tt.dy); got != tt.want {
			t.Errorf("direction %g, %g bears %g, want %g", tt.dx, tt.dy, got, tt.want)
		}
	}
}

func TestEvidence(t *testing.T) {
	for _, system := range []units.System{units.Metric, units.US} {
		for i, id := range []string{"D01", "D02"} {
			var b bytes.Buffer
			if err := WriteEvidence(&b, screened(), i, system); err != nil {
				t.Fatal(err)
			}
			rastertest.Golden(t, "testdata/evidence-"+id+"-"+system.String()+".txt", b.String())
			fits(t, b.String())
		}
	}
}

// Without any depth there is no severity, and it is said why.
func TestEvidenceOfNothing(t *testing.T) {
	r := screened()
	nan := math.NaN()
	r.Plan.Sections = nil
	r.Plan.Erosion[0] = erosion.Judgement{
		Depths:   erosion.Depths{MeanM: nan, MaxM: nan, IncisedShare: nan, ResolvedShare: nan, DisagreeM: nan},
		Severity: erosion.Severity{Total: nan, Steady: nan, Parts: parts(nan, 0, nan, nan, nan)},
	}
	var b bytes.Buffer
	if err := WriteEvidence(&b, r, 0, units.Metric); err != nil {
		t.Fatal(err)
	}
	text := strings.Join(strings.Fields(b.String()), " ")
	for _, want := range []string{"D01 has no severity: its depth is known over 0 %", "How deep it lies can be told nowhere", "No cross-section was taken", "No step of at least 0.30 m", "nothing confirms it"} {
		if !strings.Contains(text, want) {
			t.Errorf("it is not said that %q:\n%s", want, b.String())
		}
	}
	if strings.Contains(text, "NaN") {
		t.Error(b.String())
	}
}

// A sound mean does not hide a piece that is cut: 0.3 of 0.9 of 40 m are 10.8 m.
func TestSoundWithACutPiece(t *testing.T) {
	r := screened()
	j := &r.Plan.Erosion[0]
	j.Severity.Class, j.Severity.Total, j.Depths.IncisedShare = erosion.Sound, 8, 0.3
	verdict := func() string {
		var b bytes.Buffer
		if err := WriteEvidence(&b, r, 0, units.Metric); err != nil {
			t.Fatal(err)
		}
		return strings.Join(strings.Fields(b.String()), " ")
	}
	if got, want := verdict(), "as a whole it is in good shape, but 11 m of it is cut, with 1 headcut; look"; !strings.Contains(got, want) {
		t.Errorf("it is not said that %q: %s", want, got)
	}
	j.Headcuts, j.Depths.IncisedShare = nil, 0.2 // 7.2 m
	if got, want := verdict(), "it is in good shape, and nothing found"; !strings.Contains(got, want) {
		t.Errorf("it is not said that %q: %s", want, got)
	}
}

func TestAlike(t *testing.T) {
	got := alike([]string{"2.9 m wide", "no data beyond 7.5 m", "no data beyond 8 m", "dry", "wet", "no data beyond 1 m"})
	want := "3 such as: no data beyond 7.5 m|1: 2.9 m wide|1: dry|1 for other reasons"
	if strings.Join(got, "|") != want {
		t.Errorf("got %q, want %q", got, want)
	}
}

func TestPercent(t *testing.T) {
	for share, want := range map[float64]string{0: "0 %", 0.5: "50 %", 0.996: "99 %", 1: "100 %"} {
		if got := percent(share); got != want {
			t.Errorf("%g is %q, want %q", share, got, want)
		}
	}
}
