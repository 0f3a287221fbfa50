package cli

import (
	"io"

	"github.com/urfave/cli/v2"
)

// Version is the version of siltstep that plans carry.
const Version = "0.1.0"

// newApp returns the program with all its commands.
func newApp(stdout, stderr io.Writer) *cli.App {
	c := &console{out: stdout, err: stderr}
	app := &cli.App{
		Name:                  "siltstep",
		Usage:                 "from an elevation model to a plan of check dams",
		Version:               Version,
		Writer:                stdout,
		ErrWriter:             stderr,
		Flags:                 globalFlags(),
		Before:                c.read,
		Commands:              []*cli.Command{inspectCommand(c), screenCommand(c), planCommand(c), profileCommand(c), sizeCommand(c), peakCommand(c), reportCommand(c), demoCommand(c), completionCommand(c)},
		ExitErrHandler:        func(*cli.Context, error) {}, // Run alone turns errors into exit codes
		CustomAppHelpTemplate: appHelp,
		HideHelpCommand:       true, // arrange turns "help plan" into "plan --help"
	}
	for _, command := range app.Commands {
		command.HideHelpCommand = true
		command.CustomHelpTemplate = commandHelp + exampleHelp(command.Name)
	}
	return app
}

func globalFlags() []cli.Flag {
	return []cli.Flag{
		&cli.StringFlag{Name: "units", Value: "metric", Usage: "`SYSTEM` of units that people read, metric or us; data files stay SI"},
		toggle("quiet", "print nothing but errors"),
		&cli.StringFlag{Name: "log", Value: "text", Usage: "`FORM` of the progress lines, text or json"},
	}
}

// toggle is a flag without a value.
func toggle(name, usage string) cli.Flag {
	return &cli.BoolFlag{Name: name, Usage: usage, DisableDefaultText: true}
}

const appHelp = `{{.Name}}: {{.Usage}}

Usage: siltstep [--units metric|us] [--quiet] [--log text|json] COMMAND ...

Commands:{{range .VisibleCommands}}
  {{printf "%-10s" .Name}} {{.Usage}}{{end}}

Flags, before or after the command:{{range .VisibleFlags}}
  {{.}}{{end}}

siltstep COMMAND --help tells more of one. A plan is a planning aid, not an engineered design: walk every site.
`

const commandHelp = `siltstep {{.Name}}: {{.Usage}}

Usage: siltstep {{.Name}} {{.ArgsUsage}}

{{.Description}}

Flags:{{range .VisibleFlags}}
  {{.}}{{end}}

Also --units, --quiet and --log: see siltstep --help.
`
