package settings

import (
	"slices"
	"strings"
)

// several is any of a list of words, or none.
type several struct {
	list []string
	at   func(*Settings) *[]string
}

func (s several) kind() string { return "list" }
func (s several) allowed() string {
	return "a list of " + strings.Join(s.list, ", ") + ", each at most once; or " + notGiven
}

// read takes one word without brackets too, and puts the words into the order of the list.
func (s several) read(c *Settings, v value) string {
	switch {
	case v.wrong != "":
		return v.wrong + "; " + s.allowed()
	case !v.list && v.texts[0] == notGiven:
		*s.at(c) = nil
		return ""
	case len(v.texts) == 0:
		return s.allowed()
	}
	words := slices.Clone(v.texts)
	slices.SortStableFunc(words, func(a, b string) int { return slices.Index(s.list, a) - slices.Index(s.list, b) })
	if fault := s.fault(words); fault != "" {
		return fault
	}
	*s.at(c) = words
	return ""
}

func (s several) check(c Settings) string { return s.fault(*s.at(&c)) }

// fault tells what is wrong with words: one that is not in the list, twice, or not in its order.
func (s several) fault(words []string) string {
	last := -1
	for _, w := range words {
		i := slices.Index(s.list, w)
		if i <= last {
			return s.allowed()
		}
		last = i
	}
	return ""
}

func (s several) show(c Settings) string {
	words := *s.at(&c)
	if len(words) == 0 {
		return notGiven
	}
	return "[" + strings.Join(words, ", ") + "]"
}
