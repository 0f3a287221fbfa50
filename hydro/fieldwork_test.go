package hydro

import (
	"errors"
	"fmt"
	"math"
	"strings"
	"testing"

	"siltstep/hydro/channel"
	"siltstep/hydro/siting"
)

// drawnNetwork is a network of two drainages: D01 runs 100 m north from 0, 0 and then 50 m east, stations 10 m apart; D02 runs
// 60 m north from 200, 0.
func drawnNetwork() *channel.Network {
	var bent, straight channel.Profile
	for s := 0.0; s <= 150; s += 10 {
		bent.Stations = append(bent.Stations, channel.Station{StationM: s, X: max(0, s-100), Y: min(s, 100)})
	}
	for s := 0.0; s <= 60; s += 10 {
		straight.Stations = append(straight.Stations, channel.Station{StationM: s, X: 200, Y: s})
	}
	return &channel.Network{Drainages: []channel.Drainage{{ID: "D01", Profile: bent}, {ID: "D02", Profile: straight}}}
}

var unsaid = math.NaN()

// at is an edit of a place on the map.
func at(id string, action siting.Action, x, y float64) Asked {
	return Asked{Row: "line of " + id, ID: id, Action: action, StationM: unsaid, X: x, Y: y}
}

// along is an edit at a station.
func along(id string, action siting.Action, drainage string, stationM float64) Asked {
	return Asked{Row: "line of " + id, ID: id, Action: action, Drainage: drainage, StationM: stationM, X: unsaid, Y: unsaid}
}

// stood is a dam of an earlier plan at a station, 0.45 m high, of 2 t.
func stood(id string, stationM float64) Earlier {
	return Earlier{Row: "line of " + id, ID: id, StationM: stationM, X: unsaid, Y: unsaid, HeightM: 0.45, RockT: 2}
}

func TestStationAt(t *testing.T) {
	p := drawnNetwork().Drainages[0].Profile
	for _, row := range []struct {
		name                  string
		x, y, stationM, awayM float64
	}{
		{"on the line", 0, 34, 34, 0},
		{"beside it", 3, 34, 34, 3},
		{"outside the bend: its corner", -3, 104, 100, 5}, // 3, 4, 5
		{"inside the bend, nearer the upper leg", 20, 96, 120, 4},
		{"inside the bend, as near to both: the lower", 6, 94, 94, 6},
		{"below the lower end", 0, -7, 0, 7},
		{"beyond the upper end", 56, 108, 150, 10}, // 6, 8, 10
	} {
		if s, m := stationAt(p, row.x, row.y); math.Abs(s-row.stationM) > 1e-9 || math.Abs(m-row.awayM) > 1e-9 {
			t.Errorf("%s: station %g, %g m away; want %g, %g", row.name, s, m, row.stationM, row.awayM)
		}
	}
	straight := drawnNetwork().Drainages[1].Profile
	if s, m := stationAt(straight, 190, 12.5); s != 12.5 || m != 10 {
		t.Errorf("straight line: station %g, %g m away; want 12.5, 10", s, m)
	}
	one := channel.Profile{Stations: straight.Stations[:1]}
	if s, m := stationAt(one, 203, 4); s != 0 || m != 5 {
		t.Errorf("one station: %g, %g m away; want 0, 5", s, m)
	}
	if s, m := stationAt(channel.Profile{}, 0, 0); !math.IsNaN(s) || !math.IsInf(m, 1) {
		t.Errorf("no stations: %g, %g", s, m)
	}
	if s, _ := stationAt(p, unsaid, 3); !math.IsNaN(s) {
		t.Errorf("no place: %g", s)
	}
}

func TestPlaceEdits(t *testing.T) {
	f, err := Edits{
		Asked: []Asked{
			at("D01-02", siting.Move, 4, 52),
			along("D01-01", siting.Reject, "", 20),
			at("", siting.Built, 203, 33), // the nearest drainage is D02
		},
		Earlier: []Earlier{stood("D01-02", 45), stood("D01-01", 20), stood("d01-3", 70)},
	}.place(drawnNetwork(), false)
	if err != nil {
		t.Fatal(err)
	}
	want := "[{D01-01 reject 20 0} {D01-02 move 52 0}]"
	if got := fmt.Sprint(f.of(0)); got != want {
		t.Errorf("D01: %s, want %s", got, want)
	}
	if got := fmt.Sprint(f.of(1)); got != "[{ built 33 0}]" {
		t.Errorf("D02: %s", got)
	}
	if id := f.earlier[0][2].ID; id != "D01-03" {
		t.Errorf("id %q is not as plans write it", id)
	}
}

// A point that was written with few decimals is where the dam stood.
func TestPlaceRounded(t *testing.T) {
	for _, row := range []struct{ y, want float64 }{{70.04, 70}, {70.2, 70.2}} {
		f, err := Edits{Asked: []Asked{at("D01-03", siting.Fix, 0.01, row.y)}, Earlier: []Earlier{stood("D01-03", 70)}}.place(drawnNetwork(), false)
		if err != nil {
			t.Fatal(err)
		}
		if got := f.of(0)[0].StationM; math.Abs(got-row.want) > 1e-9 {
			t.Errorf("y %g: station %g, want %g", row.y, got, row.want)
		}
	}
}

func TestEditFaults(t *testing.T) {
	rows := []struct {
		name  string
		asked []Asked
		says  string
	}{
		{"no such drainage", []Asked{at("D03-01", siting.Move, 0, 0)}, "there is no drainage D03"},
		{"off the line", []Asked{at("", siting.Move, 30, 30)}, "lies 30.0 m from the channel line of D01, and the most is 25 m"},
		{"off the line that is asked for", []Asked{at("D02-01", siting.Move, 0, 10)}, "lies 200.0 m from the channel line of D02"},
		{"beyond the drainage", []Asked{along("D02-01", siting.Move, "", 60.2)}, "station_m 60.20 does not lie on D02, which runs from 0 to 60.00 m"},
		{"below it", []Asked{along("D02-01", siting.Move, "", -1)}, "station_m -1.00 does not lie on D02"},
		{"station of no drainage", []Asked{along("", siting.Built, "", 5)}, "no drainage to count it along"},
		{"no place", []Asked{at("D01-01", siting.Reject, unsaid, unsaid)}, "has no place"},
		{"two drainages", []Asked{along("D01-01", siting.Move, "D02", 5)}, "D01-01 is a dam of D01, and drainage says D02"},
		{"one place twice", []Asked{along("D01-01", siting.Reject, "", 20), along("", siting.Built, "D01", 20.05)}, "asks of the same place as line of D01-01, station 20.00 m of D01"},
	}
	for _, r := range rows {
		t.Run(r.name, func(t *testing.T) {
			_, err := Edits{Asked: r.asked}.place(drawnNetwork(), false)
			var faults EditFaults
			if !errors.As(err, &faults) || len(faults) != 1 || !strings.Contains(err.Error(), r.says) {
				t.Errorf("%v, want %q", err, r.says)
			}
		})
	}
	_, err := Edits{Earlier: []Earlier{stood("D03-01", 1), stood("D1x", 1)}, Asked: []Asked{along("D03-01", siting.Reject, "", 1)}}.place(drawnNetwork(), false)
	var faults EditFaults
	if !errors.As(err, &faults) || len(faults) != 2 || faults[0].Wrong != "D03" || len(faults[0].Known) != 2 {
		t.Errorf("%#v: want one fault a row, and the drainages there are", err)
	}
}

// A dam that was dragged on the map without a word in the column edit is told of.
func TestAstray(t *testing.T) {
	dragged, still, alone := stood("D01-01", 20), stood("D01-02", 50), stood("D01-03", unsaid)
	dragged.X, dragged.Y = 2, 26
	still.X, still.Y = 0, 50.01
	alone.X, alone.Y = 1, 80
	f, err := Edits{Earlier: []Earlier{dragged, still, alone}}.place(drawnNetwork(), false)
	if err != nil {
		t.Fatal(err)
	}
	if got := fmt.Sprint(f.astray); got != "[D01-01 by 6.0 m]" {
		t.Errorf("astray: %s", got)
	}
	if got := f.earlier[0][2].StationM; got != 80 {
		t.Errorf("a dam with a point alone stood at %g, want 80", got)
	}
}

func TestNothingFromTheField(t *testing.T) {
	f, err := Edits{}.place(drawnNetwork(), false)
	if f != nil || err != nil || f.of(1) != nil || f.changes(make([]siting.Layout, 2), nil) != nil || f.findings(nil, Totals{}) != nil {
		t.Errorf("%v, %v: want nothing at all", f, err)
	}
	f.renumber(0, nil) // and no panic
}

func TestParseDamID(t *testing.T) {
	for text, want := range map[string]string{"D07-03": "D07-03", " d7-3 ": "D07-03", "D120-101": "D120-101", "D07-00": "", "D00-01": "", "D07": "", "D07-": "", "07-03": "", "D07-03a": "", "D1234567-1": "", "": ""} {
		drainage, number, ok := ParseDamID(text)
		got := ""
		if ok {
			got = DamID(drainage, number)
		}
		if got != want {
			t.Errorf("%q: %q, want %q", text, got, want)
		}
	}
}
