package hydro

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"siltstep/hydro/flow"

	"github.com/paulmach/orb"
)

// mostNamed is how many cuts, and how many depressions, are named one by one. Source: our own
// choice; the layer depressions.geojson holds the rest.
const mostNamed = 5

// blockages tells what was cut, filled and kept: the sums by cause, then the largest by name.
func blockages(p *Plan) []Finding {
	var out []Finding
	filled := "filled because no cut within the limits drains them, or left for review"
	if cfg := p.Config.Flow; cfg.CutLengthM == 0 && (cfg.RoadCutLengthM == 0 || len(cfg.Features.Roads) == 0) {
		filled = "filled"
	}
	for _, k := range []struct {
		kind, rule, doing string
		small             int
	}{
		{DepressionCut, FindingCuts, "cut through so that water passes", p.Flow.SmallCuts},
		{DepressionFilled, FindingDepressions, filled, p.Flow.SmallDepressions},
		{DepressionKept, FindingKept, "declared as water and left as they are", 0},
	} {
		of := slices.DeleteFunc(slices.Clone(p.Depressions), func(d Depression) bool { return d.Kind != k.kind })
		if len(of)+k.small == 0 {
			continue
		}
		out = append(out, Finding{Rule: k.rule, Text: fmt.Sprintf("Places that hold water back, %s: %s.", k.doing, sums(of, k.small, k.kind == DepressionKept))})
		named := 0
		for _, d := range of {
			if !d.Minor && named < mostNamed {
				named++
				out = append(out, Finding{Rule: k.rule, Subject: d.Drainage, Text: d.told(), Placed: true, At: orb.Point{d.X, d.Y}})
			}
		}
	}
	return append(append(out, refused(p)...), unused(p)...)
}

// sums counts depressions by cause, with their volumes, the most voluminous cause first; small is
// the number of those too small to be listed, known says that the causes were declared.
func sums(all []Depression, small int, known bool) string {
	type sum struct {
		cause flow.Cause
		n     int
		m3    float64
	}
	var by []sum
	for _, d := range all {
		i := slices.IndexFunc(by, func(s sum) bool { return s.cause == d.Cause })
		if i < 0 {
			i, by = len(by), append(by, sum{cause: d.Cause})
		}
		by[i].n++
		by[i].m3 += d.VolumeM3
	}
	slices.SortStableFunc(by, func(a, b sum) int { return cmp.Or(cmp.Compare(b.m3, a.m3), cmp.Compare(a.cause, b.cause)) })
	parts := make([]string, len(by))
	for i, s := range by {
		parts[i] = fmt.Sprintf("%s %d (%.1f m³)", causeWords[s.cause], s.n, s.m3)
	}
	unlisted := ""
	if small > 0 {
		unlisted = fmt.Sprintf("%d of a few cells or centimetres, noise of the survey, which are not listed", small)
	}
	if len(all) == 0 {
		return unlisted
	}
	likely := "likely cause "
	if known {
		likely = ""
	}
	text := fmt.Sprintf("%d in depressions.geojson, %s%s", len(all), likely, strings.Join(parts, ", "))
	if small > 0 {
		text += "; and " + unlisted
	}
	return text
}

// causeWords puts a cause into a sentence.
var causeWords = map[flow.Cause]string{
	flow.CauseCulvert: "declared culvert", flow.CauseRoadFill: "road fill", flow.CauseNoise: "noise of the survey",
	flow.CauseStockPond: "stock pond", flow.CausePlaya: "playa", flow.CauseUnknown: "unknown",
}

// told tells of one depression: place, size, likely cause, and what to do.
func (d Depression) told() string {
	where := fmt.Sprintf("%s at x %.1f, y %.1f m", d.ID, d.X, d.Y)
	if d.Drainage != "" {
		where += " on " + d.Drainage
	}
	size := ""
	switch {
	case d.Kind == DepressionCut:
		size = fmt.Sprintf("was cut %.2f m deep over %.1f m, %.1f m³", d.DepthM, d.LengthM, d.VolumeM3)
	case d.Kind == DepressionFilled:
		size = fmt.Sprintf("was filled, %.2f m deep, %.0f m² and %.1f m³", d.DepthM, d.AreaM2, d.VolumeM3)
	case d.Cause == flow.CausePlaya:
		return fmt.Sprintf("%s, %.0f m²: %s.", where, d.AreaM2, lower(d.Note))
	default:
		return fmt.Sprintf("%s, %.2f m deep above the ground in the data, %.0f m²: %s.", where, d.DepthM, d.AreaM2, lower(d.Note))
	}
	text := fmt.Sprintf("%s %s; likely cause: %s.", where, size, causeWords[d.Cause])
	if d.Kind == DepressionFilled && d.Note != "" {
		text += " " + d.Note + "."
	}
	return text + " " + d.advice()
}

func (d Depression) advice() string {
	switch {
	case d.Kind == DepressionCut && d.Cause == flow.CauseCulvert:
		return "See that the culvert is open."
	case d.Kind == DepressionCut && d.Cause == flow.CauseRoadFill:
		return "Probably a culvert: go and look, and give its place in flow.culverts."
	case d.Kind == DepressionCut:
		return "Look on the ground for what lets the water pass: a culvert goes into flow.culverts, a pond into flow.stock_ponds."
	case d.Cause == flow.CauseStockPond:
		return "If it is a stock pond or playa, give its outline in flow.stock_ponds; if water passes under it, the culvert in flow.culverts."
	}
	return "Probably a culvert, or a pit: go and look, and give the culvert in flow.culverts, or the road in flow.roads."
}

// refused counts the cuts that were not made: by the limit that they would break, and the likely stock ponds that were left for
// review.
func refused(p *Plan) (out []Finding) {
	counts := map[string]int{}
	for _, d := range p.Flow.Depressions {
		if d.Why != "" {
			counts[d.Why]++
		}
	}
	if n := counts[flow.WhyReview]; n > 0 {
		out = append(out, Finding{Rule: FindingLimits, Text: fmt.Sprintf("Likely stock ponds left for review (%d): water deeper than 0.3 m over more than 100 m², with no road near where it spills. "+
			"They were filled although a cut within the limits would drain them. Give each in flow.stock_ponds, or the culvert through its bank in flow.culverts.", n)})
		delete(counts, flow.WhyReview)
	}
	if len(counts) == 0 {
		return out
	}
	var parts []string
	for why, n := range counts {
		parts = append(parts, fmt.Sprintf("%d would be %s", n, why))
	}
	slices.Sort(parts)
	return append(out, Finding{Rule: FindingLimits,
		Text: fmt.Sprintf("Cuts that were not made, and the ground filled instead: %s. Where a culvert is behind it, give it in flow.culverts or the road in flow.roads; else the limits are flow.cut_length, flow.cut_depth, flow.road_cut_length, flow.road_cut_depth and flow.road_reach.", strings.Join(parts, ", "))})
}

// unused names what was declared and changed nothing.
func unused(p *Plan) (out []Finding) {
	for _, text := range p.Flow.Unused {
		out = append(out, Finding{Rule: FindingUnused, Text: fmt.Sprintf("Declared, and of no effect: %s. Look at its place on the map.", text)})
	}
	return out
}

// inflows tells what was said of water that enters over the edge of the data.
func inflows(p *Plan) (Finding, bool) {
	given := p.Flow.Settled
	total, borders, movedM := 0.0, 0, 0.0
	for _, s := range given {
		total += s.Inflow.CatchmentM2
		borders += s.Borders
		movedM = max(movedM, s.MovedM)
	}
	left := fmt.Sprintf("%d drainages stay truncated.", p.Totals.Truncated)
	if p.Totals.Truncated == 0 {
		left = "No drainage stays truncated."
	}
	return Finding{Rule: FindingInflow,
		Text: fmt.Sprintf("Declared inflow points (%d) add %.2f ha of land outside the data, as given, to the catchments below them; points were moved up to %.1f m to the channel. That settles %d border cells over which water enters. %s", len(given), total/10_000, movedM, borders, left),
	}, len(given) > 0
}

func edgeClosed(p *Plan) (Finding, bool) {
	return Finding{Rule: FindingEdge,
		Text: "The edge is declared closed (flow.edge): nothing is taken to flow in over the edge of the data, and no catchment reads \"at least\". See that this is true before anything is sized by it.",
	}, p.Config.Flow.Edge == flow.EdgeClosed
}

// lower writes the first letter small.
func lower(text string) string { return strings.ToLower(text[:1]) + text[1:] }
