package cli

import (
	"github.com/urfave/cli/v2"
)

func screenCommand(c *console) *cli.Command {
	return &cli.Command{
		Name:      "screen",
		Usage:     "rank the drainages of an elevation model by erosion",
		ArgsUsage: "DEM... --out DIR",
		Description: "Finds the drainages, measures how far each has cut into the land, and writes into DIR: the\n" +
			"ranking with every part of it, map layers, profiles, cross-sections, a map and a shaded relief.\n" +
			"It sites no dams. Several DEM files are one mosaic.",
		Flags: append(commissionFlags("it is drawn, and the share of each drainage inside is said"),
			&cli.StringFlag{Name: "explain", Usage: "print what the severity of the drainage `ID` rests on, line by line, as in --explain D07"}),
		Action: func(ctx *cli.Context) error {
			if c.quiet && ctx.IsSet("explain") {
				return requestf("--explain prints, and --quiet forbids it; leave one out")
			}
			return c.commission(ctx, planning{screenOnly: true, explain: ctx.String("explain")}, "screen.json", screenStages)
		},
	}
}
