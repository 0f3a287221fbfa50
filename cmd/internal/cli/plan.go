package cli

import (
	"github.com/urfave/cli/v2"
)

func planCommand(c *console) *cli.Command {
	return &cli.Command{
		Name:      "plan",
		Usage:     "plan check dams on an elevation model",
		ArgsUsage: "DEM... --out DIR",
		Description: "Does all that screen does, lays out series of check dams, and writes the plan into DIR:\n" +
			"map layers, profiles, cross-sections, tables, a map and a shaded relief. Several DEM files are one mosaic.",
		Flags: append(append(commissionFlags("dams stand inside it, water flows anywhere"), budgetFlags()...),
			toggle("allow-coarse", "site dams on cells over 5 m too, as a rough count"), toggle("compare", "tell side by side what each objective of dams.objective would take"), editsFlag()),
		Action: func(ctx *cli.Context) error {
			return c.commission(ctx, planning{}, "plan.json", planStages)
		},
	}
}
