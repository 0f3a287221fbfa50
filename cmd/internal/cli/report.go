package cli

import (
	"context"
	"slices"
	"strings"

	"github.com/urfave/cli/v2"
)

func reportCommand(c *console) *cli.Command {
	return &cli.Command{
		Name:      "report",
		Usage:     "write the report of a finished plan again, for one reader or all",
		ArgsUsage: "DIR [--for planner|crew|funder] [--share --out DIR]",
		Description: "Reads a finished plan back and writes into its folder what people take away: for the planner report.html\n" +
			"and plan.xlsx; for the crew cards.pdf, sites.gpx, sites.kml, sites.csv and stakeout.csv; for the funder\n" +
			"summary.md and summary.html. A plan has all of them: this renews them, in other units say. With --share they\n" +
			"go to a folder of their own, without the places of the layers that handover.private names.",
		Flags: []cli.Flag{
			&cli.StringFlag{Name: "for", Usage: "`WHOM` to write for: planner, crew or funder; all if left out"},
			toggle("share", "leave out the exact places of what handover.private names, and write into --out"),
			&cli.StringFlag{Name: "out", Usage: "folder `DIR` to make, with --share"},
		},
		Action: c.report,
	}
}

func (c *console) report(ctx *cli.Context) error {
	dir := ctx.Args().First()
	if dir == "" || ctx.Args().Len() > 1 {
		return requestf("report wants one folder, that of a finished plan: siltstep report DIR")
	}
	whom, err := readers(ctx.String("for"))
	if err != nil {
		return err
	}
	shared := ctx.Bool("share")
	if !shared && ctx.String("out") != "" {
		return requestf("--out goes with --share; without it the files are written into the folder of the plan")
	}
	h, free, err := openHandover(dir, c.units)
	if err != nil {
		return err
	}
	defer free()
	if !shared {
		return c.renew(ctx.Context, h, dir, whom)
	}
	if len(h.config.Handover.Private) == 0 {
		return requestf("--share: the plan names nothing private: set handover.private, such as [dams, headcuts], in its settings and plan again")
	}
	h.share()
	return c.shareReport(ctx.Context, h, ctx.String("out"), whom)
}

// renew writes files of a plan again.
func (c *console) renew(ctx context.Context, h *handover, dir string, whom []audience) error {
	out, err := openAmendment(dir)
	if err != nil {
		return err
	}
	defer out.discard()
	return c.handOut(ctx, h, out, whom, out.amend)
}

// shareReport writes the files into a folder of their own.
func (c *console) shareReport(ctx context.Context, h *handover, target string, whom []audience) error {
	out, err := openFolder(target, false)
	if err != nil {
		return err
	}
	defer out.discard()
	return c.handOut(ctx, h, out, whom, out.commit)
}

// handOut writes the files, puts them into place and tells of them.
func (c *console) handOut(ctx context.Context, h *handover, out *folder, whom []audience, settle func() error) error {
	job := c.watch(1)
	defer job.close()
	job.begin("files")
	names, err := h.write(ctx, out, whom)
	if err != nil {
		return err
	}
	if err := settle(); err != nil {
		return err
	}
	job.close()
	c.printf("Written into %s: %s\n", out.target, strings.Join(names, ", "))
	return nil
}

// readers returns whom to write for.
func readers(text string) ([]audience, error) {
	if text == "" {
		return audiences, nil
	}
	if whom := audience(text); slices.Contains(audiences, whom) {
		return []audience{whom}, nil
	}
	words := make([]string, len(audiences))
	for i, a := range audiences {
		words[i] = string(a)
	}
	return nil, requestf("--for %s: there is no such reader; take %s%s", text, strings.Join(words, ", "), didYouMean(text, words, ""))
}
