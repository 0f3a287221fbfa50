package field

import (
	"cmp"
	"fmt"
	"strings"

	"siltstep/cmd/internal/facts"
	"siltstep/cmd/internal/units"
	"siltstep/geojson"
)

// Options say how files for people read.
type Options struct {
	System units.System // of names and descriptions
	Title  string       // of the land; "Check-dam plan" where empty
}

func (o Options) title() string { return cmp.Or(o.Title, "Check-dam plan") }

// head returns the cautions of the plan, and what is missing from the file.
func head(f *facts.Folder) string {
	var said []string
	for _, c := range f.Cautions {
		said = append(said, c.Text)
	}
	said = append(said, "A receiver in the hand may be several metres off: set stakes by tape and level from the dam below.")
	dams, headcuts := 0, 0
	for _, s := range f.Sites {
		if !placed(s.Place) {
			dams++
		}
	}
	for _, h := range f.Headcuts {
		if !placed(h.Place) {
			headcuts++
		}
	}
	if dams+headcuts > 0 {
		said = append(said, fmt.Sprintf("Left out, because the plan gives no position: %d dams and %d headcuts.", dams, headcuts))
	}
	return strings.Join(said, " ")
}

// placed tells whether a position is known in degrees.
func placed(p facts.Place) bool { return p.Lon.Known() && p.Lat.Known() }

// degrees writes an angle as in the map layers.
func degrees(x facts.Num) string {
	return string(geojson.AppendReal(nil, float64(x), geojson.DegreeDecimals, ""))
}

// metres writes an elevation of the plan; empty where it is not known.
func metres(x facts.Num) string { return string(geojson.AppendReal(nil, float64(x), 3, "")) }
