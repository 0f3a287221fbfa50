package siting

import (
	"math"
	"slices"
)

// withEdits returns the options that the field leaves: none nearer than a body length to a place it rejects, and at a place where it
// asks for a dam that dam alone, of any height the place offers where it leaves the height free. What it asks for stands outside
// eligible reaches too, and where a limit is broken.
func (l *layer) withEdits(all []option, edits []Edit) []option {
	all = l.withoutEdited(all, edits)
	for _, e := range edits {
		if e.Action == Reject {
			continue
		}
		asked := l.asked(e)
		all = append(all, asked...)
		for _, o := range asked {
			all = append(all, l.onward(o, edits)...)
		}
	}
	return all
}

// withoutEdited returns the options that no edit speaks against.
func (l *layer) withoutEdited(all []option, edits []Edit) []option {
	return slices.DeleteFunc(all, func(o option) bool {
		return slices.ContainsFunc(edits, func(e Edit) bool {
			if e.Action == Reject {
				return math.Abs(o.axisM-e.StationM) < o.upM+o.downM
			}
			return o.axisM == e.StationM
		})
	})
}

// onward returns the dams placed toe to crest from one that the field asks for, but on what it says of other places.
func (l *layer) onward(o option, edits []Edit) []option {
	for _, r := range l.runs {
		if o.meetM >= r.fromM && o.meetM <= r.toM {
			return l.withoutEdited(l.chain(r, o.meetM, l.heights[len(l.heights)-1]), edits)
		}
	}
	return nil
}

// asked returns the dams that an edit leaves to choose from.
func (l *layer) asked(e Edit) (all []option) {
	axisM := min(max(e.StationM, 0), l.bed.lengthM())
	station := l.bed.below(axisM)
	offers := l.askedOffers(station)
	if e.Action != Move {
		offers = []Offer{{HeightM: e.HeightM, RockT: rockNear(offers, e.HeightM)}}
	}
	for _, offer := range offers {
		if offer.Fault != nil {
			continue
		}
		all = append(all, l.dam(station, axisM, offer))
	}
	if len(all) == 0 { // none can be built: the lowest is shown, and its faults with it
		all = append(all, l.dam(station, axisM, Offer{HeightM: l.heights[0], RockT: rockNear(offers, l.heights[0])}))
	}
	for i := range all {
		all[i].must, all[i].edit, all[i].id = true, e.Action, e.ID
	}
	return all
}

// askedOffers returns what a place offers, asked for now where it was not before.
func (l *layer) askedOffers(station int) []Offer {
	if l.ground.PlaceAt != nil && l.places[station].Offers == nil {
		l.places[station] = l.ground.PlaceAt(station)
	}
	return l.offers(station)
}

// rockNear returns the rock of the offer nearest in height, t; 0 where there is none.
func rockNear(offers []Offer, heightM float64) (t float64) {
	nearest := math.Inf(1)
	for _, o := range offers {
		if away := math.Abs(o.HeightM - heightM); away < nearest {
			nearest, t = away, o.RockT
		}
	}
	return t
}
