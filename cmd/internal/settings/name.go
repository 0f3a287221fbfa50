package settings

import (
	"slices"
	"strings"
)

// nameFault tells why there is no such key, or "" where there is one.
func nameFault(name string) string {
	known := names()
	if slices.Contains(known, name) {
		return ""
	}
	if near := Nearest(name, known, max(len(name)/3, 1)); near != "" {
		return "unknown key; did you mean " + near + "?"
	}
	section, _, _ := strings.Cut(name, ".")
	return "unknown key; " + section + " has " + inSection(section)
}

// sectionFault tells why there is no such section, or nil where there is one.
func sectionFault(section string, line int) *Fault {
	known := sectionNames()
	if slices.Contains(known, section) {
		return nil
	}
	f := &Fault{Line: line, Key: section, Allowed: "unknown section; there are " + strings.Join(known, ", ")}
	for _, name := range names() {
		if strings.HasSuffix(name, "."+section) || name == section {
			at, last, _ := strings.Cut(name, ".")
			f.Allowed = "a key stands in its section; write " + at + ": {" + last + ": …}"
			return f
		}
	}
	if near := Nearest(section, known, max(len(section)/3, 1)); near != "" {
		f.Allowed = "unknown section; did you mean " + near + "?"
	}
	return f
}

// names returns the full names of all keys, in order.
func names() []string {
	list := make([]string, len(table))
	for i, k := range table {
		list[i] = k.Name
	}
	return list
}

// sectionNames returns the sections, in order.
func sectionNames() []string {
	var list []string
	for _, k := range table {
		if s := k.Section(); !slices.Contains(list, s) {
			list = append(list, s)
		}
	}
	return list
}

// inSection lists the keys of a section by their short names.
func inSection(section string) string {
	var list []string
	for _, k := range table {
		if short, ok := strings.CutPrefix(k.Name, section+"."); ok {
			list = append(list, short)
		}
	}
	return strings.Join(list, ", ")
}

// Nearest returns the candidate with the fewest edits from a text, the first of equals, or
// "" where each needs more than mostEdits: letters put in, left out or changed.
func Nearest(text string, candidates []string, mostEdits int) string {
	best, least := "", mostEdits+1
	for _, c := range candidates {
		if d := edits(text, c); d < least {
			best, least = c, d
		}
	}
	return best
}

// edits returns how many bytes must be put in, left out or changed to turn a into b
// (Levenshtein 1966), row by row. Texts of very different length are not compared and
// count their difference.
func edits(a, b string) int {
	if gap := len(a) - len(b); gap > 20 || gap < -20 {
		return max(gap, -gap)
	}
	row := make([]int, len(b)+1)
	for j := range row {
		row[j] = j
	}
	for i := range len(a) {
		corner := row[0]
		row[0] = i + 1
		for j := range len(b) {
			change := corner
			if a[i] != b[j] {
				change++
			}
			corner = row[j+1]
			row[j+1] = min(change, row[j]+1, row[j+1]+1)
		}
	}
	return row[len(b)]
}
