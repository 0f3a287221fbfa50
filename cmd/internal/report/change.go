package report

import (
	"fmt"
	"io"

	"siltstep/geojson"
	"siltstep/hydro"
)

// What an empty value of a change means.
const (
	noBefore = "it is a new dam, or the file of field edits does not hold it"
	noAfter  = "no dam stands here now"
)

// ChangeTable describes what became of each dam that went to the field.
func ChangeTable() geojson.Layer {
	return table("changes", "what became of each dam that came back with field edits, and of new ones, drainage by drainage from the bottom; empty where no edits were given", []geojson.Field{
		{Name: "id", Type: geojson.Text, Meaning: "dam", Null: "it was asked for without an id, and no dam stands for it"},
		{Name: "drainage", Type: geojson.Text, Meaning: "drainage the dam stands in"},
		{Name: "change", Type: geojson.Text, Meaning: "as the field asked: rejected, moved, height, built, added, or refused where no dam could be laid out; else kept, re-laid, removed, new"},
		{Name: "station_before_m", Type: geojson.Real, Unit: "m", Decimals: 2, Meaning: "station before, as the file of field edits has it", Null: noBefore},
		{Name: "station_m", Type: geojson.Real, Unit: "m", Decimals: 2, Meaning: "station now", Null: noAfter},
		{Name: "height_before_m", Type: geojson.Real, Unit: "m", Decimals: 3, Meaning: "effective height as planned before", Null: noBefore},
		{Name: "effective_height_m", Type: geojson.Real, Unit: "m", Decimals: 3, Meaning: "effective height now", Null: noAfter},
		{Name: "rock_before_t", Type: geojson.Real, Unit: "t", Decimals: 2, Meaning: "rock to order before", Null: noBefore},
		{Name: "rock_t", Type: geojson.Real, Unit: "t", Decimals: 2, Meaning: "rock to order now", Null: noAfter + ", or " + needsDesign},
		{Name: "text", Type: geojson.Text, Meaning: "what changed, a sentence"},
		{Name: "note", Type: geojson.Text, Meaning: "the field's own words; \"\" for none"},
	})
}

// needsDesign says why a dam has no rock.
const needsDesign = "no cross-section near the dam shows bed and banks"

func changeRows(changes []hydro.Change) (rows [][]any) {
	for _, c := range changes {
		rows = append(rows, []any{orNull(c.ID), c.Drainage, string(c.Kind), c.FromM, c.ToM, c.FromHeightM, c.HeightM, c.FromRockT, c.RockT, c.Text, c.Note})
	}
	return rows
}

// WriteChanges writes changes.csv: a row for each dam that came back with field edits, and for each new one. Error: w failed.
func WriteChanges(w io.Writer, changes []hydro.Change) error {
	if err := writeTable(w, ChangeTable().Fields, changeRows(changes)); err != nil {
		return fmt.Errorf("changes.csv: %w", err)
	}
	return nil
}
