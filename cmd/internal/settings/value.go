package settings

import (
	"path/filepath"

	"siltstep/hydro"
	"siltstep/hydro/checkdam"
)

// Settings is all that a settings file says.
type Settings struct {
	hydro.Config
	Files    Files
	Ground   Ground // cover in place of Storm.CurveNumber; DesignStorm looks it up
	Handover Handover
	Funding  Funding

	file string  // that the settings were read from; empty for none
	told []entry // what stood in it
}

// Files names files that a settings file points to, as they are written there; empty for none.
type Files struct {
	Roads, Culverts, StockPonds                   string // layers of flow
	Exclusions, Buildings, LiveStreams, BaseLevel string // layers of dams
	Rain                                          string // table of rain
	Folder                                        string // that of the settings file, which relative names start from; empty for the current one
}

// Fault returns that the value of a key turned out wrong when it was used, with its place in the file.
func (s Settings) Fault(key, allowed string) *Fault {
	f := &Fault{File: s.file, Key: key, Allowed: allowed}
	for _, e := range s.told {
		if e.name() == key {
			f.Line, f.Value = e.line, e.value.shown()
		}
	}
	return f
}

// Path returns where to find a file of the settings; empty for an empty name.
func (f Files) Path(name string) string {
	if name == "" || filepath.IsAbs(name) {
		return name
	}
	return filepath.Join(f.Folder, name)
}

// Defaults returns the settings used where the user gives none: those of hydro, and of the works what holds for every kind of dam, so
// that it can be told.
func Defaults() Settings {
	s := Settings{Config: hydro.Defaults(), Handover: Handover{Paper: "a4"}}
	w := &s.Works
	w.StoneGravity, w.Voids, w.Waste = checkdam.StoneGravity, checkdam.DefaultVoids, checkdam.DefaultWaste
	w.Notch.FreeboardM = checkdam.LeastFreeboardM
	return s
}

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
