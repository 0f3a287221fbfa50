package cli

import (
	"io"
	"path/filepath"
	"strings"

	"siltstep/cmd/internal/report"
	"siltstep/geojson"
)

// tracingFields describes profile.json.
func tracingFields() []geojson.Field {
	real := func(name, unit string, decimals int, meaning string) geojson.Field {
		return geojson.Field{Name: name, Type: geojson.Real, Unit: unit, Decimals: decimals, Meaning: meaning}
	}
	text := func(name, meaning string) geojson.Field {
		return geojson.Field{Name: name, Type: geojson.Text, Meaning: meaning}
	}
	return []geojson.Field{
		text("program", "what wrote the profile"),
		text("version", "version of the program"),
		text("crs", "coordinate system of x_m and y_m in profile.csv"),
		real("asked_lon", "°", geojson.DegreeDecimals, "WGS 84 longitude asked for"),
		real("asked_lat", "°", geojson.DegreeDecimals, "WGS 84 latitude asked for"),
		real("start_lon", "°", geojson.DegreeDecimals, "WGS 84 longitude of the channel cell it begins at"),
		real("start_lat", "°", geojson.DegreeDecimals, "WGS 84 latitude of the channel cell it begins at"),
		real("moved_m", "m", 1, "distance from the point asked for to that cell"),
		real("length_m", "m", 2, "length along the channel line"),
		real("drop_m", "m", 3, "fall of the bed from the upper to the lower end"),
		real("catchment_ha", "ha", 4, "land that drains to the lower end"),
		{Name: "truncated", Type: geojson.Bool, Meaning: "water enters the catchment over the edge of the data: its area reads \"at least\""},
		text("decisions", "what was decided about the grid, one sentence after the other"),
		text("inputs", "files that were read, with SHA-256 checksums, joined by \"; \""),
	}
}

func (t *tracing) writeJSON(w io.Writer) error {
	inputs := ""
	for i, in := range t.inputs {
		if i > 0 {
			inputs += "; "
		}
		inputs += filepath.Base(in.Path) + " " + in.SHA256
	}
	line := geojson.AppendProperties(nil, tracingFields(), []any{
		report.Tool, Version, t.crs, t.asked[0], t.asked[1], t.start[0], t.start[1], t.movedM,
		t.path.LengthM(), t.path.DropM(), t.catchmentM2 / squareMetresPerHectare, t.truncated, strings.Join(t.decisions, " "), inputs,
	})
	_, err := w.Write(append(line, '\n'))
	return err
}
