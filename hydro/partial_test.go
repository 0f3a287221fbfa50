package hydro

import (
	"math"
	"strings"
	"testing"

	"siltstep/hydro/siting"
)

func TestASheetOfChangesAlone(t *testing.T) {
	nan := math.NaN()
	plain := []siting.Site{{ID: "D01-01", StationM: 10, EffectiveHeightM: 0.5}, {ID: "D01-02", StationM: 20, EffectiveHeightM: 0.5}, {ID: "D01-03", StationM: 30, EffectiveHeightM: 0.5}}
	row := Earlier{Row: "line 2", ID: "D01-02", StationM: 20, X: nan, Y: nan, HeightM: 0.5, RockT: 3}
	reject := Asked{Row: "line 2", ID: "D01-02", Action: siting.Reject, Drainage: "D01", StationM: 20, X: nan, Y: nan}
	f := inField(t, Edits{Asked: []Asked{reject}, Earlier: []Earlier{row}})
	if !f.partial(0) {
		t.Fatal("a sheet with one edited row counts as whole")
	}
	if faults := f.complete(0, plain); faults != nil || len(f.earlier[0]) != 3 || f.earlier[0][0].ID != "D01-01" || f.earlier[0][2].ID != "D01-03" {
		t.Errorf("%v, %+v", faults, f.earlier[0])
	}
	other := row
	other.ID, other.StationM = "D01-03", 30
	if f = inField(t, Edits{Asked: []Asked{reject}, Earlier: []Earlier{row, other}}); f.partial(0) {
		t.Error("a sheet with rows that are not edited counts as one of changes alone")
	}
	reject.ID, row.ID = "D01-99", "D01-99"
	f = inField(t, Edits{Asked: []Asked{reject}, Earlier: []Earlier{row}})
	if faults := f.complete(0, plain); len(faults) != 1 || !strings.Contains(faults[0].Text, "D01-99 is no dam of the plan") {
		t.Errorf("%v", faults)
	}
}

func TestHeightsOverTheLimitNeedAnEngineer(t *testing.T) {
	ask := Edits{Asked: []Asked{{Row: "line 2", Action: siting.Fix, Drainage: "D01", StationM: 20, X: math.NaN(), Y: math.NaN(), HeightM: 1.5}}}
	if _, err := ask.place(drawnNetwork(), false); err == nil || !strings.Contains(err.Error(), "the most is 0.9 m") {
		t.Errorf("%v", err)
	}
	if _, err := ask.place(drawnNetwork(), true); err != nil {
		t.Errorf("with an engineer: %v", err)
	}
	ask.Asked[0].Action = siting.Built
	if _, err := ask.place(drawnNetwork(), false); err != nil {
		t.Errorf("as built: %v", err)
	}
}
