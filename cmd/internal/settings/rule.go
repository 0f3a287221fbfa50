package settings

import (
	"slices"
	"strings"

	"siltstep/hydro"
)

// rule reads, checks and writes the value of one key. Each returned fault is what is wrong
// and what is allowed, empty where nothing is.
type rule interface {
	kind() string
	allowed() string
	read(c *hydro.Config, v value) (fault string) // unit and form
	check(c hydro.Config) (fault string)          // range, also against other keys
	show(c hydro.Config) string                   // as in a file; the value has passed check
}

// single returns the one text of a value.
func single(v value, allowed string) (text, fault string) {
	switch {
	case v.wrong != "":
		return "", v.wrong + "; " + allowed
	case v.list:
		return "", "one value is wanted, not a list: " + allowed
	}
	return v.texts[0], ""
}

// word is a choice from a list.
type word struct {
	list []string
	get  func(hydro.Config) string
	set  func(*hydro.Config, string)
}

func (w word) kind() string    { return "word" }
func (w word) allowed() string { return strings.Join(w.list, " or ") }

func (w word) read(c *hydro.Config, v value) string {
	text, fault := single(v, w.allowed())
	if fault == "" && !slices.Contains(w.list, text) {
		fault = w.allowed()
		if len(w.list) == 1 {
			fault += " is all there is in this version"
		}
	}
	if fault == "" {
		w.set(c, text)
	}
	return fault
}

func (w word) check(c hydro.Config) string {
	if !slices.Contains(w.list, w.get(c)) {
		return w.allowed()
	}
	return ""
}

func (w word) show(c hydro.Config) string { return w.get(c) }

// flag is true or false.
type flag struct{ at func(*hydro.Config) *bool }

func (f flag) kind() string              { return "true or false" }
func (f flag) allowed() string           { return "true or false" }
func (f flag) check(hydro.Config) string { return "" }

func (f flag) read(c *hydro.Config, v value) string {
	text, fault := single(v, f.allowed())
	if fault == "" && text != "true" && text != "false" {
		fault = f.allowed()
	}
	if fault == "" {
		*f.at(c) = text == "true"
	}
	return fault
}

func (f flag) show(c hydro.Config) string {
	if *f.at(&c) {
		return "true"
	}
	return "false"
}
