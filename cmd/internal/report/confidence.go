package report

import (
	"siltstep/geojson"
	"siltstep/hydro"
)

// checkTable describes what to check on the ground before each dam is built.
func checkTable() geojson.Layer {
	return table("checks", "what to check on the ground at each dam, the most important first; its confidence is in sites", []geojson.Field{
		{Name: "id", Type: geojson.Text, Meaning: "dam"},
		{Name: "number", Type: geojson.Int, Meaning: "place in the list of the dam, from 1"},
		{Name: "text", Type: geojson.Text, Meaning: "one sentence"},
	})
}

func checkRows(p *hydro.Plan) (rows [][]any) {
	eachDam(p, func(drainage, dam int, id string) {
		for n, text := range p.ConfidenceAt(drainage, dam).Checks {
			rows = append(rows, []any{id, n + 1, text})
		}
	})
	return rows
}

// weaknessTable describes what would make each dam fail.
func weaknessTable() geojson.Layer {
	return table("weaknesses", "what would make each dam fail, up to three things, the nearest to its limit first; the margins are this project's judgement", []geojson.Field{
		{Name: "id", Type: geojson.Text, Meaning: "dam"},
		{Name: "mode", Type: geojson.Text, Meaning: "peak (not known), notch (too small), flank (water round an end), stone (carried away), apron (toe dug out), headcut (from below), toe (bare below) or catchment (too large)"},
		{Name: "margin", Type: geojson.Real, Unit: "1", Decimals: 2, Meaning: "how far it is from its limit: 0 at or beyond it, or where it is not known; 1 would be ample"},
		{Name: "text", Type: geojson.Text, Meaning: "one or two sentences"},
	})
}

func weaknessRows(p *hydro.Plan) (rows [][]any) {
	eachDam(p, func(drainage, dam int, id string) {
		for _, w := range p.WeaknessesAt(drainage, dam) {
			rows = append(rows, []any{id, string(w.Mode), w.Margin, w.Text})
		}
	})
	return rows
}

// eachDam calls a function for every dam that was looked at, in the order of the plan.
func eachDam(p *hydro.Plan, visit func(drainage, dam int, id string)) {
	for i := range p.Designs {
		for k := range p.Designs[i] {
			visit(i, k, p.Layouts[i].Sites[k].ID)
		}
	}
}
