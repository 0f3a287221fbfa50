package settings

import (
	"strings"
	"unicode/utf8"
)

// MaxBytes is the largest settings file that is read, in bytes. Source: our own choice,
// some ten times a file with every key and comment.
const MaxBytes = 32 << 10

// maxDepth is how many brackets may stand open at once. Two are enough for every key; the
// YAML reader takes a time that grows with the square of the depth.
const maxDepth = 50

// plain returns the text of a settings file without a byte order mark, or what is wrong
// with it: too large, not UTF-8, control characters, brackets nested too deeply.
func plain(data []byte) (string, *Fault) {
	if len(data) > MaxBytes {
		return "", &Fault{Allowed: "larger than 32 KiB; a settings file lists keys and values, see --print-settings"}
	}
	text := strings.TrimPrefix(string(data), "\ufeff")
	line, depth := 1, 0
	for i, r := range text {
		switch {
		case r == utf8.RuneError && !strings.HasPrefix(text[i:], "\ufffd"):
			return "", &Fault{Line: line, Allowed: "not UTF-8 text; save the file as UTF-8"}
		case r < ' ' && r != '\t' && r != '\n' && r != '\r' || r == 0x7f:
			return "", &Fault{Line: line, Allowed: "a control character; a settings file is plain text"}
		case r == '\n':
			line++
		case r == '[' || r == '{':
			depth++
		case r == ']' || r == '}':
			depth = max(depth-1, 0)
		}
		if depth > maxDepth {
			return "", &Fault{Line: line, Allowed: "brackets nested too deeply; a list has two items, such as [2 %, 20 %]"}
		}
	}
	return text, nil
}
