package report

import (
	"bytes"
	"fmt"
	"io"
	"strings"
	"text/tabwriter"

	"siltstep/cmd/internal/units"
	"siltstep/geojson"
	"siltstep/hydro"
)

const (
	terminalCols    = 92 // width of running text, characters
	mostDrainages   = 30 // rows of the table of drainages with dams
	mostPerFinding  = 4  // findings shown of one rule
	lengthDecimals  = 1
	areaDecimals    = 2
	percentDecimals = 1
)

// WriteTerminal writes what a person reads when a plan is done, in the units of the system:
// sums, the drainages that have dams, findings by rule and cautions; where no sites were
// looked for, sums, drainages by severity, findings and cautions. Error: w failed.
func WriteTerminal(w io.Writer, r Record, system units.System) error {
	var out bytes.Buffer
	if r.ScreenedOnly() {
		writeScreening(&out, r, system)
	} else {
		out.WriteString("Check-dam plan: a planning aid, not an engineered design. Walk every site.\n\n")
		writeTotals(&out, r.Plan, system)
		writeDrainages(&out, r, system)
		writeKeptOff(&out, r.Plan, system)
		writeScenarios(&out, r.Plan.Scenarios, r.Plan.Config.Works.Prices.Currency, system)
	}
	writeFindings(&out, r.Plan.Findings, r.File())
	out.WriteString("\nCautions\n")
	for _, c := range Cautions(system) {
		paragraph(&out, "  - ", c)
	}
	out.WriteByte('\n')
	paragraph(&out, "  ", sourceLine(planSources(r.Plan), r.File()))
	_, err := w.Write(out.Bytes())
	return err
}

func writeTotals(out *bytes.Buffer, p *hydro.Plan, system units.System) {
	t := p.Totals
	rows := tabwriter.NewWriter(out, 0, 0, 2, ' ', 0)
	writeLand(rows, p, system)
	fmt.Fprintf(rows, "  Eligible\t%s\n", system.Length(t.EligibleM, lengthDecimals))
	fmt.Fprintf(rows, "  Treated\t%s\n", system.Length(t.TreatedM, lengthDecimals))
	fmt.Fprintf(rows, "  Dams\t%d in %d series\n", t.Dams, t.Series)
	writeWorks(rows, p, system)
	rows.Flush()
	out.WriteByte('\n')
	writeWarnings(out, p, system)
	paragraph(out, "  ", "T"+geojson.TreatedMeaning[1:]+".")
}

// writeLand writes the sums that stand in every summary.
func writeLand(rows io.Writer, p *hydro.Plan, system units.System) {
	t, truncated := p.Totals, ""
	if t.Truncated > 0 {
		truncated = fmt.Sprintf(", %d truncated (their areas read \"at least\")", t.Truncated)
	}
	fmt.Fprintf(rows, "  Drainages\t%d%s\n", t.Drainages, truncated)
	fmt.Fprintf(rows, "  Channel\t%s\n", system.Length(t.ChannelM, lengthDecimals))
	fmt.Fprintf(rows, "  Erosion\t%s\n", classText(p))
}

func writeDrainages(out *bytes.Buffer, r Record, system units.System) {
	p := r.Plan
	if p.Totals.Dams == 0 {
		return
	}
	length, area, slope := system.LengthScale(), system.AreaScale(), system.SlopeScale()
	mass, volume := system.MassScale(), system.VolumeScale()
	out.WriteString("\nDrainages with dams\n")
	paragraph(out, "  ", fmt.Sprintf("Lengths in %s, catchments in %s, rock to order in %s, silt in %s%s.", length.Unit, area.Unit, mass.Unit, volume.Unit, costUnit(p)))
	rows := tabwriter.NewWriter(out, 0, 0, 2, ' ', tabwriter.AlignRight)
	fmt.Fprint(rows, "id\tclass\tcatchment\tlength\tslope %\teligible\ttreated\tdams\tseries\trock\tsilt\tcost\t\n")
	shown, with := 0, 0
	for i, d := range p.Network.Drainages {
		if i >= len(p.Layouts) || len(p.Layouts[i].Sites) == 0 {
			continue
		}
		if with++; with > mostDrainages {
			continue
		}
		shown++
		l, m := p.Layouts[i], d.Profile.LengthM()
		q := quantitiesOf(p, i)
		fmt.Fprintf(rows, "%s\t%s\t%s\t%.*f\t%.*f\t%.*f\t%.*f\t%d\t%v\t%s\t%s\t%s\t\n", d.ID,
			className(r.judgement(i).Severity.Class), catchmentText(&d, area), lengthDecimals, length.Value(m),
			percentDecimals, slope.Value(d.Profile.DropM()/m), lengthDecimals, length.Value(l.EligibleM), lengthDecimals, length.Value(l.TreatedM),
			len(l.Sites), seriesOf(p, i), knownText(mass.Value(q.RockT), 1), knownText(volume.Value(q.SedimentM3), 1), knownText(q.Cost, 0))
	}
	rows.Flush()
	if with > shown {
		fmt.Fprintf(out, "  and %d more in summary.csv\n", with-shown)
	}
}

// writeFindings groups findings by rule, in the order in which rules first come up.
// file names where all of them stand.
func writeFindings(out *bytes.Buffer, findings []hydro.Finding, file string) {
	if len(findings) == 0 {
		return
	}
	out.WriteString("\nFindings\n")
	byRule := map[string][]hydro.Finding{}
	for _, f := range findings {
		byRule[f.Rule] = append(byRule[f.Rule], f)
	}
	for _, f := range findings {
		group := byRule[f.Rule]
		if group == nil {
			continue
		}
		byRule[f.Rule] = nil
		fmt.Fprintf(out, "  %s\n", f.Rule)
		for _, g := range group[:min(len(group), mostPerFinding)] {
			text := g.Text
			if !strings.Contains(text, g.Subject) {
				text = g.Subject + ": " + text
			}
			paragraph(out, "    - ", text)
		}
		if more := len(group) - mostPerFinding; more > 0 {
			fmt.Fprintf(out, "    and %d more in %s\n", more, file)
		}
	}
}
