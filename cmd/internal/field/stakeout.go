package field

import (
	"fmt"
	"io"

	"siltstep/cmd/internal/facts"
	"siltstep/geojson"
)

// StakeoutTable describes the columns of stakeout.csv.
func StakeoutTable() geojson.Layer {
	return geojson.Layer{Name: "stakeout.csv", Meaning: "the dam axes as survey controllers read points: point, northing, easting, height, description; in the coordinate system of the analysed grid, which plan.json names", Fields: []geojson.Field{
		{Name: "point", Type: geojson.Text, Meaning: "id of the dam"},
		{Name: "northing_m", Type: geojson.Real, Unit: "m", Decimals: 2, Meaning: "y of the dam axis on the channel line"},
		{Name: "easting_m", Type: geojson.Real, Unit: "m", Decimals: 2, Meaning: "x of the dam axis on the channel line"},
		{Name: "height_m", Type: geojson.Real, Unit: "m", Decimals: 3, Meaning: "elevation of the original bed there, in the datum of the elevation model"},
		{Name: "description", Type: geojson.Text, Meaning: "series, and the elevation of the sill with its height above the bed, m, in plain letters without commas"},
	}}
}

// WriteStakeout writes stakeout.csv: a row a dam with a position in the grid, in build order. Error: w failed.
func WriteStakeout(w io.Writer, f *facts.Folder) error {
	var rows [][]any
	for _, r := range runsOf(f) {
		for _, s := range r.dams {
			if !s.XM.Known() || !s.YM.Known() {
				continue
			}
			rows = append(rows, []any{s.ID, s.YM, s.XM, s.BedM, fmt.Sprintf("BED AT DAM AXIS %s SILL %s WHICH IS %s UP", r.id, plain(s.NotchSillM), plain(s.EffectiveHeightM))})
		}
	}
	return writeTable(w, StakeoutTable(), rows)
}

// plain writes a height to a millimetre, or that it is not known.
func plain(m facts.Num) string {
	if !m.Known() {
		return "NOT KNOWN"
	}
	return fmt.Sprintf("%.3f", float64(m))
}
