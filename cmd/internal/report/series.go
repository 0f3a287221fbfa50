package report

import (
	"fmt"
	"io"
	"strings"

	"siltstep/geojson"
	"siltstep/hydro"
)

// What an empty value of a series or a scenario means.
const (
	noneDesigned = "no dam could be designed"
	noSpread     = "it was not found for any dam; or " + noneDesigned
	noDays       = "no prices.days_per_m3 was given; or " + noneDesigned
	noCost       = "prices.rock, prices.day and prices.days_per_m3 are not all given; or " + noneDesigned
)

// SeriesTable describes the columns of series.csv and the table of series in plan.json.
func SeriesTable() geojson.Layer {
	fields := []geojson.Field{
		{Name: "id", Type: geojson.Text, Meaning: "drainage and number of the series from the bottom, D07-S1"},
		{Name: "drainage", Type: geojson.Text, Meaning: "drainage the series stands in"},
		{Name: "number", Type: geojson.Int, Meaning: "number of the series within the drainage, from the bottom"},
		{Name: "dam_ids", Type: geojson.Text, Meaning: "its dams from the lowest upstream, joined by \" \""},
		{Name: "from_station_m", Type: geojson.Real, Unit: "m", Decimals: 2, Meaning: "station of the axis of its lowest dam"},
		{Name: "to_station_m", Type: geojson.Real, Unit: "m", Decimals: 2, Meaning: "station of the upper end of its highest sediment wedge"},
		{Name: "treated_m", Type: geojson.Real, Unit: "m", Decimals: 2, Meaning: "its part of the treated channel length of the drainage; what series share is counted for the lower. Of a series left out: what it would add if all were built"},
	}
	fields = append(fields, quantityFields()...)
	fields = append(fields, geojson.Field{Name: "built", Type: geojson.Int, Meaning: "of its dams, those that stand already"},
		geojson.Field{Name: "loads", Type: geojson.Int, Meaning: "truck or cart loads of rock_t, the last one counted whole, so that loads of series do not add up to those of the plan", Null: "no prices.load was given; or " + noneDesigned})
	return table("series", "one row a series of dams, from the lower end of each drainage; those a budget leaves out stand here alone", append(fields, []geojson.Field{
		{Name: "severity", Type: geojson.Real, Unit: "1", Decimals: 1, Meaning: "severity of erosion of the drainage, 0 to 100", Null: "erosion was not judged, or nothing of it could be told"},
		{Name: "weighted_m", Type: geojson.Real, Unit: "m", Decimals: 2, Meaning: "treated_m times severity over 100: what a budget seeks the most of", Null: "the severity is not known"},
		{Name: "build_order", Type: geojson.Int, Meaning: "place in the order of building: by year, then drainages by weighted_m for what they take, in each from the bottom", Null: "the budget leaves it out, or all its dams stand"},
		{Name: "year", Type: geojson.Int, Meaning: "year of the budget in which it is built", Null: "no budget was given, it leaves the series out, or all its dams stand"},
		{Name: "left_out", Type: geojson.Bool, Meaning: "the budget leaves it out: its dams are in no other table and in no sum"},
		{Name: "before", Type: geojson.Text, Meaning: "what comes before its dams, sentences joined by \" \"; \"\" where there is nothing"},
	}...))
}

// quantityFields describes what dams take and give, in the order of quantityValues.
func quantityFields() []geojson.Field {
	return []geojson.Field{
		{Name: "dams", Type: geojson.Int, Meaning: "number of check dams"},
		{Name: "undesigned", Type: geojson.Int, Meaning: "of them, dams without a design: nothing of them is in the sums beside"},
		{Name: "rock_m3", Type: geojson.Real, Unit: "m³", Decimals: 2, Meaning: "rock in place", Null: noneDesigned},
		{Name: "rock_t", Type: geojson.Real, Unit: "t", Decimals: 2, Meaning: "rock to order by weight, waste included", Null: noneDesigned},
		{Name: "pond_m3", Type: geojson.Real, Unit: "m³", Decimals: 2, Meaning: "water held up to the sills", Null: noneDesigned},
		{Name: "sediment_low_m3", Type: geojson.Real, Unit: "m³", Decimals: 2, Meaning: "silt held when full, at the least", Null: noSpread},
		{Name: "sediment_m3", Type: geojson.Real, Unit: "m³", Decimals: 2, Meaning: "silt held when full, likely", Null: noneDesigned},
		{Name: "sediment_high_m3", Type: geojson.Real, Unit: "m³", Decimals: 2, Meaning: "silt held when full, at the most", Null: noSpread},
		{Name: "person_days", Type: geojson.Real, Unit: "d", Decimals: 2, Meaning: "hand labour", Null: noDays},
		{Name: "cost", Type: geojson.Real, Unit: "currency of the price list", Decimals: 2, Meaning: "cost", Null: noCost},
	}
}

// quantityValues returns the values of quantityFields.
func quantityValues(q hydro.Quantities) []any {
	return []any{q.Dams, q.Undesigned, q.RockM3, q.RockT, q.PondM3, q.SedimentLowM3, q.SedimentM3, q.SedimentHighM3, q.PersonDays, q.Cost}
}

// seriesRows returns the rows of SeriesTable.
func seriesRows(p *hydro.Plan, list []hydro.Series) (rows [][]any) {
	for _, s := range list {
		row := []any{s.ID, p.Network.Drainages[s.Drainage].ID, s.Number, strings.Join(s.DamIDs, " "), s.FromM, s.ToM, s.TreatedM}
		row = append(row, quantityValues(s.Quantities)...)
		row = append(row, s.Built, countOrNull(p.Config.Works.Prices.Loads(s.RockT)))
		rows = append(rows, append(row, s.Severity, s.Value, countOrNull(s.Order), countOrNull(s.Phase), s.LeftOut, strings.Join(s.Before, " ")))
	}
	return rows
}

// WriteSeries writes series.csv: a row for each series of a plan. Error: w failed.
func WriteSeries(w io.Writer, p *hydro.Plan, list []hydro.Series) error {
	if err := writeTable(w, SeriesTable().Fields, seriesRows(p, list)); err != nil {
		return fmt.Errorf("series.csv: %w", err)
	}
	return nil
}
