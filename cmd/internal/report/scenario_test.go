package report

import (
	"bytes"
	"errors"
	"math"
	"strings"
	"testing"

	"siltstep/cmd/internal/units"
	"siltstep/hydro"
)

// threeWays are nothing, few dams and many.
func threeWays() []hydro.Scenario {
	nan := math.NaN()
	few := hydro.Scenario{Name: "fewest-dams", Series: 1, EligibleM: 50, TreatedM: 45, UncoveredM: 5,
		Quantities: hydro.Quantities{Dams: 3, RockM3: 6, RockT: 9, PondM3: 10, SedimentM3: 18, SedimentLowM3: nan, SedimentHighM3: nan, PersonDays: nan, Cost: nan}}
	many := few
	many.Name, many.Dams, many.Series, many.RockT, many.UncoveredM = "least-rock", 5, 0, 7.5, nan
	none := hydro.Scenario{Name: hydro.NoActionName, EligibleM: 50, UncoveredM: 50, Note: "Whether erosion goes on is not told."}
	return []hydro.Scenario{none, few, many}
}

func TestScenariosSideBySide(t *testing.T) {
	var b bytes.Buffer
	writeScenarios(&b, threeWays(), "USD", units.Metric)
	// Silt for rock by hand: 18/9 = 2, 18/7.5 = 2.4. Work and cost are known of none, and stand nowhere.
	got := b.String()
	for _, line := range []string{
		"none fewest-dams least-rock",
		"dams 0 3 5",
		"series 0 1 –",
		"treated m 0.0 45.0 45.0",
		"eligible, not covered m 50.0 5.0 –",
		"rock to order t 0.0 9.0 7.5",
		"water held m³ 0.0 10.0 10.0",
		"silt for rock m³/t – 2.00 2.40",
		"none: Whether erosion goes on is not told.",
	} {
		if !strings.Contains(strings.Join(strings.Fields(got), " "), line) {
			t.Errorf("%q is missing in\n%s", line, got)
		}
	}
	if strings.Contains(got, "cost") || strings.Contains(got, "person-days") || strings.Contains(got, "NaN") {
		t.Errorf("what is known of none has a line, or NaN is shown:\n%s", got)
	}
	b.Reset()
	writeScenarios(&b, threeWays(), "", units.US)
	// 45 m / 0.3048 = 147.6 ft.
	if got := strings.Join(strings.Fields(b.String()), " "); !strings.Contains(got, "treated ft 0.0 147.6 147.6") {
		t.Errorf("in feet:\n%s", b.String())
	}
	b.Reset()
	writeScenarios(&b, nil, "", units.Metric)
	if b.Len() > 0 {
		t.Errorf("no scenarios, yet %q", b.String())
	}
}

func TestScenarioTable(t *testing.T) {
	var b bytes.Buffer
	if err := WriteScenarios(&b, threeWays()); err != nil {
		t.Fatal(err)
	}
	_, rows := read(t, b.String())
	if len(rows) != 3 {
		t.Fatalf("%d rows, want 3", len(rows))
	}
	emptyIsExplained(t, ScenarioTable(), rows)
	for i, want := range []map[string]string{
		{"name": "none", "series": "", "dams": "0", "eligible_m": "50.00", "treated_m": "0.00", "uncovered_m": "50.00", "rock_t": "0.00", "cost": "0.00"},
		{"name": "fewest-dams", "dams": "3", "treated_m": "45.00", "uncovered_m": "5.00", "rock_t": "9.00", "sediment_low_m3": "", "cost": "", "note": ""},
		{"name": "least-rock", "dams": "5", "uncovered_m": "", "rock_t": "7.50"},
	} {
		for name, v := range want {
			if got, ok := rows[i][name]; got != v || !ok {
				t.Errorf("%s: %s is %q, want %q", want["name"], name, got, v)
			}
		}
	}
	if rows[0]["note"] == "" {
		t.Error("doing nothing must say that the trend is not told")
	}
	failed := errors.New("disk full")
	if err := WriteScenarios(full{failed}, threeWays()); !errors.Is(err, failed) {
		t.Errorf("on a full disk: %v", err)
	}
}
