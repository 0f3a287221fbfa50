package report

import (
	"bytes"
	"encoding/csv"
	"strings"
	"testing"

	"siltstep/cmd/internal/units"
	"siltstep/hydro/channel"
	"siltstep/hydro/erosion"
	"siltstep/hydro/siting"
	"siltstep/raster/rastertest"
)

// read parses CSV into rows by column name.
func read(t *testing.T, text string) (header []string, rows []map[string]string) {
	t.Helper()
	all, err := csv.NewReader(strings.NewReader(text)).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	for _, line := range all[1:] {
		row := map[string]string{}
		for i, name := range all[0] {
			row[name] = line[i]
		}
		rows = append(rows, row)
	}
	return all[0], rows
}

func TestSummary(t *testing.T) {
	var b bytes.Buffer
	if err := WriteSummary(&b, small()); err != nil {
		t.Fatal(err)
	}
	rastertest.Golden(t, "testdata/summary.csv", b.String())
	header, rows := read(t, b.String())
	if len(rows) != 3 || rows[2]["id"] != "all" {
		t.Fatalf("want two drainages and a row for all, got %v", rows)
	}
	fields := dictionary(t, "summary.csv")
	for _, name := range header {
		if _, ok := fields[name]; !ok {
			t.Errorf("column %s is not in the dictionary", name)
		}
	}
	// By hand: 40 + 20 m of channel, 24 + 0 m treated; catchments nest and have no sum.
	for name, want := range map[string]string{"length_m": "60.00", "eligible_m": "40.00", "treated_m": "24.00", "dams": "2", "series": "1", "headcuts": "1", "truncated": "true", "catchment_ha": "", "peak_m3s": "", "cost": "512.50"} {
		if rows[2][name] != want {
			t.Errorf("all: %s is %q, want %q", name, rows[2][name], want)
		}
	}
}

func TestProfile(t *testing.T) {
	p := small()
	var b bytes.Buffer
	if err := WriteProfile(&b, p.Network.Drainages[0].Profile, p.Erosion[0].Depths, p.Layouts[0].Sites, 0, degrees); err != nil {
		t.Fatal(err)
	}
	rastertest.Golden(t, "testdata/D01.csv", b.String())
	header, rows := read(t, b.String())
	// The columns as published; a change here breaks users' sheets.
	const want = "station_m,lon,lat,x_m,y_m,ground_m,bed_m,slope,catchment_ha,incision_m,bed_width_m,bank_to_bank_m,bank_left_m,bank_right_m,dam_id,notch_sill_m,deposit_m"
	if got := strings.Join(header, ","); got != want {
		t.Errorf("columns %s, want %s", got, want)
	}
	fields := dictionary(t, "profiles")
	for _, name := range header {
		if _, ok := fields[name]; !ok {
			t.Errorf("column %s is not in the dictionary", name)
		}
	}
	if len(rows) != 11+2 {
		t.Fatalf("%d rows, want 11 stations and 2 dams", len(rows))
	}
	byStation := map[string]map[string]string{}
	for _, r := range rows {
		byStation[r["station_m"]] = r
	}
	for _, tt := range []struct{ station, column, want string }{
		{"8.00", "deposit_m", ""},
		{"10.00", "dam_id", "D01-01"},
		{"10.00", "notch_sill_m", "101.100"},
		{"10.00", "ground_m", "100.600"}, // bed 100.5 and 0.1 of ground over it
		{"12.00", "dam_id", ""},
		{"12.00", "deposit_m", "101.100"}, // level with the sill below
		{"22.00", "deposit_m", "101.700"}, // at an axis: its own sill
		{"32.00", "deposit_m", "101.700"},
		{"36.00", "deposit_m", ""},
		{"12.00", "catchment_ha", "2.8800"},
		{"12.00", "incision_m", "1.40"},
		{"10.00", "incision_m", "1.40"}, // at a dam: between the stations beside it
		{"22.00", "incision_m", ""},     // beside a station where it is not known
		{"24.00", "bank_left_m", ""},
		{"28.00", "bed_width_m", "0.80"},
		{"28.00", "bank_to_bank_m", "1.60"},
		{"28.00", "bank_left_m", "0.40"},
		{"28.00", "bank_right_m", "0.70"},
	} {
		if got := byStation[tt.station][tt.column]; got != tt.want {
			t.Errorf("station %s: %s is %q, want %q", tt.station, tt.column, got, tt.want)
		}
	}
}

// A dam on a station shares its row; one beyond the stations keeps a row of its own.
// Where the ground is not the bed neither bed nor slope is written; the ground stays.
func TestProfileWithoutABed(t *testing.T) {
	p := small().Network.Drainages[0].Profile
	p.Stations[3].NoBed = true
	var b bytes.Buffer
	if err := WriteProfile(&b, p, erosion.Depths{}, nil, 0, degrees); err != nil {
		t.Fatal(err)
	}
	_, rows := read(t, b.String())
	for i, row := range rows {
		empty := row["bed_m"] == "" && row["slope"] == ""
		if empty != (i == 3) || row["ground_m"] == "" || row["catchment_ha"] == "" {
			t.Errorf("row %d: %v", i, row)
		}
	}
}

func TestProfileRowsOfDams(t *testing.T) {
	p := small()
	sites := p.Layouts[0].Sites
	sites[0].StationM, sites[1].StationM = 12.004, 41
	lines := profileLines(p.Network.Drainages[0].Profile, sites)
	if len(lines) != 12 || lines[3].dam != &sites[0] || lines[11].dam != &sites[1] {
		t.Errorf("%d rows, want 11 stations of which the fourth is a dam, and one dam above", len(lines))
	}
	if lines := profileLines(channel.Profile{}, nil); len(lines) != 0 {
		t.Errorf("an empty profile gives %d rows", len(lines))
	}
}

func TestTerminal(t *testing.T) {
	for name, r := range map[string]Record{"terminal": record(), "screen": screened()} {
		for _, system := range []units.System{units.Metric, units.US} {
			var b bytes.Buffer
			if err := WriteTerminal(&b, r, system); err != nil {
				t.Fatal(err)
			}
			rastertest.Golden(t, "testdata/"+name+"-"+system.String()+".txt", b.String())
			fits(t, b.String())
			for _, c := range Cautions(system) {
				if !strings.Contains(strings.Join(strings.Fields(b.String()), " "), c) {
					t.Errorf("%s, %v: caution is missing: %s", name, system, c)
				}
			}
		}
	}
}

// fits checks that no line is longer than a terminal is wide.
func fits(t *testing.T, text string) {
	t.Helper()
	for _, line := range strings.Split(text, "\n") {
		if n := len([]rune(line)); n > terminalCols {
			t.Errorf("a line of %d characters: %q", n, line)
		}
	}
}

func TestTerminalWithoutDams(t *testing.T) {
	r := record()
	r.Plan.Layouts, r.Plan.Findings, r.Plan.Totals.Dams = []siting.Layout{}, nil, 0
	var b bytes.Buffer
	if err := WriteTerminal(&b, r, units.Metric); err != nil || strings.Contains(b.String(), "Drainages with dams") {
		t.Errorf("error %v, text %s", err, b.String())
	}
}
