package settings

import (
	"slices"
	"strconv"
	"strings"
	"unicode"
	"unicode/utf8"
)

// rule reads, checks and writes the value of one key. Each returned fault is what is wrong
// and what is allowed, empty where nothing is.
type rule interface {
	kind() string
	allowed() string
	read(c *Settings, v value) (fault string) // unit and form
	check(c Settings) (fault string)          // range, also against other keys
	show(c Settings) string                   // as in a file; the value has passed check
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
	get  func(Settings) string
	set  func(*Settings, string)
}

func (w word) kind() string    { return "word" }
func (w word) allowed() string { return strings.Join(w.list, " or ") }

func (w word) read(c *Settings, v value) string {
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

func (w word) check(c Settings) string {
	if !slices.Contains(w.list, w.get(c)) {
		return w.allowed()
	}
	return ""
}

func (w word) show(c Settings) string { return w.get(c) }

// file is the name of a file, or none.
type file struct {
	content string // what it holds
	at      func(*Settings) *string
}

// anyLayer follows the content of a map layer.
const anyLayer = ", any layer that GDAL reads"

// noFile stands in a settings file for no file.
const noFile = "none"

func (f file) kind() string { return "file" }
func (f file) allowed() string {
	return f.content + ", relative to the settings file; or " + noFile
}
func (f file) check(Settings) string { return "" }

func (f file) read(c *Settings, v value) string {
	text, fault := single(v, f.allowed())
	switch {
	case fault != "":
		return fault
	case text == "":
		return "no name; " + f.allowed()
	case text == noFile:
		text = ""
	}
	*f.at(c) = text
	return ""
}

// show quotes the name, so that whatever is in it reads back.
func (f file) show(c Settings) string {
	name := *f.at(&c)
	if name == "" {
		return noFile
	}
	return strconv.Quote(name)
}

// name is a short text that stands for itself, or none.
type name struct{ at func(*Settings) *string }

// mostNameRunes is the longest name, characters. Source: our own choice.
const mostNameRunes = 12

func (n name) kind() string    { return "name" }
func (n name) allowed() string { return "up to 12 letters or signs, such as USD; or " + notGiven }

func (n name) read(c *Settings, v value) string {
	text, fault := single(v, n.allowed())
	if fault != "" {
		return fault
	}
	if text == notGiven {
		text = ""
	} else if text == "" || !isName(text) {
		return n.allowed()
	}
	*n.at(c) = text
	return ""
}

func (n name) check(c Settings) string {
	if !isName(*n.at(&c)) {
		return n.allowed()
	}
	return ""
}

// isName tells whether a text is short and of letters, marks and signs of money alone.
func isName(text string) bool {
	return utf8.ValidString(text) && utf8.RuneCountInString(text) <= mostNameRunes && !strings.ContainsFunc(text, func(r rune) bool {
		return !unicode.IsLetter(r) && !unicode.Is(unicode.Sc, r)
	})
}

func (n name) show(c Settings) string {
	text := *n.at(&c)
	if text == "" {
		return notGiven
	}
	return strconv.Quote(text)
}

// flag is true or false.
type flag struct{ at func(*Settings) *bool }

func (f flag) kind() string          { return "true or false" }
func (f flag) allowed() string       { return "true or false" }
func (f flag) check(Settings) string { return "" }

func (f flag) read(c *Settings, v value) string {
	text, fault := single(v, f.allowed())
	if fault == "" && text != "true" && text != "false" {
		fault = f.allowed()
	}
	if fault == "" {
		*f.at(c) = text == "true"
	}
	return fault
}

func (f flag) show(c Settings) string {
	if *f.at(&c) {
		return "true"
	}
	return "false"
}
