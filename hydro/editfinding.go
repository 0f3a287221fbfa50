package hydro

import (
	"fmt"
	"math"
	"strings"

	"siltstep/hydro/siting"
)

// The rules of findings on field edits.
const (
	FindingEdits  = "field-edits"
	FindingBuilt  = "as-built"
	FindingAstray = "field-places"
)

// findings tells what the edits came to, how what was built differs from what was planned, and which places of the file
// are in doubt. None where nothing came back from the field.
func (f *fieldwork) findings(changes []Change, t Totals) (out []Finding) {
	if f == nil {
		return nil
	}
	out = append(out, Finding{Rule: FindingEdits, Text: "Field edits: " + editsText(changes) + " " + f.totalsText(t) + " The changes are listed dam by dam."})
	var built []string
	for _, c := range changes {
		if c.Kind == ChangeBuilt {
			note := strings.TrimRight(c.Note, ". ")
			if note == "" {
				note = "no reason is noted"
			}
			text := strings.TrimSuffix(c.Text, ".")
			built = append(built, fmt.Sprintf("%s %s (%s)", c.ID, strings.ToLower(text[:1])+text[1:], note))
		}
	}
	if len(built) > 0 {
		out = append(out, Finding{Rule: FindingBuilt,
			Text: fmt.Sprintf("As built against planned: %s. Notch, stone and volumes of these dams are worked out for the height as built; check each notch on the ground.", strings.Join(built, "; "))})
	}
	if len(f.astray) > 0 {
		out = append(out, Finding{Rule: FindingAstray,
			Text: fmt.Sprintf("In the file of field edits these dams do not lie at their station_m, and no edit says that they were moved: %s. Write move in the column edit where a dam was moved; if none was, the file is of a plan with another elevation model or other settings, and ids may have gone to other dams.", listed(f.astray))})
	}
	return out
}

// editsText counts what was asked for and what followed from it.
func editsText(changes []Change) string {
	count := map[ChangeKind]int{}
	for _, c := range changes {
		count[c.Kind]++
	}
	counted := func(kinds []ChangeKind, words []string) (parts []string) {
		for i, k := range kinds {
			if count[k] > 0 {
				parts = append(parts, fmt.Sprintf("%d %s", count[k], words[i]))
			}
		}
		return parts
	}
	asked := counted([]ChangeKind{ChangeRejected, ChangeMoved, ChangeHeight, ChangeBuilt, ChangeAsked, ChangeRefused},
		[]string{"rejected", "moved", "of a given height", "as built", "added", "asked for but not laid out"})
	follows := counted([]ChangeKind{ChangeKept, ChangeRelaid, ChangeRemoved, ChangeNew}, []string{"stand as they did", "laid out anew", "left out", "new"})
	if len(asked) == 0 {
		asked = []string{"none is asked for"}
	}
	if len(follows) == 0 {
		return strings.Join(asked, ", ") + "."
	}
	return strings.Join(asked, ", ") + ". Of the other dams: " + strings.Join(follows, ", ") + "."
}

// totalsText compares the number of dams and their rock, where that is known of every dam, with those of the plan that went to the field.
func (f *fieldwork) totalsText(t Totals) string {
	dams, rockT := 0, 0.0
	for i, list := range f.earlier {
		rejected := map[string]bool{}
		for _, a := range f.asked[i] {
			if a.Action == siting.Reject {
				rejected[a.ID] = true
			}
		}
		for _, was := range list {
			if rejected[was.ID] && math.IsNaN(was.HeightM) {
				continue // it was rejected before: that plan did not have it
			}
			dams++
			rockT += was.RockT
		}
	}
	text := fmt.Sprintf("The number of dams changed from %d to %d", dams, t.Dams)
	if dams == t.Dams {
		text = fmt.Sprintf("There are %d dams, as before", dams)
	}
	if math.IsNaN(rockT) || math.IsNaN(t.RockT) || t.Undesigned > 0 {
		return text + "."
	}
	if math.Abs(t.RockT-rockT) < sameRockT {
		return text + fmt.Sprintf("; rock to order is %.2f t, as before.", t.RockT)
	}
	return text + fmt.Sprintf("; rock to order from %.2f t to %.2f t.", rockT, t.RockT)
}
