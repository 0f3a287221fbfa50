package report

import (
	"bytes"
	"fmt"
	"math"
	"strings"
	"text/tabwriter"

	"siltstep/cmd/internal/units"
	"siltstep/geojson"
	"siltstep/hydro"
	"siltstep/hydro/channel"
	"siltstep/hydro/erosion"
)

const depthDecimals = 2

// writeScreening writes the sums and the drainages by severity.
func writeScreening(out *bytes.Buffer, r Record, system units.System) {
	out.WriteString("Erosion by drainage: a planning aid. Walk the worst before anything is decided.\n\n")
	rows := tabwriter.NewWriter(out, 0, 0, 2, ' ', 0)
	writeLand(rows, r.Plan, system)
	if r.PropertyShare != nil {
		fmt.Fprintf(rows, "  Property\t%s of channel inside\n", system.Length(insideM(r), lengthDecimals))
	}
	rows.Flush()
	if len(r.Plan.Network.Drainages) == 0 {
		return
	}
	out.WriteByte('\n')
	writeRanked(out, r, system)
	out.WriteByte('\n')
	paragraph(out, "  ", severityText())
}

// insideM returns the length of channel inside the property, m.
func insideM(r Record) float64 {
	sum := 0.0
	for i, share := range r.PropertyShare {
		sum += share * r.Plan.Network.Drainages[i].Profile.LengthM()
	}
	return sum
}

func writeRanked(out *bytes.Buffer, r Record, system units.System) {
	length, area := system.LengthScale(), system.AreaScale()
	fmt.Fprintf(out, "Drainages by severity (lengths and depths in %s, catchments in %s)\n", length.Unit, area.Unit)
	rows := tabwriter.NewWriter(out, 0, 0, 2, ' ', tabwriter.AlignRight)
	fmt.Fprint(rows, "rank\tid\tclass\tseverity\tmean\tdeepest\theadcuts\tcatchment\tlength\ttop ten\t")
	if r.PropertyShare != nil {
		fmt.Fprint(rows, "inside\t")
	}
	fmt.Fprintln(rows)
	order := r.ranked()
	for _, i := range order[:min(len(order), mostDrainages)] {
		d, j := &r.Plan.Network.Drainages[i], r.judgement(i)
		rank, class := units.NotKnown, units.NotKnown
		if j.Severity.Rank > 0 {
			rank, class = fmt.Sprint(j.Severity.Rank), string(j.Severity.Class)
		}
		fmt.Fprintf(rows, "%s\t%s\t%s\t%s\t%s\t%s\t%d\t%s\t%s\t%s\t", rank, d.ID, class, number(j.Severity.Total, 0),
			number(length.Value(j.Depths.MeanM), depthDecimals), number(length.Value(j.Depths.MaxM), depthDecimals), geojson.CountHeadcuts(j.Headcuts),
			catchmentText(d, area), number(length.Value(d.Profile.LengthM()), 0), percent(j.Severity.Steady))
		if r.PropertyShare != nil {
			fmt.Fprintf(rows, "%s\t", percent(r.PropertyShare[i]))
		}
		fmt.Fprintln(rows)
	}
	rows.Flush()
	if more := len(order) - mostDrainages; more > 0 {
		fmt.Fprintf(out, "  and %d more in ranking.csv\n", more)
	}
}

// severityText explains the table.
func severityText() string {
	return fmt.Sprintf("Severity runs from 0 to 100 and is this project's judgement: below %g sound, to %g watch, to %g eroding, above severe; and never sound where one piece of %g m or more is deep or has a headcut. "+
		"Mean and deepest say how far the bed lies below the land beside it. Top ten: share of %d draws of weights and heights "+
		"in which the drainage is among the first %d; below 100 %% its place is not firm. ≥: water enters over the edge of the data. "+
		"The parts of each severity stand in ranking.csv; --explain ID prints the evidence of one drainage.",
		erosion.WatchFrom, erosion.ErodingOver, erosion.SevereOver, erosion.WornM, erosion.SteadyDraws, erosion.SteadyFirst)
}

// classText says how many drainages are of each class that occurs.
func classText(p *hydro.Plan) string {
	var parts []string
	for _, c := range classes(p) {
		if c.n > 0 {
			parts = append(parts, fmt.Sprintf("%d %s", c.n, className(c.class)))
		}
	}
	if len(parts) == 0 {
		return units.NotKnown
	}
	return strings.Join(parts, ", ")
}

// className returns the word for a class.
func className(c erosion.Class) string {
	if c == "" {
		return "not judged"
	}
	return string(c)
}

// catchmentText marks the catchment of a truncated drainage.
func catchmentText(d *channel.Drainage, area units.Scale) string {
	text := number(area.Value(d.CatchmentM2), areaDecimals)
	if d.Truncated {
		return "≥ " + text
	}
	return text
}

// number returns a value with fixed decimals; units.NotKnown where there is none.
func number(v float64, decimals int) string {
	return strings.TrimSpace(units.Scale{One: 1}.Text(v, decimals))
}

// percent returns a share in whole percent. Only the whole is 100 %.
func percent(share float64) string {
	if math.IsNaN(share) {
		return units.NotKnown
	}
	whole := math.Round(100 * share)
	if whole == 100 && share < 1 {
		whole = 99
	}
	return fmt.Sprintf("%.0f %%", whole)
}
