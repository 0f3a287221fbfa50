package cli

import (
	"strings"

	"github.com/urfave/cli/v2"

	"siltstep/cmd/internal/units"
)

// A quantityFlag is a flag that takes a quantity with its unit and puts it, in SI, where to points. Left out, it leaves that alone.
type quantityFlag struct {
	name, usage string
	read        func(string) (float64, error)
	to          *float64
}

// flag returns the flag for the parser.
func (q quantityFlag) flag() cli.Flag { return &cli.StringFlag{Name: q.name, Usage: q.usage} }

// take reads the flag from a command line. The error names flag, value and what is taken.
func (q quantityFlag) take(ctx *cli.Context) error {
	text := ctx.String(q.name)
	if !ctx.IsSet(q.name) {
		return nil
	}
	v, err := q.read(text)
	if err != nil {
		return requestf("--%s: %w", q.name, err)
	}
	*q.to = v
	return nil
}

// takeAll reads flags in turn, and stops at the first that is wrong.
func takeAll(ctx *cli.Context, flags []quantityFlag) error {
	for _, q := range flags {
		if err := q.take(ctx); err != nil {
			return err
		}
	}
	return nil
}

// above0 refuses a quantity of nothing.
func above0(read func(string) (float64, error)) func(string) (float64, error) {
	return func(text string) (float64, error) {
		v, err := read(text)
		if err == nil && v == 0 {
			err = &units.Error{Text: text, Why: "more than 0 is wanted; leave the flag out where it is not known"}
		}
		return v, err
	}
}

// quantityFlags returns the flags for the parser.
func quantityFlags(quantities []quantityFlag) (flags []cli.Flag) {
	for _, q := range quantities {
		flags = append(flags, q.flag())
	}
	return flags
}

// formatFlag chooses between a text for people and JSON for programs.
func formatFlag() cli.Flag {
	return &cli.StringFlag{Name: "format", Value: "text", Usage: "`FORM` of the result, text or json"}
}

// asJSON reads formatFlag.
func asJSON(ctx *cli.Context) (bool, error) {
	switch form := ctx.String("format"); form {
	case "text", "json":
		return form == "json", nil
	default:
		return false, requestf("--format %s: it is text or json", form)
	}
}

// noFiles refuses words that are no flags.
func noFiles(ctx *cli.Context, example string) error {
	if ctx.Args().Present() {
		return requestf("%s takes no files, got %s; give quantities as flags, as in siltstep %[1]s %[3]s", ctx.Command.Name, ctx.Args().First(), example)
	}
	return nil
}

// oneOf refuses a text that is not in a list.
func oneOf(flag, got string, list ...string) error {
	for _, word := range list {
		if got == word {
			return nil
		}
	}
	return requestf("--%s %s: not known%s; take %s", flag, got, didYouMean(got, list, ""), strings.Join(list, ", "))
}
