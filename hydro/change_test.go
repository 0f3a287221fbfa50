package hydro

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"siltstep/hydro/checkdam"
	"siltstep/hydro/siting"
)

// changedPlan is D01 with five dams of which the field rejected one, moved one, set one in height, found one built lower than
// planned and added one; one more was asked for and could not be laid out, one was not needed any more, one went 3 m up.
func changedPlan(t *testing.T) (*fieldwork, []siting.Layout, [][]Design) {
	t.Helper()
	fix, built, lost, added := along("D01-03", siting.Fix, "", 60), along("D01-04", siting.Built, "", 80), along("", siting.Move, "D01", 140), along("", siting.Move, "D01", 120)
	fix.HeightM, built.HeightM = 0.6, 0.4
	built.Note, lost.Note = "ran out of rock.", "nice place"
	f := inField(t, Edits{
		Asked: []Asked{along("D01-01", siting.Reject, "", 20), along("D01-02", siting.Move, "", 46.3), fix, built, lost, added},
		Earlier: []Earlier{stood("D01-01", 20), stood("D01-02", 40), stood("D01-03", 60), stood("D01-04", 80),
			stood("D01-05", 100), stood("D01-06", 110)},
	})
	sites := standingAt(10, 46.3, 60, 80, 113, 120)
	sites[2].EffectiveHeightM, sites[3].EffectiveHeightM = 0.6, 0.4
	f.renumber(0, sites)
	designs := make([]Design, len(sites))
	for k, rockT := range []float64{2, 2, 3.5, 1.6, 2, 2} {
		designs[k].Dam = &checkdam.Design{Rock: checkdam.Rock{OrderTonnes: rockT}}
	}
	return f, []siting.Layout{{Sites: sites}, {}}, [][]Design{designs, nil}
}

func TestChanges(t *testing.T) {
	changes := func() []Change {
		f, layouts, designs := changedPlan(t)
		return f.changes(layouts, designs)
	}()
	want := []struct {
		id   string
		kind ChangeKind
		text string
	}{
		{"D01-07", ChangeNew, "New: it stands for no earlier dam."},
		{"D01-01", ChangeRejected, "Rejected: no dam stands here."},
		{"D01-02", ChangeMoved, "Moved as asked: 6.30 m upstream."},
		{"D01-03", ChangeHeight, "0.60 m high as asked: 0.15 m higher than planned, 1.50 t more rock."},
		{"D01-04", ChangeBuilt, "Built 0.40 m high: 0.05 m lower than planned, 0.40 t less rock."},
		{"D01-05", ChangeRemoved, "Left out: the new layout has no dam in its stead."},
		{"D01-06", ChangeRelaid, "Laid out anew: 3.00 m upstream."},
		{"D01-08", ChangeAsked, "A new dam, as asked."},
		{"", ChangeRefused, "Asked for, but no dam could be laid out here: see the reaches."},
	}
	if len(changes) != len(want) {
		t.Fatalf("%d changes, want %d: %+v", len(changes), len(want), changes)
	}
	for i, w := range want {
		if c := changes[i]; c.ID != w.id || c.Kind != w.kind || c.Text != w.text || c.Drainage != "D01" {
			t.Errorf("%d: %s %s %q, want %s %s %q", i, c.ID, c.Kind, c.Text, w.id, w.kind, w.text)
		}
	}
	if c := changes[4]; c.FromM != 80 || c.ToM != 80 || c.FromHeightM != 0.45 || c.HeightM != 0.4 || c.FromRockT != 2 || c.RockT != 1.6 || c.Note != "ran out of rock." {
		t.Errorf("as built: %+v", c)
	}
	if c := changes[1]; c.FromM != 20 || !math.IsNaN(c.ToM) || !math.IsNaN(c.HeightM) || !math.IsNaN(c.RockT) {
		t.Errorf("rejected: %+v", c)
	}
	if c := changes[8]; c.Note != "nice place" || c.FromM != 140 {
		t.Errorf("refused: %+v", c)
	}
}

// What the file does not tell of the time before is not made up.
func TestChangesWithoutABefore(t *testing.T) {
	was := stood("D01-02", unsaid)
	was.HeightM, was.RockT = unsaid, unsaid
	built := along("D01-02", siting.Built, "", 30)
	built.HeightM = 0.4
	f := inField(t, Edits{Asked: []Asked{built, along("", siting.Built, "D01", 50)}, Earlier: []Earlier{was}})
	sites := standingAt(30, 50)
	f.renumber(0, sites)
	got := f.changes([]siting.Layout{{Sites: sites}}, nil)
	want := []string{"D01-02 Built 0.45 m high: where it was planned is not in the file.", "D01-03 Stands 0.45 m high, and was not planned."}
	for i, c := range got {
		if text := c.ID + " " + c.Text; text != want[i] {
			t.Errorf("%q, want %q", text, want[i])
		}
	}
}

func TestEditFindings(t *testing.T) {
	f, layouts, designs := changedPlan(t)
	f.astray = []string{"D01-06 by 3.0 m"}
	said := f.findings(f.changes(layouts, designs), Totals{Dams: 6, RockT: 13.1})
	want := []struct{ rule, text string }{
		// By hand: six dams of 2 t before; 2 + 2 + 3.5 + 1.6 + 2 + 2 t after.
		{FindingEdits, "Field edits: 1 rejected, 1 moved, 1 of a given height, 1 as built, 1 added, 1 asked for but not laid out. Of the other dams: 1 laid out anew, 1 left out, 1 new. There are 6 dams, as before; rock to order from 12.00 t to 13.10 t."},
		{FindingBuilt, "As built against planned: D01-04 built 0.40 m high: 0.05 m lower than planned, 0.40 t less rock (ran out of rock)."},
		{FindingAstray, "no edit says that they were moved: D01-06 by 3.0 m."},
	}
	for i, w := range want {
		if i >= len(said) || said[i].Rule != w.rule || !strings.Contains(said[i].Text, w.text) {
			t.Fatalf("%d: %s\nwant %s", i, fmt.Sprint(said), w.text)
		}
	}
	// A dam rejected before is none of the plan that went out; rock is compared only where it is known of every dam.
	f.earlier[0][0].HeightM, f.earlier[0][0].RockT = unsaid, unsaid
	if got := f.totalsText(Totals{Dams: 6, RockT: 13.1}); got != "The number of dams changed from 5 to 6; rock to order from 10.00 t to 13.10 t." {
		t.Error(got)
	}
	if got := f.totalsText(Totals{Dams: 5, RockT: 10.004}); got != "There are 5 dams, as before; rock to order is 10.00 t, as before." {
		t.Error(got)
	}
	f.earlier[0][1].RockT = unsaid
	if got := f.totalsText(Totals{Dams: 6, RockT: 13.1}); got != "The number of dams changed from 5 to 6." {
		t.Error(got)
	}
}
