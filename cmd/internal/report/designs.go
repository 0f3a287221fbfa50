package report

import (
	"math"
	"strings"

	"siltstep/geojson"
	"siltstep/hydro"
	"siltstep/hydro/siting"
)

// What an empty value of a design means.
const (
	noPeak    = "the peak is not known: see missing"
	noSection = "no cross-section near the dam shows bed and banks: see missing"
	noNotch   = "the peak is not known, or no cross-section near the dam shows bed and banks: see missing"
)

// designTable describes what the storm at each dam asks of it, beyond what sites holds.
func designTable() geojson.Layer {
	return table("designs", "the storm at each dam and the dam that stands it; dimensions are in sites", []geojson.Field{
		{Name: "id", Type: geojson.Text, Meaning: "dam"},
		{Name: "peak_m3s", Type: geojson.Real, Unit: "m³/s", Decimals: 4, Meaning: "peak that the dam is designed for", Null: noPeak},
		{Name: "method", Type: geojson.Text, Meaning: "method of that peak", Null: noPeak},
		{Name: "low_m3s", Type: geojson.Real, Unit: "m³/s", Decimals: 4, Meaning: "lowest peak of the methods in their range", Null: noPeak},
		{Name: "high_m3s", Type: geojson.Real, Unit: "m³/s", Decimals: 4, Meaning: "highest peak of the methods in their range", Null: noPeak},
		{Name: "time_of_concentration_min", Type: geojson.Real, Unit: "min", Decimals: 1, Meaning: "time from the farthest place", Null: noPeak},
		{Name: "buildable", Type: geojson.Bool, Meaning: "whether nothing speaks against building it so; cautions remain", Null: noSection},
		{Name: "lower_height_m", Type: geojson.Real, Unit: "m", Decimals: 2, Meaning: "greatest lower effective height at which a dam that cannot be built so could be", Null: "no need, or none is found"},
		{Name: "missing", Type: geojson.Text, Meaning: "what is missing, and what to give", Null: "nothing is"},
		{Name: "notch_shape", Type: geojson.Text, Meaning: "form of the notch, seen along the flow", Null: noNotch},
		{Name: "notch_side_slope", Type: geojson.Real, Unit: "1", Decimals: 2, Meaning: "sides of the notch, horizontal run over height; 0 for a rectangle and a parabola", Null: noNotch},
		{Name: "head_m", Type: geojson.Real, Unit: "m", Decimals: 3, Meaning: "water of the peak over the sill", Null: noNotch},
		{Name: "freeboard_m", Type: geojson.Real, Unit: "m", Decimals: 3, Meaning: "height of the wings above that water", Null: noNotch},
		{Name: "capacity_m3s", Type: geojson.Real, Unit: "m³/s", Decimals: 4, Meaning: "flow that the notch carries with the least freeboard", Null: noNotch},
		{Name: "capacity_over_highest", Type: geojson.Real, Unit: "1", Decimals: 2, Meaning: "capacity over high_m3s; below 1 the notch does not pass the highest peak", Null: noNotch},
		{Name: "stone_method", Type: geojson.Text, Meaning: "method of the stone size", Null: "no stone size: see stones"},
		{Name: "body_m3", Type: geojson.Real, Unit: "m³", Decimals: 2, Meaning: "rock of the body in place", Null: noSection},
		{Name: "key_m3", Type: geojson.Real, Unit: "m³", Decimals: 2, Meaning: "rock of the keys in place", Null: noSection},
		{Name: "apron_m3", Type: geojson.Real, Unit: "m³", Decimals: 2, Meaning: "rock of the apron in place", Null: noSection},
		{Name: "rock_in_place_t", Type: geojson.Real, Unit: "t", Decimals: 2, Meaning: "rock in place by weight; sites.rock_t is what to order", Null: noSection},
		{Name: "notes", Type: geojson.Text, Meaning: "what must be known beside the numbers of the peak and of the dam, a sentence after the other; \"\" where there is nothing"},
	})
}

// stoneTable describes the stone of each dam by method.
func stoneTable() geojson.Layer {
	return table("stones", "median stone of each dam by every method; the largest of those in their range counts", []geojson.Field{
		{Name: "id", Type: geojson.Text, Meaning: "dam"},
		{Name: "method", Type: geojson.Text, Meaning: "name of the method"},
		{Name: "d50_m", Type: geojson.Real, Unit: "m", Decimals: 3, Meaning: "median size as the method gives it", Null: "an input of the method is missing: see note"},
		{Name: "with_factor_m", Type: geojson.Real, Unit: "m", Decimals: 3, Meaning: "median size times the safety factor of the method", Null: "an input of the method is missing: see note"},
		{Name: "valid", Type: geojson.Bool, Meaning: "whether the case is inside the range of the method"},
		{Name: "recalled", Type: geojson.Bool, Meaning: "whether it rests on handbook values from memory: verify them in print"},
		{Name: "note", Type: geojson.Text, Meaning: "inputs and range"},
		{Name: "source", Type: geojson.Text, Meaning: "key of a source", Null: "our own judgement"},
	})
}

// peakTable describes the peak at each dam by method.
func peakTable() geojson.Layer {
	return table("peaks", "storm peak at each dam by every method; the highest of those in their range counts, unless runoff.method names one", []geojson.Field{
		{Name: "id", Type: geojson.Text, Meaning: "dam"},
		{Name: "method", Type: geojson.Text, Meaning: "name of the method"},
		{Name: "peak_m3s", Type: geojson.Real, Unit: "m³/s", Decimals: 4, Meaning: "peak by this method", Null: "an input of the method is missing: see note"},
		{Name: "valid", Type: geojson.Bool, Meaning: "whether the case is inside the range of the method"},
		{Name: "recalled", Type: geojson.Bool, Meaning: "whether it rests on handbook values from memory: verify them in print"},
		{Name: "range", Type: geojson.Text, Meaning: "where the method holds"},
		{Name: "note", Type: geojson.Text, Meaning: "inputs, and what is missing or to heed; \"\" where there is nothing"},
	})
}

func peakRows(p *hydro.Plan) (rows [][]any) {
	eachDesign(p, func(s siting.Site, d hydro.Design) {
		for _, m := range d.Methods {
			rows = append(rows, []any{s.ID, string(m.Method), m.PeakM3s, m.Valid, m.Recalled, m.Range, m.Note})
		}
	})
	return rows
}

// eachDesign calls a function for every dam that has a design, in the order of the plan.
func eachDesign(p *hydro.Plan, visit func(s siting.Site, d hydro.Design)) {
	for i, l := range p.Layouts {
		for k, s := range l.Sites {
			if d, ok := geojson.DesignOf(p, i, k); ok {
				visit(s, d)
			}
		}
	}
}

func designRows(p *hydro.Plan) (rows [][]any) {
	eachDesign(p, func(s siting.Site, d hydro.Design) { rows = append(rows, designRow(s.ID, d)) })
	return rows
}

func designRow(id string, d hydro.Design) []any {
	var notes []string
	for _, n := range d.Notes {
		notes = append(notes, n.Text)
	}
	row := []any{id, d.PeakM3s, orNull(string(d.Method)), d.LowM3s, d.HighM3s, d.ConcentrationS / 60, nil, d.LowerM, orNull(d.Why)}
	dam := d.Dam
	if dam == nil {
		return append(row, nil, nil, nil, nil, nil, nil, nil, nil, nil, nil, nil, strings.Join(notes, " "))
	}
	row[6] = dam.Buildable
	if n := dam.Notch; n != nil {
		row = append(row, string(n.Shape), n.SideSlope, n.HeadM, n.FreeboardM, n.CapacityM3s, n.CapacityM3s/d.HighM3s)
	} else {
		row = append(row, nil, nil, nil, nil, nil, nil)
	}
	for _, n := range dam.Notes {
		notes = append(notes, n.Says.String())
	}
	r := dam.Rock
	return append(row, orNull(dam.StoneBy), r.BodyM3, r.KeyM3, r.ApronM3, r.Tonnes, strings.Join(notes, " "))
}

func stoneSizeRows(p *hydro.Plan) (rows [][]any) {
	eachDesign(p, func(s siting.Site, d hydro.Design) {
		if d.Dam == nil {
			return
		}
		for _, m := range d.Dam.Stones {
			rows = append(rows, []any{s.ID, m.Method, m.D50M, m.WithFactorM, m.Valid, m.Recalled, m.Note.String(), orNull(m.Source)})
		}
	})
	return rows
}

// A designSum is what is told of the designs of a plan as a whole.
type designSum struct {
	unbuildable      []string // ids of dams that must not be built as designed
	lowM3s, highM3s  float64  // of the design peaks; NaN where none is known
	most             float64  // greatest ratio of the highest to the lowest valid peak at one dam; NaN where no dam has two methods
	peaks, unstoned  int      // dams with a peak; dams with a peak and a section but no stone size
	unnotched        int      // dams with a section but no notch, for want of a peak
	leastOverHighest float64  // least capacity over the highest peak of a dam; NaN where there is no notch
}

func sumDesigns(p *hydro.Plan) designSum {
	nan := math.NaN()
	out := designSum{lowM3s: nan, highM3s: nan, most: nan, leastOverHighest: nan}
	eachDesign(p, func(s siting.Site, d hydro.Design) {
		if d.Dam != nil && !d.Dam.Buildable {
			out.unbuildable = append(out.unbuildable, s.ID)
		}
		if d.Dam != nil && d.Dam.Notch == nil {
			out.unnotched++
		}
		if math.IsNaN(d.PeakM3s) {
			return
		}
		out.peaks++
		out.lowM3s, out.highM3s = least(out.lowM3s, d.PeakM3s), -least(-out.highM3s, -d.PeakM3s)
		if ratio := d.HighM3s / d.LowM3s; d.HighM3s > d.LowM3s {
			out.most = -least(-out.most, -ratio)
		}
		if d.Dam == nil {
			return
		}
		if math.IsNaN(d.Dam.StoneM) {
			out.unstoned++
		}
		if n := d.Dam.Notch; n != nil {
			out.leastOverHighest = least(out.leastOverHighest, n.CapacityM3s/d.HighM3s)
		}
	})
	return out
}

// least returns the lower of two values, one of them if the other is NaN.
func least(a, b float64) float64 {
	if math.IsNaN(a) || b < a {
		return b
	}
	return a
}
