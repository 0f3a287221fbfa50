package cli

import (
	"fmt"
	"slices"
	"strings"

	"github.com/urfave/cli/v2"
)

// shells lists the shells that a completion can be had for.
var shells = []string{"bash", "zsh", "fish"}

// flagWords lists the words that a flag takes, by its name. Of other flags none is known.
var flagWords = map[string][]string{
	"units": {"metric", "us"}, "log": {"text", "json"}, "format": {"text", "json"}, "for": {"planner", "crew", "funder"},
	"kind": {"loose-rock", "one-rock", "log", "brush", "gabion"}, "wetness": {"dry", "average", "wet"}, "condition": {"poor", "fair", "good"},
	"elevation-unit": {"m", "ft", "us-ft"},
}

func completionCommand(c *console) *cli.Command {
	return &cli.Command{
		Name:      "completion",
		Usage:     "print what lets a shell complete commands, flags and file names",
		ArgsUsage: "bash|zsh|fish",
		Description: "For bash, put \"source <(siltstep completion bash)\" into ~/.bashrc. For zsh, put the same with zsh into\n" +
			"~/.zshrc, after compinit. For fish: siltstep completion fish > ~/.config/fish/completions/siltstep.fish",
		Action: c.completion,
	}
}

func (c *console) completion(ctx *cli.Context) error {
	shell := ctx.Args().First()
	if ctx.Args().Len() != 1 || !slices.Contains(shells, shell) {
		return requestf("completion wants the name of a shell: %s%s", strings.Join(shells, ", "), didYouMean(shell, shells, ""))
	}
	if c.quiet {
		return requestf("completion prints, and --quiet forbids it; leave one out")
	}
	text, err := completionOf(ctx.App, shell)
	if err != nil {
		return err
	}
	_, err = fmt.Fprint(c.out, text)
	return err
}

// completionOf returns the script for a shell.
func completionOf(app *cli.App, shell string) (string, error) {
	switch shell {
	case "bash":
		return bashCompletion(app), nil
	case "zsh":
		return zshCompletion(app), nil
	}
	for _, f := range allFlags(app) {
		if s, ok := f.(*cli.StringFlag); ok {
			s.TakesFile = takesPath(s) // which the script looks at
		}
	}
	return app.ToFishCompletion()
}

// placeholder returns what a flag calls its value, such as FILE; empty for one without a value.
func placeholder(f cli.Flag) string {
	d, ok := f.(cli.DocGenerationFlag)
	if !ok || !d.TakesValue() {
		return ""
	}
	if parts := strings.Split(d.GetUsage(), "`"); len(parts) == 3 {
		return parts[1]
	}
	return "VALUE"
}

// takesPath reports whether the value of a flag is a file or folder.
func takesPath(f cli.Flag) bool { return slices.Contains([]string{"FILE", "DIR"}, placeholder(f)) }

// takesFiles reports whether a command has files or a folder to work on.
func takesFiles(command *cli.Command) bool {
	return strings.HasPrefix(command.ArgsUsage, "DEM") || strings.HasPrefix(command.ArgsUsage, "DIR")
}

// plainFlags returns flags without those for help and version, which the library puts in while a command runs.
func plainFlags(flags []cli.Flag) (list []cli.Flag) {
	for _, f := range flags {
		if name := f.Names()[0]; !isHelp(name) && !isVersion(name) {
			list = append(list, f)
		}
	}
	return list
}

// dashedNames lists the names of flags as they are typed, each flag's in its own order.
func dashedNames(flags []cli.Flag) (names []string) {
	for _, f := range flags {
		for _, name := range f.Names() {
			names = append(names, dashed(name))
		}
	}
	return names
}
