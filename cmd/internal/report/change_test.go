package report

import (
	"bytes"
	"math"
	"strings"
	"testing"

	"siltstep/hydro"
)

// changed is what became of the dams of small: D01-01 stands, D01-02 was moved up by 2 m, D01-03 is rejected.
func changed() []hydro.Change {
	nan := math.NaN()
	return []hydro.Change{
		{ID: "D01-01", Drainage: "D01", Kind: hydro.ChangeKept, FromM: 10, ToM: 10, FromHeightM: 0.6, HeightM: 0.6, FromRockT: 3.5, RockT: 3.5, Text: "Stands as it did."},
		{ID: "D01-02", Drainage: "D01", Kind: hydro.ChangeMoved, FromM: 20, ToM: 22, FromHeightM: nan, HeightM: 0.6, FromRockT: nan, RockT: nan, Text: "Moved as asked: 2.00 m upstream.", Note: `soft bank, "hollow"`},
		{ID: "D01-03", Drainage: "D01", Kind: hydro.ChangeRejected, FromM: 34.25, ToM: nan, FromHeightM: 0.6, HeightM: nan, FromRockT: 4, RockT: nan, Text: "Rejected: no dam stands here.", Note: "owl burrow"},
		{Drainage: "D01", Kind: hydro.ChangeRefused, FromM: 39, ToM: nan, FromHeightM: nan, HeightM: nan, FromRockT: nan, RockT: nan, Text: "Asked for."},
	}
}

func TestChanges(t *testing.T) {
	var b bytes.Buffer
	if err := WriteChanges(&b, changed()); err != nil {
		t.Fatal(err)
	}
	want := `id,drainage,change,station_before_m,station_m,height_before_m,effective_height_m,rock_before_t,rock_t,text,note
D01-01,D01,kept,10.00,10.00,0.600,0.600,3.50,3.50,Stands as it did.,
D01-02,D01,moved,20.00,22.00,,0.600,,,Moved as asked: 2.00 m upstream.,"soft bank, ""hollow"""
D01-03,D01,rejected,34.25,,0.600,,4.00,,Rejected: no dam stands here.,owl burrow
,D01,refused,39.00,,,,,,Asked for.,
`
	if b.String() != want {
		t.Errorf("%s\nwant\n%s", b.String(), want)
	}
}

func TestEditSheet(t *testing.T) {
	var b bytes.Buffer
	p := small()
	if err := WriteEdits(&b, p, changed()); err != nil {
		t.Fatal(err)
	}
	_, rows := read(t, b.String())
	if len(rows) != 3 {
		t.Fatalf("%d rows, want two dams and the rejected one:\n%s", len(rows), b.String())
	}
	for i, want := range []map[string]string{
		{"id": "D01-01", "edit": "", "note": "", "drainage": "D01", "station_m": "10.00", "planned_station_m": "10.00", "effective_height_m": "0.600", "planned_height_m": "0.600"},
		{"id": "D01-02", "edit": "move", "note": `soft bank, "hollow"`, "station_m": "22.00", "rock_t": ""}, // it has no design
		{"id": "D01-03", "edit": "reject", "note": "owl burrow", "station_m": "34.25", "effective_height_m": "", "planned_height_m": "", "rock_t": ""},
	} {
		for name, value := range want {
			if rows[i][name] != value {
				t.Errorf("row %d: %s is %q, want %q", i, name, rows[i][name], value)
			}
		}
	}
	if rows[0]["rock_t"] == "" {
		t.Error("no rock of a dam that has a design")
	}
	// A plan that nothing came back for has the same sheet with nothing asked.
	b.Reset()
	if err := WriteEdits(&b, p, nil); err != nil || strings.Count(b.String(), "\n") != 3 || strings.Contains(b.String(), "move") {
		t.Errorf("%v:\n%s", err, b.String())
	}
}

// Each kind that the field can ask for goes back into the sheet as the word that asks for it.
func TestEditOf(t *testing.T) {
	for kind, want := range map[hydro.ChangeKind]string{hydro.ChangeRejected: "reject", hydro.ChangeMoved: "move", hydro.ChangeAsked: "move", hydro.ChangeHeight: "height", hydro.ChangeBuilt: "built",
		hydro.ChangeKept: "", hydro.ChangeRelaid: "", hydro.ChangeRemoved: "", hydro.ChangeNew: "", hydro.ChangeRefused: "", "": ""} {
		if got := editOf(kind); got != want {
			t.Errorf("%s: %q, want %q", kind, got, want)
		}
	}
}
