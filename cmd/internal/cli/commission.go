package cli

import (
	"github.com/urfave/cli/v2"

	"siltstep/cmd/internal/settings"
)

// commissionFlags are those that plan and screen share.
func commissionFlags(inside string) []cli.Flag {
	return append([]cli.Flag{
		&cli.StringFlag{Name: "out", Usage: "folder `DIR` to make"},
		toggle("replace", "replace what the same command wrote into DIR before; files that siltstep did not write stay"),
		settingsFlag(),
		toggle("print-settings", "print the settings with units and sources, and stop"),
		&cli.StringFlag{Name: "property", Usage: "polygon layer `FILE`; " + inside},
		inflowFlag(),
		toggle("rasters", "write conditioned ground, flow bearing, catchment and incision as GeoTIFF too"),
	}, elevationFlags()...)
}

// commission takes a command line of plan or screen, does the work, commits the folder and
// tells of it. mark is the file that every run of the command writes.
func (c *console) commission(ctx *cli.Context, p planning, mark string, total int) error {
	cfg, err := configuration(ctx)
	if err != nil {
		return err
	}
	if ctx.Bool("print-settings") {
		return settings.Print(c.out, cfg)
	}
	if !p.screenOnly {
		cfg.Siting.AllowCoarse, cfg.Siting.Compare = ctx.Bool("allow-coarse"), ctx.Bool("compare")
		if cfg.Budget, err = readBudget(ctx, cfg.Works.Prices); err != nil {
			return err
		}
		p.edits = ctx.String("edits")
	}
	p.config, p.units = cfg, c.units
	p.property, p.inflow, p.settings = ctx.String("property"), ctx.String("inflow"), ctx.String("settings")
	p.rasters = ctx.Bool("rasters")
	if p.elevation, err = elevationRequest(ctx); err != nil {
		return err
	}
	out, err := openFolder(ctx.String("out"), ctx.Bool("replace"))
	if err != nil {
		return err
	}
	defer out.discard()
	if err := out.guard(mark, append(p.elevation.Paths, p.property, p.settings, p.edits, cfg.Files.Path(cfg.Files.Rain))...); err != nil {
		return err
	}
	job := c.watch(total)
	defer job.close()
	made, err := makePlan(ctx.Context, p, out, job)
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
