package settings

import (
	"strconv"
	"strings"
	"unicode"
	"unicode/utf8"
)

// title is a line of text that a person reads, or none.
type title struct{ at func(*Settings) *string }

// mostTitleRunes is the longest title, characters. Source: our own choice, a line across a sheet.
const mostTitleRunes = 80

func (t title) kind() string    { return "text" }
func (t title) allowed() string { return "one line of up to 80 letters; or " + notGiven }

func (t title) read(c *Settings, v value) string {
	text, fault := single(v, t.allowed())
	switch {
	case fault != "":
		return fault
	case text == notGiven:
		text = ""
	case text == "" || !isTitle(text):
		return t.allowed()
	}
	*t.at(c) = text
	return ""
}

func (t title) check(c Settings) string {
	if text := *t.at(&c); !isTitle(text) || text == notGiven {
		return t.allowed()
	}
	return ""
}

// isTitle tells whether a text is one short line without blanks around it. An empty one is.
func isTitle(text string) bool {
	return utf8.ValidString(text) && utf8.RuneCountInString(text) <= mostTitleRunes && strings.TrimSpace(text) == text &&
		!strings.ContainsFunc(text, func(r rune) bool { return !unicode.IsPrint(r) })
}

// show quotes the text, so that whatever is in it reads back.
func (t title) show(c Settings) string {
	text := *t.at(&c)
	if text == "" {
		return notGiven
	}
	return strconv.Quote(text)
}
