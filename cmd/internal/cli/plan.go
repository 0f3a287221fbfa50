package cli

import (
	"github.com/urfave/cli/v2"

	"siltstep/cmd/internal/settings"
)

func planCommand(c *console) *cli.Command {
	return &cli.Command{
		Name:      "plan",
		Usage:     "plan check dams on an elevation model",
		ArgsUsage: "DEM... --out DIR",
		Description: "Finds the drainages, lays out series of check dams, and writes the plan into DIR:\n" +
			"map layers, profiles, tables and a shaded relief. Several DEM files are one mosaic.",
		Flags: append([]cli.Flag{
			&cli.StringFlag{Name: "out", Usage: "folder `DIR` to make"},
			toggle("replace", "replace an earlier plan in DIR; files that siltstep did not write stay"),
			settingsFlag(),
			toggle("print-settings", "print the settings with units and sources, and stop"),
			&cli.StringFlag{Name: "property", Usage: "polygon layer `FILE`; dams stand inside it, water flows anywhere"},
			inflowFlag(),
			toggle("allow-coarse", "site dams on cells over 5 m too, as a rough count"),
			toggle("rasters", "write conditioned ground, flow bearing and catchment as GeoTIFF too"),
		}, elevationFlags()...),
		Action: c.plan,
	}
}

func (c *console) plan(ctx *cli.Context) error {
	cfg, err := configuration(ctx)
	if err != nil {
		return err
	}
	if ctx.Bool("print-settings") {
		return settings.Print(c.out, cfg)
	}
	cfg.Siting.AllowCoarse = ctx.Bool("allow-coarse")
	elevation, err := elevationRequest(ctx)
	if err != nil {
		return err
	}
	out, err := openFolder(ctx.String("out"), ctx.Bool("replace"))
	if err != nil {
		return err
	}
	defer out.discard()
	if err := out.guard("plan.json", append(elevation.Paths, ctx.String("property"), ctx.String("settings"))...); err != nil {
		return err
	}
	job := c.watch(planStages)
	defer job.close()
	made, err := makePlan(ctx.Context, planning{
		elevation: elevation,
		config:    cfg,
		property:  ctx.String("property"),
		inflow:    ctx.String("inflow"),
		settings:  ctx.String("settings"),
		rasters:   ctx.Bool("rasters"),
		units:     c.units,
	}, out, job)
	if err != nil {
		return err
	}
	if err := ctx.Context.Err(); err != nil {
		return err
	}
	if err := out.commit(); err != nil {
		return err
	}
	job.close()
	return c.tell(made, out.target)
}
