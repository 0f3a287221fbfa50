package cli

import (
	"siltstep/cmd/internal/report"
)

// tell prints what a person wants of a finished plan: what was decided about the data, the
// summary, and where the files are.
func (c *console) tell(made *report.Record, dir string) error {
	if c.quiet {
		return nil
	}
	c.printDecisions(made.Decisions)
	if err := report.WriteTerminal(c.out, made.Plan, c.units); err != nil {
		return err
	}
	c.printf("\nFiles are in %s: plan.json, summary.csv, *.geojson, profiles/, hillshade.png\n", dir)
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
