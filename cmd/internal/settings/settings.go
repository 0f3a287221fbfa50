package settings

import (
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
)

// Load reads a settings file. What it leaves out keeps its default. Errors match ErrInput and
// list every fault: the file cannot be read, or one of those that Parse names.
func Load(path string) (Settings, error) {
	data, err := head(path)
	if err != nil {
		var at *fs.PathError
		cause := err
		if errors.As(err, &at) {
			cause = at.Err
		}
		return Settings{}, &Fault{File: path, Allowed: "the settings file cannot be read: " + cause.Error(), cause: err}
	}
	cfg, err := Parse(path, data)
	if err == nil {
		cfg.Files.Folder = filepath.Dir(path)
	}
	return cfg, err
}

// head returns the first MaxBytes of a file and one byte more, so that Parse can tell when
// a file is too large.
func head(path string) ([]byte, error) {
	f, err := os.Open(path)
	if err != nil {
		return nil, err
	}
	defer f.Close()
	return io.ReadAll(io.LimitReader(f, MaxBytes+1))
}

// Parse reads settings from YAML; name stands for the file in messages. What the text leaves
// out keeps its default; an empty text gives Defaults. The error matches ErrInput and
// joins a Fault for each thing wrong: not a YAML text of one document, a key that is unknown,
// given twice or not available in this version, a unit that does not fit, a value out of
// range.
func Parse(name string, data []byte) (Settings, error) {
	text, fault := plain(data)
	if fault != nil {
		return Settings{}, join(name, []*Fault{fault})
	}
	entries, faults := document(text)
	cfg := Defaults()
	var read []entry // those in cfg now
	for _, e := range entries {
		if f := e.read(&cfg); f != nil {
			faults = append(faults, f)
			continue
		}
		read = append(read, e)
	}
	for _, e := range read {
		faults = append(faults, e.check(cfg)...)
	}
	if len(faults) > 0 {
		return Settings{}, join(name, faults)
	}
	cfg.file, cfg.told = name, read
	return cfg, nil
}

// read puts the value of the entry into the settings.
func (e entry) read(c *Settings) *Fault {
	if why := nameFault(e.name()); why != "" {
		return &Fault{Line: e.line, Key: e.name(), Allowed: why}
	}
	if why := ruleOf(e.name()).read(c, e.value); why != "" {
		return &Fault{Line: e.line, Key: e.name(), Value: e.value.shown(), Allowed: why}
	}
	return nil
}

// check holds the value of the entry against its range, all entries being read.
func (e entry) check(c Settings) []*Fault {
	if why := ruleOf(e.name()).check(c); why != "" {
		return []*Fault{{Line: e.line, Key: e.name(), Value: e.value.shown(), Allowed: why}}
	}
	return nil
}

// ruleOf returns the rule of a key that is in the table.
func ruleOf(name string) rule {
	for _, k := range table {
		if k.Name == name {
			return k.rule
		}
	}
	panic(fmt.Sprintf("settings: no key %q", name))
}
