package field

import (
	"io"

	"siltstep/cmd/internal/facts"
	"siltstep/geojson"
)

// What an empty value of sites.csv means.
const (
	noOrder   = "the plan gives its series no place in the order of building"
	lowest    = "it is the lowest dam of its drainage"
	noProfile = "the bed at the landmark is not known"
	noCRS     = "unknown"
	noSection = "no cross-section near the dam shows bed and banks"
	noPeak    = "the peak is not known; or " + noSection
	noStone   = "no stone method is in its range; or " + noPeak
)

// SitesTable describes the columns of sites.csv.
func SitesTable() geojson.Layer {
	return geojson.Layer{Name: "sites.csv", Meaning: "the dams in the order in which they are built, with the way to each by tape and level", Fields: []geojson.Field{
		{Name: "id", Type: geojson.Text, Meaning: "drainage and number, D07-03"},
		{Name: "drainage", Type: geojson.Text, Meaning: "drainage the dam stands in"},
		{Name: "series_id", Type: geojson.Text, Meaning: "series the dam belongs to, D07-S1"},
		{Name: "series_order", Type: geojson.Int, Meaning: "place of the series in the order of building", Null: noOrder},
		{Name: "build_order", Type: geojson.Int, Meaning: "place of the dam in the order of building, through all series", Null: noOrder},
		{Name: "lon", Type: geojson.Real, Unit: "°", Decimals: geojson.DegreeDecimals, Meaning: "WGS 84 longitude of the dam axis", Null: "the plan gives no position"},
		{Name: "lat", Type: geojson.Real, Unit: "°", Decimals: geojson.DegreeDecimals, Meaning: "WGS 84 latitude of the dam axis", Null: "the plan gives no position"},
		{Name: "x_m", Type: geojson.Real, Unit: "m", Decimals: 2, Meaning: "easting in grid_crs", Null: "the plan gives no position"},
		{Name: "y_m", Type: geojson.Real, Unit: "m", Decimals: 2, Meaning: "northing in grid_crs", Null: "the plan gives no position"},
		{Name: "grid_crs", Type: geojson.Text, Meaning: "coordinate system of x_m and y_m, that of the analysed grid; its UTM zone where it is one", Null: noCRS},
		{Name: "station_m", Type: geojson.Real, Unit: "m", Decimals: 2, Meaning: "distance along the channel line from the lower end of the drainage"},
		{Name: "below_id", Type: geojson.Text, Meaning: "next dam below in the drainage, of whatever series", Null: lowest},
		{Name: "from_below_m", Type: geojson.Real, Unit: "m", Decimals: 2, Meaning: "level distance along the channel from that dam, axis to axis", Null: lowest},
		{Name: "rise_from_below_m", Type: geojson.Real, Unit: "m", Decimals: 3, Meaning: "rise of the bed from that dam, axis to axis", Null: lowest},
		{Name: "landmark", Type: geojson.Text, Meaning: "place from which from_landmark_m counts"},
		{Name: "from_landmark_m", Type: geojson.Real, Unit: "m", Decimals: 2, Meaning: "level distance along the channel from the landmark, adding up from dam to dam"},
		{Name: "rise_from_landmark_m", Type: geojson.Real, Unit: "m", Decimals: 3, Meaning: "rise of the bed from the landmark", Null: noProfile},
		{Name: "bed_m", Type: geojson.Real, Unit: "m", Decimals: 3, Meaning: "elevation of the original bed at the axis"},
		{Name: "notch_sill_m", Type: geojson.Real, Unit: "m", Decimals: 3, Meaning: "elevation of the notch sill"},
		{Name: "effective_height_m", Type: geojson.Real, Unit: "m", Decimals: 3, Meaning: "notch sill above the original bed"},
		{Name: "crest_length_m", Type: geojson.Real, Unit: "m", Decimals: 2, Meaning: "length of the dam crest across the channel", Null: noSection},
		{Name: "notch_width_m", Type: geojson.Real, Unit: "m", Decimals: 2, Meaning: "width of the notch at its sill", Null: noPeak},
		{Name: "notch_depth_m", Type: geojson.Real, Unit: "m", Decimals: 2, Meaning: "depth of the notch below the top of the wings", Null: noPeak},
		{Name: "stone_d50_m", Type: geojson.Real, Unit: "m", Decimals: 3, Meaning: "median stone size: half of the stones are larger", Null: noStone},
		{Name: "rock_t", Type: geojson.Real, Unit: "t", Decimals: 2, Meaning: "rock to order by weight, waste included", Null: noSection},
		{Name: "cautions", Type: geojson.Text, Meaning: "what to heed at this dam, sentences joined by \"; \"; \"\" where there is nothing"},
	}}
}

// WriteSites writes sites.csv: a row a dam, in build order. Error: w failed.
func WriteSites(w io.Writer, f *facts.Folder) error {
	tapes := tapesOf(f)
	var rows [][]any
	turn := 0
	for _, r := range runsOf(f) {
		for _, s := range r.dams {
			t := tapes[s.ID]
			var at any
			if r.order > 0 {
				turn++
				at = turn
			}
			rows = append(rows, []any{s.ID, s.Drainage, r.id, countOrNull(r.order), at, s.Lon, s.Lat, s.XM, s.YM, f.Grid.CRS, s.StationM,
				t.below, t.fromBelowM, t.riseM, t.landmark, t.fromLandmarkM, t.landmarkRiseM, s.BedM, s.NotchSillM, s.EffectiveHeightM,
				s.CrestLengthM, s.NotchWidthM, s.NotchDepthM, s.StoneD50M, s.RockT, s.Cautions})
		}
	}
	return writeTable(w, SitesTable(), rows)
}
