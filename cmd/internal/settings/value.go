package settings

import (
	"path/filepath"

	"siltstep/hydro"
)

// Settings is all that a settings file says.
type Settings struct {
	hydro.Config
	Files Files
}

// Files names layers that a settings file points to, as they are written there; empty for none.
type Files struct {
	Roads, Culverts, StockPonds string
	Folder                      string // that of the settings file, which relative names start from; empty for the current one
}

// Path returns where to find a file of the settings; empty for an empty name.
func (f Files) Path(name string) string {
	if name == "" || filepath.IsAbs(name) {
		return name
	}
	return filepath.Join(f.Folder, name)
}

// Defaults returns the settings used where the user gives none.
func Defaults() Settings { return Settings{Config: hydro.Defaults()} }

// ValueIn returns the value that settings hold for the key, as it is written in a file,
// "0.6 m"; of a file only the
// last element of its name. The settings must be within the ranges of the keys.
func (k Key) ValueIn(cfg Settings) string {
	if f, ok := k.rule.(file); ok {
		if name := *f.at(&cfg); name != "" {
			return filepath.Base(name)
		}
	}
	return k.rule.show(cfg)
}
