package hydro

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strings"

	"siltstep/hydro/siting"
)

// ChangeKind tells what became of a dam.
type ChangeKind string

// The kinds of changes: first what was asked for, then what follows from it.
const (
	ChangeRejected ChangeKind = "rejected" // as asked
	ChangeMoved    ChangeKind = "moved"    // as asked
	ChangeHeight   ChangeKind = "height"   // as high as asked
	ChangeBuilt    ChangeKind = "built"    // as the field found it
	ChangeAsked    ChangeKind = "added"    // a new dam, as asked
	ChangeRefused  ChangeKind = "refused"  // asked for, and not laid out
	ChangeKept     ChangeKind = "kept"     // stands as it did
	ChangeRelaid   ChangeKind = "re-laid"  // the same dam at another place or of another height
	ChangeRemoved  ChangeKind = "removed"  // no dam stands for it
	ChangeNew      ChangeKind = "new"      // a dam that stands for no earlier one
)

// Differences under which two heights, or two loads of rock, are one: a little over half of the hundredth that people read. Source: our own choice.
const (
	sameHeightM = 0.006 // m
	sameRockT   = 0.006 // t
)

// Change is what became of one dam of the plan that went to the field, or of a new one. NaN stands for what is not known, and for what
// was before a new dam or comes after one that is gone.
type Change struct {
	ID, Drainage         string
	Kind                 ChangeKind
	FromM, ToM           float64 // station before and after, m
	FromHeightM, HeightM float64 // effective height before and after, m
	FromRockT, RockT     float64 // rock to order before and after, t
	Text                 string  // what changed, a sentence
	Note                 string  // the field's own words
}

// changes lists what became of every dam, drainage by drainage, from the lower end upstream; sites have their numbers already. nil
// where nothing came back from the field. designs has one list a layout, or none.
func (f *fieldwork) changes(layouts []siting.Layout, designs [][]Design) (all []Change) {
	if f == nil {
		return nil
	}
	for i, l := range layouts {
		var of []Design
		if i < len(designs) {
			of = designs[i]
		}
		all = append(all, f.changesOf(i, l.Sites, of)...)
	}
	return all
}

func (f *fieldwork) changesOf(drainage int, sites []siting.Site, designs []Design) []Change {
	gone := func() Change {
		nan := math.NaN()
		return Change{Drainage: f.drainages[drainage], FromM: nan, ToM: nan, FromHeightM: nan, HeightM: nan, FromRockT: nan, RockT: nan}
	}
	dams, planned := map[string]*Change{}, map[string]bool{}
	for _, was := range f.earlier[drainage] {
		c := gone()
		c.ID, c.FromM, c.FromHeightM, c.FromRockT, c.Note = was.ID, was.StationM, was.HeightM, was.RockT, was.Note
		c.Kind = ChangeRemoved
		dams[c.ID], planned[c.ID] = &c, true
	}
	for k, s := range sites {
		c, ok := dams[s.ID]
		if !ok {
			dam := gone()
			c = &dam
			c.ID, c.Kind = s.ID, ChangeNew
			dams[c.ID] = c
		}
		c.ToM, c.HeightM = s.StationM, s.EffectiveHeightM
		if k < len(designs) && designs[k].Dam != nil {
			c.RockT = designs[k].Dam.Rock.OrderTonnes
		}
		switch {
		case !ok:
		case math.Abs(c.ToM-c.FromM) > samePlaceM, math.Abs(c.HeightM-c.FromHeightM) > sameHeightM:
			c.Kind = ChangeRelaid
		default:
			c.Kind = ChangeKept
		}
	}
	var lost []Change // asked for without an id, and not laid out
	for e, k := range f.standing(drainage, sites) {
		a := f.asked[drainage][e]
		id := a.ID
		if k >= 0 {
			id = sites[k].ID
		}
		c, ok := dams[id]
		if !ok {
			dam := gone()
			dam.ID, dam.FromM = id, a.stationM
			lost = append(lost, dam)
			c = &lost[len(lost)-1]
		}
		c.Note, c.Kind = a.Note, kindOf(a.Action, k >= 0, planned[id])
	}
	list := lost
	for _, c := range dams {
		list = append(list, *c)
	}
	slices.SortFunc(list, func(a, b Change) int {
		return cmp.Or(cmp.Compare(a.placeM(), b.placeM()), cmp.Compare(a.ID, b.ID), cmp.Compare(a.Note, b.Note))
	})
	for k := range list {
		list[k].Text = list[k].text(planned[list[k].ID])
	}
	return list
}

// kindOf returns what became of a dam that an edit speaks of.
func kindOf(asked siting.Action, stands, planned bool) ChangeKind {
	switch {
	case asked == siting.Reject && !stands:
		return ChangeRejected
	case !stands:
		return ChangeRefused
	case asked == siting.Built:
		return ChangeBuilt
	case asked == siting.Fix:
		return ChangeHeight
	case planned:
		return ChangeMoved
	}
	return ChangeAsked
}

// placeM returns where a dam stands, or stood, m; endless where that is not known.
func (c Change) placeM() float64 {
	switch {
	case !math.IsNaN(c.ToM):
		return c.ToM
	case !math.IsNaN(c.FromM):
		return c.FromM
	}
	return math.Inf(1)
}

// text tells a change in a sentence; planned where the earlier plan had the dam.
func (c Change) text(planned bool) string {
	switch c.Kind {
	case ChangeRejected:
		return "Rejected: no dam stands here."
	case ChangeRefused:
		return "Asked for, but no dam could be laid out here: see the reaches."
	case ChangeRemoved:
		return "Left out: the new layout has no dam in its stead."
	case ChangeKept:
		return "Stands as it did."
	case ChangeNew:
		return "New: it stands for no earlier dam."
	case ChangeAsked:
		return "A new dam, as asked."
	case ChangeMoved:
		head := "Moved as asked"
		if c.shift() == "" {
			head = "Stands where it stood, as asked"
		}
		return joinedText(head, c.shift(), c.rise(""))
	case ChangeRelaid:
		return joinedText("Laid out anew", c.shift(), c.rise(""))
	}
	if !planned {
		return fmt.Sprintf("Stands %.2f m high, and was not planned.", c.HeightM)
	}
	if c.Kind == ChangeHeight {
		return joinedText(fmt.Sprintf("%.2f m high as asked", c.HeightM), c.shift(), c.rise(" than planned"), c.rock())
	}
	return joinedText(fmt.Sprintf("Built %.2f m high", c.HeightM), c.shift(), c.rise(" than planned"), c.rock())
}

// joinedText makes a sentence of parts, those that are empty left out.
func joinedText(head string, parts ...string) string {
	parts = slices.DeleteFunc(parts, func(s string) bool { return s == "" })
	if len(parts) == 0 {
		return head + "."
	}
	return head + ": " + strings.Join(parts, ", ") + "."
}

// shift tells how far a dam went along the channel.
func (c Change) shift() string {
	switch m := c.ToM - c.FromM; {
	case math.IsNaN(m):
		return "where it was planned is not in the file"
	case m > samePlaceM:
		return fmt.Sprintf("%.2f m upstream", m)
	case m < -samePlaceM:
		return fmt.Sprintf("%.2f m downstream", -m)
	}
	return ""
}

// rise tells by how much a dam became higher or lower; of nothing where that is not known.
func (c Change) rise(than string) string {
	switch m := c.HeightM - c.FromHeightM; {
	case m > sameHeightM:
		return fmt.Sprintf("%.2f m higher%s", m, than)
	case m < -sameHeightM:
		return fmt.Sprintf("%.2f m lower%s", -m, than)
	case than != "" && !math.IsNaN(m):
		return "as high as planned"
	}
	return ""
}

// rock tells by how much the rock of a dam changed.
func (c Change) rock() string {
	switch t := c.RockT - c.FromRockT; {
	case t > sameRockT:
		return fmt.Sprintf("%.2f t more rock", t)
	case t < -sameRockT:
		return fmt.Sprintf("%.2f t less rock", -t)
	}
	return ""
}
