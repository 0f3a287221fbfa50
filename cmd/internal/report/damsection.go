package report

import (
	"fmt"
	"io"
	"math"

	"siltstep/geojson"
	"siltstep/hydro/checkdam"
)

// DamSectionTable describes the columns of the section at a dam.
func DamSectionTable() geojson.Layer {
	return table("sections of dams", "the ground across the channel at a dam, from left to right looking downstream, and the top of the dam: a row a sample of the elevation model and one "+
		"at each corner of the dam, two where it is upright", []geojson.Field{
		{Name: "offset_m", Type: geojson.Real, Unit: "m", Decimals: 3, Meaning: "distance from the thalweg, left negative looking downstream"},
		{Name: "ground_m", Type: geojson.Real, Unit: "m", Decimals: 3, Meaning: "elevation of the ground at the nearest cross-section with banks, raised or lowered as a whole so that its bed is at the level of the bed at the axis", Null: "no data"},
		{Name: "dam_m", Type: geojson.Real, Unit: "m", Decimals: 3, Meaning: "elevation of the top of the dam, wings and notch, or of the sill alone where no notch is known; it ends at the banks as they are estimated, which may be steeper than the cells show", Null: "no dam here"},
	})
}

// WriteDamSection writes the section at a dam. ground are elevations from left to right, NaN where there is no data; dam holds the
// stretches of the dam, from left to right, elevations too. Error: w failed.
func WriteDamSection(w io.Writer, ground []checkdam.Point, dam [][]checkdam.Rise) error {
	var rows [][]any
	next := 0
	samples := func(beforeM float64, crest ...checkdam.Point) {
		for ; next < len(ground) && ground[next].OffsetM < beforeM; next++ {
			g := ground[next]
			rows = append(rows, []any{g.OffsetM, g.LevelM, checkdam.LevelAt(crest, g.OffsetM)})
		}
	}
	for _, stretch := range dam {
		samples(stretch[0].OffsetM)
		last := stretch[0]
		for _, r := range stretch {
			samples(r.OffsetM, checkdam.Point{OffsetM: last.OffsetM, LevelM: last.CrestM}, checkdam.Point{OffsetM: r.OffsetM, LevelM: r.CrestM})
			for next < len(ground) && ground[next].OffsetM == r.OffsetM {
				next++
			}
			rows = append(rows, []any{r.OffsetM, checkdam.LevelAt(ground, r.OffsetM), r.CrestM})
			last = r
		}
	}
	samples(math.Inf(1))
	if err := writeTable(w, DamSectionTable().Fields, rows); err != nil {
		return fmt.Errorf("section at a dam: %w", err)
	}
	return nil
}
