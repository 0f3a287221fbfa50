package report

import (
	"fmt"
	"io"

	"siltstep/geojson"
	"siltstep/hydro"
)

// EditTable describes the sheet that goes to the field and comes back.
func EditTable() geojson.Layer {
	return table("edits.csv", "the dams as a sheet for the field: write in edit, note, station_m and effective_height_m, and give it back with --edits; what was asked before stands in it, rejected dams too", []geojson.Field{
		{Name: "id", Type: geojson.Text, Meaning: "dam; leave it empty for a new one"},
		{Name: "edit", Type: geojson.Text, Meaning: "what the field asks: reject; move, with the new station_m; height or built, with the effective_height_m wanted or found", Null: "nothing is asked"},
		{Name: "note", Type: geojson.Text, Meaning: "free words, such as the reason"},
		{Name: "drainage", Type: geojson.Text, Meaning: "drainage the dam stands in"},
		{Name: "station_m", Type: geojson.Real, Unit: "m", Decimals: 2, Meaning: "distance along the channel line from the lower end of the drainage, as a tape measures it on the level"},
		{Name: "effective_height_m", Type: geojson.Real, Unit: "m", Decimals: 3, Meaning: "notch sill above the original bed", Null: "the dam is rejected"},
		{Name: "planned_station_m", Type: geojson.Real, Unit: "m", Decimals: 2, Meaning: "station as planned; leave it", Null: "the dam is rejected"},
		{Name: "planned_height_m", Type: geojson.Real, Unit: "m", Decimals: 3, Meaning: "effective height as planned; leave it", Null: "the dam is rejected"},
		{Name: "rock_t", Type: geojson.Real, Unit: "t", Decimals: 2, Meaning: "rock to order as planned; leave it", Null: "the dam is rejected, or " + needsDesign},
	})
}

// WriteEdits writes edits.csv: a row for each dam of a plan, and for each that the field rejected. Error: w failed.
func WriteEdits(w io.Writer, p *hydro.Plan, changes []hydro.Change) error {
	said := map[string]hydro.Change{}
	gone := map[string][]hydro.Change{} // by drainage
	for _, c := range changes {
		said[c.ID] = c
		if c.Kind == hydro.ChangeRejected {
			gone[c.Drainage] = append(gone[c.Drainage], c)
		}
	}
	var rows [][]any
	for i, l := range p.Layouts {
		for k, s := range l.Sites {
			var rockT any
			if d, ok := geojson.DesignOf(p, i, k); ok && d.Dam != nil {
				rockT = d.Dam.Rock.OrderTonnes
			}
			rows = append(rows, []any{s.ID, orNull(editOf(said[s.ID].Kind)), said[s.ID].Note, s.Drainage, s.StationM, s.EffectiveHeightM, s.StationM, s.EffectiveHeightM, rockT})
		}
		for _, c := range gone[p.Network.Drainages[i].ID] {
			rows = append(rows, []any{orNull(c.ID), editOf(c.Kind), c.Note, c.Drainage, c.FromM, nil, nil, nil, nil})
		}
	}
	if err := writeTable(w, EditTable().Fields, rows); err != nil {
		return fmt.Errorf("edits.csv: %w", err)
	}
	return nil
}

// editOf returns the edit that brings about a change; empty for what none asked for.
func editOf(k hydro.ChangeKind) string {
	switch k {
	case hydro.ChangeRejected:
		return "reject"
	case hydro.ChangeMoved, hydro.ChangeAsked:
		return "move"
	case hydro.ChangeHeight, hydro.ChangeBuilt:
		return string(k)
	}
	return ""
}
