package report

import (
	"bytes"
	"errors"
	"fmt"
	"math"
	"strings"
	"testing"

	"siltstep/geojson"
	"siltstep/hydro"
)

// twoSeries are one of both dams of D01 in small and one that a budget leaves out, of which little is known.
func twoSeries() []hydro.Series {
	nan := math.NaN()
	return []hydro.Series{
		{ID: "D01-S1", Drainage: 0, Number: 1, DamIDs: []string{"D01-01", "D01-02"}, FromM: 10, ToM: 34, TreatedM: 24, Severity: 68.125, Value: 16.35, Order: 1, Phase: 2,
			Before: []string{"Treat the step.", "See that the bed holds."}, Quantities: hydro.QuantitiesOf([]hydro.Design{sized(), unsized()})},
		{ID: "D02-S1", Drainage: 1, Number: 1, DamIDs: []string{"D02-01"}, FromM: 1, ToM: 9, TreatedM: 8, Severity: nan, Value: nan, LeftOut: true,
			Quantities: hydro.Quantities{Dams: 1, Undesigned: 1, RockM3: nan, RockT: nan, PondM3: nan, SedimentM3: nan, SedimentLowM3: nan, SedimentHighM3: nan, PersonDays: nan, Cost: nan}},
	}
}

// emptyIsExplained reports columns that are empty without a word in the dictionary of what that means.
func emptyIsExplained(t *testing.T, table geojson.Layer, rows []map[string]string) {
	t.Helper()
	for _, row := range rows {
		for _, f := range table.Fields {
			if row[f.Name] == "" && f.Null == "" && !strings.Contains(f.Meaning, `""`) {
				t.Errorf("%s.%s is empty; the dictionary does not say what that means", table.Name, f.Name)
			}
		}
	}
}

func TestSeries(t *testing.T) {
	p := small()
	p.Config.Works.Prices.LoadT = 8
	var b bytes.Buffer
	if err := WriteSeries(&b, p, twoSeries()); err != nil {
		t.Fatal(err)
	}
	_, rows := read(t, b.String())
	if len(rows) != 2 {
		t.Fatalf("%d rows, want 2", len(rows))
	}
	emptyIsExplained(t, SeriesTable(), rows)
	rock := sized().Dam.Rock
	for i, want := range []map[string]string{
		{"id": "D01-S1", "drainage": "D01", "number": "1", "dam_ids": "D01-01 D01-02", "from_station_m": "10.00", "to_station_m": "34.00", "treated_m": "24.00",
			"dams": "2", "undesigned": "1", "built": "0", "rock_t": fmt.Sprintf("%.2f", rock.OrderTonnes), "rock_m3": fmt.Sprintf("%.2f", rock.TotalM3), "person_days": "3.50", "cost": "512.50",
			"loads": fmt.Sprint(math.Ceil(rock.OrderTonnes / 8)), "severity": "68.1", "weighted_m": "16.35", "build_order": "1", "year": "2", "left_out": "false", "before": "Treat the step. See that the bed holds."},
		{"id": "D02-S1", "drainage": "D02", "rock_t": "", "sediment_m3": "", "cost": "", "loads": "", "severity": "", "weighted_m": "", "build_order": "", "year": "", "left_out": "true", "before": ""},
	} {
		for name, v := range want {
			if got, ok := rows[i][name]; got != v || !ok {
				t.Errorf("%s: %s is %q, want %q", want["id"], name, got, v)
			}
		}
	}
	failed := errors.New("disk full")
	if err := WriteSeries(full{failed}, p, twoSeries()); !errors.Is(err, failed) {
		t.Errorf("on a full disk: %v", err)
	}
}

// Every column of the tables of series and scenarios is described once.
func TestSeriesAndScenarioColumns(t *testing.T) {
	for _, l := range []geojson.Layer{SeriesTable(), ScenarioTable()} {
		seen := map[string]bool{}
		for _, f := range l.Fields {
			if f.Meaning == "" || seen[f.Name] || (f.Type == geojson.Real) != (f.Unit != "") {
				t.Errorf("%s.%s: meaning or unit is missing, or it comes twice", l.Name, f.Name)
			}
			seen[f.Name] = true
		}
	}
}
