package settings

import (
	"errors"
	"fmt"
	"io"
	"strings"
	"unicode/utf8"
)

// Print writes the settings as a file that Parse reads back to the same values: every key
// with its value and unit, and a comment with its meaning, what is allowed, the default where
// the value differs, and the source. Fields without a key are not written. Errors: a value is
// out of range, and then nothing is written; w fails.
func Print(w io.Writer, cfg Settings) error {
	var faults []error
	for _, k := range table {
		if why := k.rule.check(cfg); why != "" {
			faults = append(faults, &Fault{Key: k.Name, Allowed: why})
		}
	}
	if len(faults) > 0 {
		return fmt.Errorf("settings cannot be written: %w", errors.Join(faults...))
	}
	if _, err := io.WriteString(w, text(cfg)); err != nil {
		return fmt.Errorf("write settings: %w", err)
	}
	return nil
}

// text returns the file.
func text(cfg Settings) string {
	lines := make([]string, len(table))
	width := 0
	for i, k := range table {
		_, short, _ := strings.Cut(k.Name, ".")
		lines[i] = "  " + short + ": " + k.rule.show(cfg)
		width = max(width, utf8.RuneCountInString(lines[i]))
	}
	var b strings.Builder
	b.WriteString("# Settings of a plan. A key that is left out keeps its default.\n")
	section := ""
	for i, k := range table {
		if s := k.Section(); s != section {
			section = s
			b.WriteString(section + ":\n")
		}
		fmt.Fprintf(&b, "%-*s  # %s\n", width, lines[i], comment(k, k.rule.show(cfg)))
	}
	return b.String()
}

func comment(k Key, shown string) string {
	parts := []string{k.Meaning, "allowed: " + k.Allowed}
	if shown != k.Default {
		parts = append(parts, "default: "+k.Default)
	}
	return strings.Join(append(parts, "source: "+k.Source), "; ")
}
