package cli

import (
	"github.com/urfave/cli/v2"

	"siltstep/cmd/internal/settings"
)

// settingsFlag names a settings file.
func settingsFlag() cli.Flag {
	return &cli.StringFlag{Name: "settings", Usage: "settings `FILE`, YAML with units; --print-settings of plan prints one"}
}

// configuration returns the settings of a run: the defaults, or a file's.
func configuration(ctx *cli.Context) (settings.Settings, error) {
	path := ctx.String("settings")
	if path == "" {
		return settings.Parse("", nil)
	}
	cfg, err := settings.Load(path)
	return cfg, request(err)
}
