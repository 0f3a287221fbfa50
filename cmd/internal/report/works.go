package report

import (
	"bytes"
	"fmt"
	"io"
	"math"
	"strings"

	"siltstep/cmd/internal/units"
	"siltstep/geojson"
	"siltstep/hydro"
)

// mostNamedDams is how many dams are named one by one. Source: our own choice, about a line.
const mostNamedDams = 6

// writeWorks writes the sums of the designs: storm, rock, storage, work and cost.
func writeWorks(rows io.Writer, p *hydro.Plan, system units.System) {
	if p.Designs == nil || p.Totals.Dams == 0 {
		return
	}
	t := p.Totals
	stormRows(rows, p, system)
	if !math.IsNaN(t.RockM3) {
		fmt.Fprintf(rows, "  Rock\t%s to order, %s in place\n", system.Mass(t.RockT, 1), system.Volume(t.RockM3, 1))
	}
	if !math.IsNaN(t.PondM3) {
		fmt.Fprintf(rows, "  Water\t%s up to the sills\n", system.Volume(t.PondM3, 0))
		fmt.Fprintf(rows, "  Silt\t%s when full\n", siltText(t, system))
	}
	if !math.IsNaN(t.PersonDays) {
		fmt.Fprintf(rows, "  Work\t%.1f person-days\n", t.PersonDays)
	}
	if !math.IsNaN(t.Cost) {
		fmt.Fprintf(rows, "  Cost\t%s\n", strings.TrimSpace(fmt.Sprintf("%.0f %s", t.Cost, p.Config.Works.Prices.Currency)))
	}
}

// writeWarnings writes what speaks against the designs, and what they leave out.
func writeWarnings(out *bytes.Buffer, p *hydro.Plan, system units.System) {
	if p.Designs == nil {
		return
	}
	sum := sumDesigns(p)
	if n := len(sum.unbuildable); n > 0 {
		paragraph(out, "  ", fmt.Sprintf("DO NOT BUILD %s as designed: %s. Why, and a lower height that would do where there is one, stands in the cautions of each in sites.geojson. The sums above hold them, with %s of the rock to order and %s of the silt.", counted(n, "dam"), someOf(sum.unbuildable),
			system.Mass(sum.unbuildableT, 1), system.Volume(sum.unbuildableM3, 0)))
	}
	if sum.leastOverHighest < 1-capacitySlack {
		paragraph(out, "  ", fmt.Sprintf("FAIL: a notch carries only %.0f %% of the highest valid peak, since runoff.method chose a lower one.", 100*sum.leastOverHighest))
	}
	if sum.unstoned > 0 {
		paragraph(out, "  ", fmt.Sprintf("No stone size for %s, where no method is in its range.", counted(sum.unstoned, "dam")))
	}
	if p.Totals.Undesigned > 0 {
		paragraph(out, "  ", fmt.Sprintf("Not designed, and in none of these sums: %s, where no cross-section near the axis shows bed and banks. Measure there, and use siltstep size.", counted(p.Totals.Undesigned, "dam")))
	}
	if sum.unnotched > 0 {
		paragraph(out, "  ", fmt.Sprintf("No peak is known at %s: their rock ends at the sill, without wings, so that its sum is too low.", counted(sum.unnotched, "dam")))
	}
	if sum.most >= tellSpreadFrom {
		paragraph(out, "  ", fmt.Sprintf("The valid methods differ at one and the same dam, by up to %.1f times: no peak is exact.", sum.most))
	}
}

// tellSpreadFrom is the ratio of two peaks from which a spread is told here. Source: our own choice; the findings tell any.
const tellSpreadFrom = 1.05

// capacitySlack is what the search for a head may leave of a capacity, as a share. Source: our own choice.
const capacitySlack = 1e-4

// stormRows tells of the design storm and its peaks.
func stormRows(rows io.Writer, p *hydro.Plan, system units.System) {
	sum := sumDesigns(p)
	if sum.peaks == 0 {
		fmt.Fprint(rows, "  Storm\tnone known, so no notch and no stone size: see the findings\n")
		return
	}
	var parts []string
	if yr := geojson.ReturnPeriodYr(p.Config.Storm); yr > 0 {
		parts = append(parts, fmt.Sprintf("once in %g years", yr))
	}
	if h := p.Config.Storm.HoursH; h > 0 {
		parts = append(parts, fmt.Sprintf("%.3g h long", h))
	}
	if parts == nil {
		parts = []string{"as given"}
	}
	fmt.Fprintf(rows, "  Storm\t%s\n", strings.Join(parts, ", "))
	spread := flowText(sum.lowM3s, system)
	if high := flowText(sum.highM3s, system); high != spread {
		spread += " to " + high
	}
	fmt.Fprintf(rows, "  Peaks\t%s at %s\n", spread, counted(sum.peaks, "dam"))
}

// someOf lists the first of many names.
func someOf(names []string) string {
	if more := len(names) - mostNamedDams; more > 0 {
		return fmt.Sprintf("%s and %d more", strings.Join(names[:mostNamedDams], ", "), more)
	}
	return strings.Join(names, ", ")
}

// siltText writes the silt that all dams hold, with low and high where they are known.
func siltText(t hydro.Totals, system units.System) string {
	text := system.Volume(t.SedimentM3, 0)
	if !math.IsNaN(t.SedimentLowM3) && !math.IsNaN(t.SedimentHighM3) {
		v := system.VolumeScale()
		text += fmt.Sprintf(" (%.0f to %.0f)", v.Value(t.SedimentLowM3), v.Value(t.SedimentHighM3))
	}
	return text
}
