package cli

import (
	"siltstep/cmd/internal/report"
)

// tell prints what a person wants of a finished plan or screening: what was decided about the
// data, the summary, the evidence that was asked for, and where the files are.
func (c *console) tell(m *made, dir string) error {
	if c.quiet {
		return nil
	}
	c.printDecisions(m.Decisions)
	if err := report.WriteTerminal(c.out, *m.Record, c.units); err != nil {
		return err
	}
	if m.evidence != "" {
		c.printf("\nEvidence\n%s", m.evidence)
	}
	folders := ""
	if len(m.Plan.Network.Drainages) > 0 {
		folders = "profiles/, sections/, "
	}
	c.printf("\nFiles are in %s: %s, ranking.csv, summary.csv, *.geojson, %s, %smap.svg, map.png, hillshade.png\n", dir, m.File(), m.GeoPackage(), folders)
	return nil
}

// printDecisions says what was decided about the data.
func (c *console) printDecisions(decisions []string) {
	c.printf("Elevation model\n")
	for _, decision := range decisions {
		c.printf("  - %s\n", decision)
	}
	c.printf("\n")
}
