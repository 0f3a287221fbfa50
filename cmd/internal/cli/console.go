package cli

import (
	"fmt"
	"io"
	"os"

	"github.com/urfave/cli/v2"
	"golang.org/x/term"

	"siltstep/cmd/internal/units"
)

// A console is where a command talks to people, and how they want it.
type console struct {
	out, err io.Writer
	units    units.System
	quiet    bool
	log      string // "text" or "json"
}

// read takes the global flags.
func (c *console) read(ctx *cli.Context) error {
	var err error
	if c.units, err = units.ParseSystem(ctx.String("units")); err != nil {
		return requestf("--units: %w", err)
	}
	c.quiet = ctx.Bool("quiet")
	if c.log = ctx.String("log"); c.log != "text" && c.log != "json" {
		return requestf("--log %s: it is text or json", c.log)
	}
	return nil
}

// watch begins the report of a run of some stages: JSON lines where asked for, a bar on a
// terminal, a line a stage elsewhere, nothing when quiet.
func (c *console) watch(total int) *stages {
	switch {
	case c.quiet:
		return &stages{to: silence{}}
	case c.log == "json":
		return &stages{to: jsonReporter{c.err}}
	case isTerminal(c.err):
		return &stages{to: newBarReporter(c.err, total)}
	}
	return &stages{to: lineReporter{c.err}}
}

// printf prints a result for people, unless quiet.
func (c *console) printf(format string, args ...any) {
	if !c.quiet {
		fmt.Fprintf(c.out, format, args...)
	}
}

func isTerminal(w io.Writer) bool {
	file, ok := w.(*os.File)
	return ok && term.IsTerminal(int(file.Fd()))
}
