package report

import (
	"cmp"
	"fmt"
	"io"
	"slices"

	"siltstep/geojson"
	"siltstep/hydro/erosion"
)

// rankedParts are the parts of a severity in the order of ranking.csv: name of the part,
// its value as a column, and what the columns of its score and weight begin with.
var rankedParts = []struct {
	name, stem string
	value      geojson.Field
}{
	{"incision", "incision", geojson.Field{Name: "incision_mean_m", Type: geojson.Real, Unit: "m", Decimals: 2,
		Meaning: "mean depth of the bed below the land beside it, by length", Null: noDepth}},
	{"headcuts", "headcut", geojson.Field{Name: "headcut_m_per_100m", Type: geojson.Real, Unit: "m/100 m", Decimals: 3,
		Meaning: "height of all headcuts, those at roads and stock ponds left out, over the length whose bed is seen", Null: "the bed is seen nowhere"}},
	{"shear", "shear", geojson.Field{Name: "shear_ratio", Type: geojson.Real, Unit: "1", Decimals: 2,
		Meaning: "greatest shear of the storm on the bed over what its material bears, exceeded along a tenth of the stations", Null: "no storm or no bed material was given"}},
	{"bank-slope", "bank_slope", geojson.Field{Name: "bank_slope", Type: geojson.Real, Unit: "1", Decimals: 2,
		Meaning: "middle slope of the banks where the bed is incised, height over width, a bank narrower than a cell counted as a cell wide; 0 where hardly any of it is", Null: "too few cross-sections show banks"}},
	{"incised-length", "incised", geojson.Field{Name: "incised_share", Type: geojson.Real, Unit: "1", Decimals: 3,
		Meaning: "share of the known length that is as deep as erosion.incised_depth or deeper", Null: noDepth}},
}

// ranked returns the drainages of a record by rank; those without a rank stand at the end.
// Where erosion was not judged they stand as they are.
func (r Record) ranked() []int {
	order := make([]int, len(r.Plan.Network.Drainages))
	for i := range order {
		order[i] = i
	}
	place := func(i int) int {
		if rank := r.judgement(i).Severity.Rank; rank > 0 {
			return rank
		}
		return len(order) + 1
	}
	slices.SortStableFunc(order, func(a, b int) int { return cmp.Compare(place(a), place(b)) })
	return order
}

// judgement returns what is known of the erosion of a drainage.
func (r Record) judgement(i int) erosion.Judgement {
	if i < len(r.Plan.Erosion) {
		return r.Plan.Erosion[i]
	}
	return unjudged
}

// WriteRanking writes ranking.csv: a row for each drainage, the worst first, with every part
// of its severity. Error: w failed.
func WriteRanking(w io.Writer, r Record) error {
	var rows [][]any
	for _, i := range r.ranked() {
		rows = append(rows, rankingRow(r, i))
	}
	if err := writeTable(w, RankingTable().Fields, rows); err != nil {
		return fmt.Errorf("ranking.csv: %w", err)
	}
	return nil
}

func rankingRow(r Record, i int) []any {
	d, j := &r.Plan.Network.Drainages[i], r.judgement(i)
	s := j.Severity
	row := []any{countOrNull(s.Rank), d.ID, s.Total, orNull(string(s.Class)), s.Steady}
	for _, p := range rankedParts {
		if part, ok := partOf(s, p.name); ok {
			row = append(row, part.Value, part.Score, part.Weight)
		} else {
			row = append(row, nil, nil, nil)
		}
	}
	var headcuts any
	if i < len(r.Plan.Erosion) {
		headcuts = geojson.CountHeadcuts(j.Headcuts)
	}
	return append(row, j.Depths.MaxM, headcuts, j.Depths.KnownShare, j.Depths.ResolvedShare, j.Depths.DisagreeM,
		d.Profile.LengthM(), d.CatchmentM2/squareMetresPerHectare, d.Truncated, r.propertyShare(i))
}

// partOf returns a part of a severity by name.
func partOf(s erosion.Severity, name string) (erosion.Part, bool) {
	for _, p := range s.Parts {
		if p.Name == name {
			return p, true
		}
	}
	return erosion.Part{}, false
}

// countOrNull returns nil for a count of nothing.
func countOrNull(n int) any {
	if n == 0 {
		return nil
	}
	return n
}
